/**
 * GOST 17216, industrial cleanliness, particles per 100 cm3 between sizes. Where the standard prints words instead of
 * numbers, the words are kept beside the limits.
 */
import type { Source } from '../../source.ts';
import type { ClassTable } from '../types.ts';
import { frozen } from './frozen.ts';
import { printedPairsNote, rangesBetween } from './ranges.ts';

export const gost17216Source: Source = {
  document: 'GOST 17216',
  edition: '1971, 2001',
  place:
    'Table 1: numeric cells of classes 00 to 8 reproduced from the 1971 edition; classes 9 to 17, and all words, ' +
    'from memory',
  standing: 'from memory',
};

/** Where there is to be nothing, as printed, by class and column. */
const printed: NonNullable<ClassTable['wording']> = {
  '00': { '50-100': 'absent', '100-200': 'absolute absence', fibres: 'absolute absence', 'mass %': 'blank' },
  '0': { '50-100': 'absent', '100-200': 'absolute absence', fibres: 'absolute absence', 'mass %': 'blank' },
  '1': { '50-100': 'absent', '100-200': 'absent', fibres: 'absent' },
  '2': { '100-200': 'absent', fibres: 'absent' },
  '3': { '100-200': 'absent', fibres: 'absent' },
  '4': { '100-200': 'absent', fibres: 'absent' },
  '5': { fibres: 'absent' },
};

/** The table with its words: any other cell without a limit reads `not normed`. */
function withWording(table: ClassTable): ClassTable {
  const wording: { [name: string]: { [label: string]: string } } = {};
  table.classes.forEach((name, row) => {
    const words: { [label: string]: string } = {};
    table.columns.forEach(({ label }, column) => {
      const word = printed[name]?.[label] ?? (table.limits[row]?.[column] === null ? 'not normed' : null);
      if (word !== null) words[label] = word;
    });
    wording[name] = words;
  });
  return frozen({ ...table, wording });
}

/** GOST 17216 Table 1: one class, the lowest whose limits all hold, `8`. */
export const gost17216: ClassTable = /* @__PURE__ */ withWording({
  id: 'gost17216',
  standard: 'GOST 17216',
  title: 'GOST 17216',
  source: gost17216Source,
  counting: 'differential',
  perVolumeMl: 100,
  notation: 'single',
  columns: /* @__PURE__ */ rangesBetween(
    [[0.5], [1, 4.2], [2, 4.6], [5, 6.4], [10, 9.8], [25, 21.2], [50, 38.2], [100, 70], [200]],
    [
      { label: 'fibres', from: {} },
      { label: 'mass %', from: {} },
    ],
  ),
  classes: ['00', '0', '1', '2', '3', '4', '5', '6', '7', '8', '9', '10', '11', '12', '13', '14', '15', '16', '17'],
  limits: [
    [800, 400, 32, 8, 4, 1, 0, 0, 0, null],
    [1600, 800, 63, 16, 8, 2, 0, 0, 0, null],
    [null, 1600, 125, 32, 16, 3, 0, 0, 0, null],
    [null, null, 250, 63, 32, 4, 1, 0, 0, null],
    [null, null, null, 125, 63, 8, 2, 0, 0, null],
    [null, null, null, 250, 125, 12, 3, 0, 0, null],
    [null, null, null, 500, 250, 25, 4, 1, 0, null],
    [null, null, null, 1000, 500, 50, 6, 2, 1, 0.0002],
    [null, null, null, 2000, 1000, 100, 12, 4, 2, 0.0002],
    [null, null, null, 4000, 2000, 200, 25, 6, 3, 0.0004],
    [null, null, null, 8000, 4000, 400, 50, 12, 4, 0.0006],
    [null, null, null, 16000, 8000, 800, 100, 25, 5, 0.0008],
    [null, null, null, 31500, 16000, 1600, 200, 50, 10, 0.0016],
    [null, null, null, 63000, 31500, 3150, 400, 100, 20, 0.0032],
    [null, null, null, null, 63000, 6300, 800, 200, 40, 0.005],
    [null, null, null, null, 125000, 12500, 1600, 400, 80, 0.008],
    [null, null, null, null, null, 25000, 3150, 800, 160, 0.016],
    [null, null, null, null, null, 50000, 6300, 1600, 315, 0.032],
    [null, null, null, null, null, null, 12500, 3150, 630, 0.064],
  ],
  notes: [
    'Numeric cells of classes 00 to 8 are as in two transcriptions of the 1971 edition, which agree; classes 9 to ' +
      '17, and which cells read absent, absolute absence or not normed, are from memory. Confirm before relying on ' +
      'them.',
    'A cell that reads absent or absolute absence allows no particle in a single sample. A blank or not normed cell ' +
      'sets no limit; the wording says which it is.',
    'Fibres and mass are no particle counts: they are always listed as missing, and a target is judged without them.',
    printedPairsNote,
  ],
});
