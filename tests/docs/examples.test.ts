import { describe, expect, test } from 'vitest';
import { filesBelow } from '../files.ts';
import { findExamples, runExample } from './examples.ts';

describe.each([
  ['doc comments', filesBelow('src', '.ts')],
  ['pages', ['README.md', 'DEVELOPERS.md', ...filesBelow('docs', '.md')]],
])('every example runs: %s', (_name, files) => {
  const examples = findExamples(files);

  test.each(examples)('$file:$line', (example) => {
    expect(runExample(example), 'results checked').toBeGreaterThan(0);
  });

  test('there are examples', () => {
    expect(examples.length).toBeGreaterThan(0);
  });
});
