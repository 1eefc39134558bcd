/** The table of docs/texts.md that says where each event goes: it has every kind of event, each once. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { englishTexts } from '../../src/report/index.ts';

test('every event has a place to go, and one only', () => {
  const part = readFileSync('docs/texts.md', 'utf8').split('### Which event goes where\n')[1]?.split('\n#')[0] ?? '';
  const rows = part.split('\n').filter((line) => line.startsWith('| `'));
  const events = rows.flatMap((row) => row.split('|')[1]?.match(/\w+/g) ?? []);
  expect(events.sort()).toEqual(Object.keys(englishTexts.events.words).sort());
});
