/**
 * MIL-STD-1246C and IEST-STD-CC1246, particles of a size and larger per 0.1 L: log10 N = 0.926 (log10^2 L - log10^2 x), where the level L is
 * the size of which one particle is allowed. The cells are that formula to seven digits.
 */
import type { ClassTable } from '../types.ts';

/** IEST-STD-CC1246 particle levels 1 to 1000: one level, the highest over the sizes counted, `100`. `cc1246Level` gives the level between. */
export const cc1246: ClassTable = {
  id: 'cc1246',
  title: 'IEST-STD-CC1246 particle levels',
  source: {
    document: 'IEST-STD-CC1246; MIL-STD-1246C',
    edition: 'D, 2002; C, 1994',
    place: 'level formula (1246C clause 1.4: log-log2, slope 0.926)',
    standing: 'computed',
  },
  counting: 'cumulative',
  perVolumeMl: 100,
  notation: 'single',
  columns: [
    { label: '1', from: { microscope: 1, iso4402: 1, iso11171: 4.2 } },
    { label: '2', from: { microscope: 2, iso4402: 2, iso11171: 4.6 } },
    { label: '5', from: { microscope: 5, iso4402: 5, iso11171: 6.4 } },
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
    [
      1, 0.8243028, 0.3528534, 0.05238, 0.01550162, 0.002123742, 0.000197697, 1.250465e-5, 4.735789e-6, 2.079428e-6,
      1.797254e-7, 2.21669e-8, 4.634469e-9,
    ],
    [
      2.834038, 2.336105, 1, 0.1484469, 0.0439322, 0.006018767, 0.0005602807, 3.543866e-5, 1.342141e-5, 5.893178e-6,
      5.093486e-7, 6.282185e-8, 1.313426e-8,
    ],
    [
      8.433348, 6.951632, 2.975735, 0.4417387, 0.1307306, 0.01791026, 0.001667247, 0.0001054561, 3.993855e-5,
      1.753654e-5, 1.515687e-6, 1.869412e-7, 3.908409e-8,
    ],
    [
      64.50937, 53.17525, 22.76235, 3.379, 1, 0.1370013, 0.01275331, 0.0008066673, 0.0003055027, 0.0001341426,
      1.159397e-5, 1.429973e-6, 2.989667e-7,
    ],
    [
      470.8669, 388.1369, 166.147, 24.66401, 7.299202, 1, 0.09308895, 0.005888027, 0.002229926, 0.0009791338,
      8.462673e-5, 1.043766e-5, 2.182218e-6,
    ],
    [
      5058.247, 4169.527, 1784.82, 264.9509, 78.41104, 10.74241, 1, 0.06325162, 0.02395479, 0.01051826, 0.0009090953,
      0.0001121257, 2.344229e-5,
    ],
    [
      79970.23, 65919.68, 28217.77, 4188.84, 1239.669, 169.8362, 15.80987, 1, 0.3787221, 0.1662923, 0.01437268,
      0.001772692, 0.0003706196,
    ],
    [
      480901.5, 396408.4, 169687.7, 25189.62, 7454.754, 1021.311, 95.07276, 6.013506, 2.277448, 1, 0.0864302, 0.0106601,
      0.002228723,
    ],
    [
      5564044, 4586457, 1963292, 291444.6, 86251.73, 11816.6, 1099.995, 69.57645, 26.35014, 11.57003, 1, 0.1233376,
      0.02578639,
    ],
    [
      45112300, 37186190, 15918030, 2362982, 699313.9, 95806.9, 8918.564, 564.1136, 213.6423, 93.80778, 8.107825, 1,
      0.2090716,
    ],
    [
      215774400, 177863500, 76136740, 11302260, 3344854, 458249.3, 42657.95, 2698.185, 1021.862, 448.6874, 38.78014,
      4.783051, 1,
    ],
  ],
  notes: [
    'The standard prints rounded cells for a few sizes at each level; the formula reproduces them to rounding.',
    'Sizes for ISO 11171 counters are the printed pairs of ISO 11171:1999 (5 µm is 6.4 µm(c)); the standard itself names none.',
  ],
};
