/**
 * SAE AS4059, particles per 100 mL: Table 1 between sizes, Table 2 of a size and larger.
 *
 * Table 2 stands with the exact figures of revision E: its columns B to F are the running sums of Table 1. Printings
 * rounded to three figures circulate; they decide otherwise only for counts between the two figures.
 */
import type { Source } from '../../source.ts';
import type { ClassTable } from '../types.ts';
import { frozen } from './frozen.ts';
import { nas1638Columns, nas1638Limits } from './nas1638.ts';

export const as4059DifferentialSource: Source = {
  document: 'SAE AS4059',
  edition: 'F, 2013',
  place: 'Table 1',
  standing: 'reproduced',
};

/** SAE AS4059 Table 1: one class, the worst of five ranges, `6`. Limits as in NAS 1638; there is no class 000. */
export const as4059Differential: ClassTable = /* @__PURE__ */ frozen({
  id: 'as4059Differential',
  standard: 'SAE AS4059 Table 1',
  title: 'SAE AS4059 Table 1, differential',
  source: as4059DifferentialSource,
  counting: 'differential',
  perVolumeMl: 100,
  notation: 'single',
  columns: nas1638Columns,
  classes: ['00', '0', '1', '2', '3', '4', '5', '6', '7', '8', '9', '10', '11', '12'],
  limits: nas1638Limits,
  notes: [
    'Ranges are labelled with microscope sizes; with ISO 11171 calibration they are 6-14, 14-21, 21-38, 38-70 and ' +
      '>70 µm(c).',
  ],
});

export const as4059CumulativeSource: Source = {
  document: 'SAE AS4059',
  edition: 'E, 2005',
  place: 'Table 2, exact figures',
  standing: 'reproduced',
};

/** SAE AS4059 Table 2: a class for each size letter, `7B/6C/5D`, one size, `6B`, or the worst over a span, `6B-F`. */
export const as4059Cumulative: ClassTable = /* @__PURE__ */ frozen({
  id: 'as4059Cumulative',
  standard: 'SAE AS4059 Table 2',
  title: 'SAE AS4059 Table 2, cumulative',
  source: as4059CumulativeSource,
  counting: 'cumulative',
  perVolumeMl: 100,
  notation: 'lettered',
  columns: [
    { label: 'A', from: { microscope: 1, iso4402: 1, iso11171: 4 } },
    { label: 'B', from: { microscope: 5, iso4402: 5, iso11171: 6 } },
    { label: 'C', from: { microscope: 15, iso4402: 15, iso11171: 14 } },
    { label: 'D', from: { microscope: 25, iso4402: 25, iso11171: 21 } },
    { label: 'E', from: { microscope: 50, iso4402: 50, iso11171: 38 } },
    { label: 'F', from: { microscope: 100, iso4402: 100, iso11171: 70 } },
  ],
  classes: ['000', '00', '0', '1', '2', '3', '4', '5', '6', '7', '8', '9', '10', '11', '12'],
  limits: [
    [195, 76, 14, 3, 1, 0],
    [390, 152, 27, 5, 1, 0],
    [780, 304, 54, 10, 2, 0],
    [1560, 609, 109, 20, 4, 1],
    [3120, 1217, 217, 39, 7, 1],
    [6250, 2432, 432, 76, 13, 2],
    [12500, 4864, 864, 152, 26, 4],
    [25000, 9731, 1731, 306, 53, 8],
    [50000, 19462, 3462, 612, 106, 16],
    [100000, 38924, 6924, 1224, 212, 32],
    [200000, 77849, 13849, 2449, 424, 64],
    [400000, 155698, 27698, 4898, 848, 128],
    [800000, 311396, 55396, 9796, 1696, 256],
    [1600000, 622792, 110792, 19592, 3392, 512],
    [3200000, 1245584, 221584, 39184, 6784, 1024],
  ],
  notes: [
    'The tables head the sizes "greater than"; counters register "equal to or larger". For measured sizes there is ' +
      'no difference in practice.',
  ],
});
