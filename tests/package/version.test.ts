/** The version that the code tells is that of the package. */
import { expect, test } from 'vitest';
import pkg from '../../package.json' with { type: 'json' };
import { version } from '../../src/version.ts';

test('version', () => {
  expect(version).toBe(pkg.version);
});
