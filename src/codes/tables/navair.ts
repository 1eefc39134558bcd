/** The Navy classes of NAVAIR 01-1A-17, particles per 100 mL between sizes. */
import type { Source } from '../../source.ts';
import type { ClassTable } from '../types.ts';
import { frozen } from './frozen.ts';
import { printedPairsNote, rangesUpwards } from './ranges.ts';

export const navairSource: Source = {
  document: 'NAVAIR 01-1A-17, Aviation Hydraulics Manual',
  edition: 'as printed in NAVEDTRA 14315 and 14018',
  place: 'particle contamination level by class: NAVEDTRA 14315, Table 8-1, and 14018, Table 4-1',
  standing: 'reproduced',
};

/** Its ranges, and those of SAE 749D. */
export const navairColumns: ClassTable['columns'] = /* @__PURE__ */ rangesUpwards([
  [5, 6.4],
  [10, 9.8],
  [25, 21.2],
  [50, 38.2],
  [100, 70],
]);

/** Its limits, and those of SAE 749D: from class 0 to 6. */
export const navairLimits: ClassTable['limits'] = [
  [2700, 670, 93, 16, 1],
  [4600, 1340, 210, 28, 3],
  [9700, 2680, 380, 56, 5],
  [24000, 5360, 780, 110, 11],
  [32000, 10700, 1510, 225, 21],
  [87000, 21400, 3130, 430, 41],
  [128000, 42000, 6500, 1000, 92],
];

/** Navy classes: one class, the worst of five ranges, `5`. */
export const navair: ClassTable = /* @__PURE__ */ frozen({
  id: 'navair',
  standard: 'Navy aviation hydraulics classes',
  title: 'Navy aviation hydraulics classes',
  source: navairSource,
  counting: 'differential',
  perVolumeMl: 100,
  notation: 'single',
  columns: navairColumns,
  classes: ['0', '1', '2', '3', '4', '5', '6'],
  limits: navairLimits,
  notes: [
    'Class 5 is the dirtiest allowed in naval aircraft, class 3 for fluid from support equipment; class 6 is ' +
      'unacceptable.',
    'There is no class above 6.',
    printedPairsNote,
  ],
});
