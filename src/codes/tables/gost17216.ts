/**
 * GOST 17216, industrial cleanliness, particles per 100 cm3 between sizes. Where the standard prints words instead of
 * numbers, the words are kept beside the limits.
 */
import type { Source } from '../../source.ts';
import type { ClassTable } from '../types.ts';
import { frozen } from './frozen.ts';

/** Where the table stands. */
export const gost17216Source: Source = {
  document: 'GOST 17216',
  edition: '1971, 2001',
  place:
    'Table 1: numeric cells of classes 00 to 8 reproduced from the 1971 edition; classes 9 to 17, and all words, ' +
    'from memory',
  standing: 'from memory',
};

/** GOST 17216 Table 1: one class, the lowest whose limits all hold, `8`. */
export const gost17216: ClassTable = /* @__PURE__ */ frozen({
  id: 'gost17216',
  standard: 'GOST 17216',
  title: 'GOST 17216',
  source: gost17216Source,
  counting: 'differential',
  perVolumeMl: 100,
  notation: 'single',
  columns: [
    { label: '0.5-1', from: { microscope: 0.5, iso4402: 0.5 }, to: { microscope: 1, iso4402: 1 } },
    {
      label: '1-2',
      from: { microscope: 1, iso4402: 1, iso11171: 4.2 },
      to: { microscope: 2, iso4402: 2, iso11171: 4.6 },
    },
    {
      label: '2-5',
      from: { microscope: 2, iso4402: 2, iso11171: 4.6 },
      to: { microscope: 5, iso4402: 5, iso11171: 6.4 },
    },
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
    { label: '100-200', from: { microscope: 100, iso4402: 100 }, to: { microscope: 200, iso4402: 200 } },
    { label: 'fibres', from: {} },
    { label: 'mass %', from: {} },
  ],
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
  wording: {
    '00': { '50-100': 'absent', '100-200': 'absolute absence', fibres: 'absolute absence', 'mass %': 'blank' },
    '0': { '50-100': 'absent', '100-200': 'absolute absence', fibres: 'absolute absence', 'mass %': 'blank' },
    '1': { '0.5-1': 'not normed', '50-100': 'absent', '100-200': 'absent', fibres: 'absent', 'mass %': 'not normed' },
    '2': { '0.5-1': 'not normed', '1-2': 'not normed', '100-200': 'absent', fibres: 'absent', 'mass %': 'not normed' },
    '3': {
      '0.5-1': 'not normed',
      '1-2': 'not normed',
      '2-5': 'not normed',
      '100-200': 'absent',
      fibres: 'absent',
      'mass %': 'not normed',
    },
    '4': {
      '0.5-1': 'not normed',
      '1-2': 'not normed',
      '2-5': 'not normed',
      '100-200': 'absent',
      fibres: 'absent',
      'mass %': 'not normed',
    },
    '5': { '0.5-1': 'not normed', '1-2': 'not normed', '2-5': 'not normed', fibres: 'absent', 'mass %': 'not normed' },
    '6': { '0.5-1': 'not normed', '1-2': 'not normed', '2-5': 'not normed' },
    '7': { '0.5-1': 'not normed', '1-2': 'not normed', '2-5': 'not normed' },
    '8': { '0.5-1': 'not normed', '1-2': 'not normed', '2-5': 'not normed' },
    '9': { '0.5-1': 'not normed', '1-2': 'not normed', '2-5': 'not normed' },
    '10': { '0.5-1': 'not normed', '1-2': 'not normed', '2-5': 'not normed' },
    '11': { '0.5-1': 'not normed', '1-2': 'not normed', '2-5': 'not normed' },
    '12': { '0.5-1': 'not normed', '1-2': 'not normed', '2-5': 'not normed' },
    '13': { '0.5-1': 'not normed', '1-2': 'not normed', '2-5': 'not normed', '5-10': 'not normed' },
    '14': { '0.5-1': 'not normed', '1-2': 'not normed', '2-5': 'not normed', '5-10': 'not normed' },
    '15': {
      '0.5-1': 'not normed',
      '1-2': 'not normed',
      '2-5': 'not normed',
      '5-10': 'not normed',
      '10-25': 'not normed',
    },
    '16': {
      '0.5-1': 'not normed',
      '1-2': 'not normed',
      '2-5': 'not normed',
      '5-10': 'not normed',
      '10-25': 'not normed',
    },
    '17': {
      '0.5-1': 'not normed',
      '1-2': 'not normed',
      '2-5': 'not normed',
      '5-10': 'not normed',
      '10-25': 'not normed',
      '25-50': 'not normed',
    },
  },
  notes: [
    'Numeric cells of classes 00 to 8 are as in two transcriptions of the 1971 edition, which agree; classes 9 to ' +
      '17, and which cells read absent, absolute absence or not normed, are from memory. Confirm before relying on ' +
      'them.',
    'A cell that reads absent or absolute absence allows no particle in a single sample. A blank or not normed cell ' +
      'sets no limit; the wording says which it is.',
    'Fibres and mass are no particle counts: they are always listed as missing, and a target is judged without them.',
    'Sizes for ISO 11171 counters are the printed pairs of ISO 11171:1999 (5 µm is 6.4 µm(c)); the standard itself ' +
      'names none. That 100 µm is 70 µm(c) stands in one reproduction only of those pairs, and in the heads of SAE ' +
      'AS4059.',
  ],
});
