// Published counts of test dust: the same oil in every standard, and how well a code of three sizes foretells the rest.
import { readFileSync } from 'node:fs';
import {
  as4059Cumulative,
  classify,
  countAt,
  cumulativeCounts,
  iso4406,
  likelyClasses,
  limitsOf,
  nas1638,
  parseCsv,
  possibleClasses,
} from 'motescale';
import { heading, say, shown, table } from './page.mjs';

const levels = [3, 10, 15];

export function printDust() {
  heading('ISO medium test dust: the counts of ISO 16889:2008, Table 4');
  say('Midpoints of the printed ranges, particles per mL and larger, sizes in µm(c).');
  console.log();
  const { header, rows } = parseCsv(readFileSync(new URL('iso16889-table4.csv', import.meta.url), 'utf8'));
  const at = (level) => {
    const low = header.indexOf(`${level} mg/L low`);
    return cumulativeCounts(Object.fromEntries(rows.map((row) => [row[0], (row[low] + row[low + 1]) / 2])));
  };
  table(
    ['', ...levels.map((level) => `${level} mg/L`)],
    [
      ...[4, 6, 14].map((size) => [`${size} µm(c)`, ...levels.map((level) => shown(countAt(at(level), size).perMl))]),
      ['ISO 4406', ...levels.map((level) => classify(iso4406, at(level)).text)],
      ['AS4059 Table 2, A to C', ...levels.map((level) => classify(as4059Cumulative, at(level)).text)],
      ...[
        ['NAS 1638, likely from the counts', (level) => likelyClasses(nas1638, at(level))],
        [
          'NAS 1638, likely from the code',
          (level) => likelyClasses(nas1638, limitsOf(iso4406, classify(iso4406, at(level)))),
        ],
        [
          'NAS 1638, certain from the code',
          (level) => possibleClasses(nas1638, limitsOf(iso4406, classify(iso4406, at(level)))),
        ],
      ].map(([name, span]) => [name, ...levels.map((level) => spanText(span(level)))]),
    ],
  );
}

function spanText({ lowest, highest }) {
  return lowest === highest ? lowest : `${lowest} to ${highest}`;
}
