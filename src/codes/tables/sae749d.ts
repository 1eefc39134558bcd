/**
 * SAE 749D, the tentative classes of 1961, particles per 100 mL between sizes.
 */
import type { Source } from '../../source.ts';
import type { ClassTable } from '../types.ts';
import { frozen } from './frozen.ts';

/** Where the table stands. */
export const sae749dSource: Source = {
  document: 'SAE 749D (SAE A-6D), joint proposal of ASTM, AIA and SAE',
  edition: '1961',
  place: 'contamination classes 0 to 6; that they are those of this proposal, one source says',
  standing: 'reproduced',
};

/** SAE 749D: one class, the worst of five ranges, `3`. */
export const sae749d: ClassTable = /* @__PURE__ */ frozen({
  id: 'sae749d',
  standard: 'SAE 749D',
  title: 'SAE 749D',
  source: sae749dSource,
  counting: 'differential',
  perVolumeMl: 100,
  notation: 'single',
  columns: [
    {
      label: '5-10',
      from: { microscope: 5, iso4402: 5, iso11171: 6.4 },
      to: { microscope: 10, iso4402: 10, iso11171: 9.8 },
    },
    {
      label: '10-25',
      from: { microscope: 10, iso4402: 10, iso11171: 9.8 },
      to: { microscope: 25, iso4402: 25, iso11171: 21.2 },
    },
    {
      label: '25-50',
      from: { microscope: 25, iso4402: 25, iso11171: 21.2 },
      to: { microscope: 50, iso4402: 50, iso11171: 38.2 },
    },
    {
      label: '50-100',
      from: { microscope: 50, iso4402: 50, iso11171: 38.2 },
      to: { microscope: 100, iso4402: 100, iso11171: 70 },
    },
    { label: '>100', from: { microscope: 100, iso4402: 100, iso11171: 70 } },
  ],
  classes: ['0', '1', '2', '3', '4', '5', '6'],
  limits: [
    [2700, 670, 93, 16, 1],
    [4600, 1340, 210, 28, 3],
    [9700, 2680, 380, 56, 5],
    [24000, 5360, 780, 110, 11],
    [32000, 10700, 1510, 225, 21],
    [87000, 21400, 3130, 430, 41],
    [128000, 42000, 6500, 1000, 92],
  ],
  notes: [
    'The same figures as the Navy classes. Some printings close the last range at 150 µm.',
    'Sizes for ISO 11171 counters are the printed pairs of ISO 11171:1999 (5 µm is 6.4 µm(c)); the standard itself ' +
      'names none. That 100 µm is 70 µm(c) stands in one reproduction only of those pairs, and in the heads of SAE ' +
      'AS4059.',
  ],
});
