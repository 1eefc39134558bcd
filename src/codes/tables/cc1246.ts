/**
 * MIL-STD-1246C and IEST-STD-CC1246, particles of a size and larger per 0.1 L: log10 N = 0.926 (log10^2 L - log10^2 x),
 * where the level L is the size of which one particle is allowed. Cells are that formula rounded as the standard prints
 * them: whole from 10 up, one decimal from 1 up; below one particle, where the standard prints nothing, three digits.
 */
import type { Source } from '../../source.ts';
import type { ClassTable } from '../types.ts';
import { frozen } from './frozen.ts';
import { printedPairsNote } from './ranges.ts';

export const cc1246Source: Source = {
  document: 'IEST-STD-CC1246; MIL-STD-1246C',
  edition: 'D, 2002; C, 1994',
  place: 'level formula (1246C clause 1.4: log-log2, slope 0.926)',
  standing: 'computed',
};

/**
 * IEST-STD-CC1246 particle levels 1 to 1000: one level, `100`: the highest over the sizes of the table. `cc1246Level`
 * gives the level between.
 */
export const cc1246: ClassTable = /* @__PURE__ */ frozen({
  id: 'cc1246',
  standard: 'IEST-STD-CC1246 particle levels',
  title: 'IEST-STD-CC1246 particle levels',
  source: cc1246Source,
  counting: 'cumulative',
  perVolumeMl: 100,
  notation: 'single',
  columns: [
    { label: '1', from: { microscope: 1, iso4402: 1, iso11171: 4.2 } },
    { label: '2', from: { microscope: 2, iso4402: 2, iso11171: 4.6 } },
    { label: '5', from: { microscope: 5, iso4402: 5, iso11171: 6.4 } },
    { label: '10', from: { microscope: 10, iso4402: 10, iso11171: 9.8 } },
    { label: '15', from: { microscope: 15, iso4402: 15, iso11171: 13.6 } },
    { label: '25', from: { microscope: 25, iso4402: 25, iso11171: 21.2 } },
    { label: '50', from: { microscope: 50, iso4402: 50, iso11171: 38.2 } },
    { label: '100', from: { microscope: 100, iso4402: 100, iso11171: 70 } },
    { label: '200', from: { microscope: 200, iso4402: 200 } },
    { label: '250', from: { microscope: 250, iso4402: 250 } },
    { label: '300', from: { microscope: 300, iso4402: 300 } },
    { label: '500', from: { microscope: 500, iso4402: 500 } },
    { label: '750', from: { microscope: 750, iso4402: 750 } },
    { label: '1000', from: { microscope: 1000, iso4402: 1000 } },
  ],
  classes: ['1', '5', '10', '25', '50', '100', '200', '300', '500', '750', '1000'],
  limits: [
    [1, 0.824, 0.353, 0.119, 0.0524, 0.0155, 0.00212, 0.000198, 1.25e-5, 4.74e-6, 2.08e-6, 1.8e-7, 2.22e-8, 4.63e-9],
    [2.8, 2.3, 1, 0.336, 0.148, 0.0439, 0.00602, 0.00056, 3.54e-5, 1.34e-5, 5.89e-6, 5.09e-7, 6.28e-8, 1.31e-8],
    [8.4, 7, 3, 1, 0.442, 0.131, 0.0179, 0.00167, 0.000105, 3.99e-5, 1.75e-5, 1.52e-6, 1.87e-7, 3.91e-8],
    [65, 53, 23, 7.6, 3.4, 1, 0.137, 0.0128, 0.000807, 0.000306, 0.000134, 1.16e-5, 1.43e-6, 2.99e-7],
    [471, 388, 166, 56, 25, 7.3, 1, 0.0931, 0.00589, 0.00223, 0.000979, 8.46e-5, 1.04e-5, 2.18e-6],
    [5058, 4170, 1785, 600, 265, 78, 11, 1, 0.0633, 0.024, 0.0105, 0.000909, 0.000112, 2.34e-5],
    [79970, 65920, 28218, 9483, 4189, 1240, 170, 16, 1, 0.379, 0.166, 0.0144, 0.00177, 0.000371],
    [480901, 396408, 169688, 57024, 25190, 7455, 1021, 95, 6, 2.3, 1, 0.0864, 0.0107, 0.00223],
    [5564044, 4586457, 1963292, 659767, 291445, 86252, 11817, 1100, 70, 26, 12, 1, 0.123, 0.0258],
    [45112298, 37186192, 15918028, 5349275, 2362982, 699314, 95807, 8919, 564, 214, 94, 8.1, 1, 0.209],
    [215774441, 177863466, 76136745, 25585859, 11302264, 3344854, 458249, 42658, 2698, 1022, 449, 39, 4.8, 1],
  ],
  notes: [
    'The standard prints a few sizes at each level; the formula reproduces the figures seen (level 100: ' +
      'MIL-DTL-197L, 3.3.4.1) to rounding.',
    printedPairsNote,
  ],
});
