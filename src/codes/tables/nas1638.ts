/** NAS 1638, particles per 100 mL between sizes. Inactive for new design since 2001, still asked for everywhere. */
import type { Source } from '../../source.ts';
import type { ClassTable } from '../types.ts';
import { frozen } from './frozen.ts';
import { rangesUpwards } from './ranges.ts';

export const nas1638Source: Source = {
  document: 'NAS 1638',
  edition: 'January 1964; 2001',
  place: 'Table I',
  standing: 'reproduced',
};

/** Its ranges, and those of SAE AS4059 Table 1. */
export const nas1638Columns: ClassTable['columns'] = /* @__PURE__ */ rangesUpwards([
  [5, 6],
  [15, 14],
  [25, 21],
  [50, 38],
  [100, 70],
]);

/** Its limits, and those of SAE AS4059 Table 1: from class 00 to 12. */
export const nas1638Limits: ClassTable['limits'] = [
  [125, 22, 4, 1, 0],
  [250, 44, 8, 2, 0],
  [500, 89, 16, 3, 1],
  [1000, 178, 32, 6, 1],
  [2000, 356, 63, 11, 2],
  [4000, 712, 126, 22, 4],
  [8000, 1425, 253, 45, 8],
  [16000, 2850, 506, 90, 16],
  [32000, 5700, 1012, 180, 32],
  [64000, 11400, 2025, 360, 64],
  [128000, 22800, 4050, 720, 128],
  [256000, 45600, 8100, 1440, 256],
  [512000, 91200, 16200, 2880, 512],
  [1024000, 182400, 32400, 5760, 1024],
];

/** NAS 1638 Table I: one class, the highest found over five ranges, `6`. */
export const nas1638: ClassTable = /* @__PURE__ */ frozen({
  id: 'nas1638',
  standard: 'NAS 1638',
  title: 'NAS 1638',
  source: nas1638Source,
  counting: 'differential',
  perVolumeMl: 100,
  notation: 'single',
  columns: nas1638Columns,
  classes: ['00', '0', '1', '2', '3', '4', '5', '6', '7', '8', '9', '10', '11', '12'],
  limits: nas1638Limits,
  notes: [
    'The standard counts by microscope (ARP 598). The sizes for ISO 11171 counters are those of SAE AS4059 Table 1, ' +
      'whose limits are the same.',
    'That the highest class over the ranges is quoted is practice; the standard itself does not say (common practice).',
    'Classes 13 and 14 and a range 2-5 µm circulate in print; they are not in NAS 1638.',
  ],
});
