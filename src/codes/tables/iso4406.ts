/**
 * ISO 4406: scale numbers for counts at 4, 6 and 14 µm(c) by automatic counter, and at 5 and 15 µm by microscope.
 *
 * The step is "generally two" but the printed limits are rounded (0.64, 1.3, 2.5): the table decides, not a power of
 * two.
 */
import type { Source } from '../../source.ts';
import type { ClassTable } from '../types.ts';
import { frozen } from './frozen.ts';

/** Table 1 as printed: the upper limit of each scale number from 0 on, particles per mL, whatever the size. */
const scaleLimits: readonly number[] = [
  0.01, 0.02, 0.04, 0.08, 0.16, 0.32, 0.64, 1.3, 2.5, 5, 10, 20, 40, 80, 160, 320, 640, 1300, 2500, 5000, 10000, 20000,
  40000, 80000, 160000, 320000, 640000, 1300000, 2500000,
];

type Members = Omit<ClassTable, 'counting' | 'perVolumeMl' | 'fewCounted' | 'standard' | 'classes' | 'limits'>;

/** The table with a class for each scale number, and its limit in every column. */
function withScale(members: Members): ClassTable {
  return frozen({
    ...members,
    standard: 'ISO 4406',
    counting: 'cumulative',
    perVolumeMl: 1,
    fewCounted: 20,
    classes: scaleLimits.map((_, number) => `${number}`),
    limits: scaleLimits.map((limit) => members.columns.map(() => limit)),
  });
}

export const iso4406Source: Source = {
  document: 'ISO 4406',
  edition: '1999, 2017, 2021',
  place: 'Table 1',
  standing: 'reproduced',
};

/** ISO 4406, three-part code of automatic counters: `22/18/13`. */
export const iso4406: ClassTable = /* @__PURE__ */ withScale({
  id: 'iso4406',
  title: 'ISO 4406, automatic particle counter',
  source: iso4406Source,
  notation: 'scale_numbers',
  elsewhere: 'iso4406Microscope has two numbers and ISO 4402, see convertSizing',
  columns: [
    { label: '4', from: { iso11171: 4 } },
    { label: '6', from: { iso11171: 6 } },
    { label: '14', from: { iso11171: 14 } },
  ],
});

export const iso4406MicroscopeSource: Source = {
  document: 'ISO 4406',
  edition: '1999, 2017, 2021; two-part code: 1987',
  place: 'Table 1',
  standing: 'reproduced',
};

/**
 * ISO 4406, code of microscope counts: `-/18/13`; the two-part code of the 1987 edition, `18/13`, is read as the same.
 */
export const iso4406Microscope: ClassTable = /* @__PURE__ */ withScale({
  id: 'iso4406Microscope',
  title: 'ISO 4406, microscope; two-part code of 1987',
  source: iso4406MicroscopeSource,
  notation: 'scale_numbers_after_dash',
  columns: [
    { label: '5', from: { microscope: 5, iso4402: 5 } },
    { label: '15', from: { microscope: 15, iso4402: 15 } },
  ],
  notes: ['Counts by a counter calibrated to ISO 4402 were coded at the same two sizes under the 1987 edition.'],
});
