/**
 * Bad input to what says how sure a code is, and to the laboratory's arithmetic: each its own error code and parameter.
 */
import { expect, test } from 'vitest';
import * as codes from '../../src/codes/index.ts';
import * as counts from '../../src/counts/index.ts';

const any = (value: unknown) => value as never;
const raw = counts.cumulativeCounts({ 4: 4500, 6: 240, 14: 6 }, { volumeMl: 10 });
const perMl = counts.cumulativeCounts({ 4: 450, 6: 24, 14: 0.6 });
const { iso4406 } = codes;
const one = { counted: 12, volumeMl: 10 };
const field = { counted: 100, fields: 10, fieldMm2: 1, effectiveMm2: 960, volumeMl: 100 };
const weighing = { beforeMg: 80, afterMg: 81, volumeMl: 100, balanceMg: 0.05 };
const sure = (errors: unknown, options: unknown = {}) => codes.codeUncertainty(iso4406, raw, any(errors), any(options));

const cases: readonly [string, string, () => unknown][] = [
  ['wrong_type', 'table', () => codes.codeUncertainty(any(null), raw)],
  ['wrong_type', 'counts', () => codes.codeUncertainty(iso4406, any(4))],
  ['missing_volume', 'counts.volumeMl', () => codes.codeUncertainty(iso4406, perMl)],
  [
    'missing_size',
    'counts.sizes',
    () => codes.codeUncertainty(iso4406, counts.cumulativeCounts({ 5: 3 }, { volumeMl: 1 })),
  ],
  ['sizing_not_convertible', 'counts.sizing', () => codes.codeUncertainty(iso4406, { ...raw, sizing: 'microscope' })],
  ['unknown_option', 'errors.volum', () => sure({ volum: 0.1 })],
  ['wrong_type', 'errors', () => sure(3)],
  ['wrong_type', 'errors.volume', () => sure({ volume: '3 %' })],
  ['not_a_number', 'errors.sizing', () => sure({ sizing: NaN })],
  ['out_of_range', 'errors.sizing', () => sure({ sizing: -0.01 })],
  ['out_of_range', 'errors.sampling', () => sure({ sampling: 1.5 })],
  ['infinite', 'errors.slope', () => sure({ slope: Infinity })],
  ['out_of_range', 'options.confidence', () => sure({}, { confidence: 0.3 })],
  ['unknown_option', 'options.level', () => sure({}, { level: 0.9 })],
  [
    'out_of_range',
    'counts.counted[0]',
    () => codes.codeUncertainty(iso4406, counts.cumulativeCounts({ 4: 2e9 }, { volumeMl: 1e6 })),
  ],
  ['bad_code', 'target', () => codes.targetProbability(iso4406, '18/16', raw)],
  ['unknown_option', 'options.column', () => codes.targetProbability(iso4406, '18/16/13', raw, {}, any({ column: 1 }))],
  ['wrong_type', 'options', () => codes.targetProbability(iso4406, '18/16/13', raw, {}, any(null))],
  [
    'unknown_option',
    'options.columns[0]',
    () => codes.targetProbability(iso4406, '18/16/13', raw, {}, { columns: ['5'] }),
  ],
  ['negative', 'measured.expanded', () => codes.enScore({ value: 1, expanded: -1 }, { value: 1, expanded: 1 })],
  ['no_answer', 'measured.expanded', () => codes.enScore({ value: 1, expanded: 0 }, { value: 2, expanded: 0 })],
  [
    'no_answer',
    'measured.standard',
    () => codes.zetaScore({ value: 1e308, standard: 1e-308 }, { value: 0, standard: 0 }),
  ],
  [
    'unknown_option',
    'reference.expanded',
    () => codes.zetaScore({ value: 1, standard: 1 }, any({ value: 1, expanded: 1 })),
  ],
  ['wrong_type', 'measured', () => codes.zetaScore(any(1), { value: 1, standard: 1 })],
  ['wrong_type', 'counted', () => codes.indexOfDispersion(any(4))],
  ['empty', 'counted', () => codes.indexOfDispersion([])],
  ['too_few', 'counted', () => codes.indexOfDispersion([4])],
  ['no_answer', 'counted', () => codes.indexOfDispersion([0, 0, 0])],
  ['not_an_integer', 'counted[1]', () => codes.indexOfDispersion([4, 3.5])],
  ['out_of_range', 'counted[0]', () => codes.indexOfDispersion([2e9, 3])],
  ['wrong_type', 'sample', () => codes.subtractBlank(any(null), one)],
  ['negative', 'blank.counted', () => codes.subtractBlank(one, { ...one, counted: -1 })],
  ['unknown_option', 'sample.dilution', () => codes.subtractBlank(any({ ...one, dilution: 2 }), one)],
  ['out_of_range', 'options.confidence', () => codes.subtractBlank(one, one, { confidence: 1 })],
  ['out_of_range', 'mixed.sampleMl', () => codes.subtractDiluent(one, one, { sampleMl: 0, diluentMl: 1 })],
  ['out_of_range', 'second.dilution', () => codes.countChange(one, { ...one, dilution: 0.5 })],
  ['wrong_type', 'blank', () => codes.detectionLimits(any([]), 10)],
  ['out_of_range', 'sampleVolumeMl', () => codes.detectionLimits(one, 0)],
  ['too_few', 'pairs', () => codes.blandAltman([{ line: 1, laboratory: 1 }])],
  [
    'unknown_option',
    'pairs[0].lab',
    () =>
      codes.blandAltman(
        any([
          { line: 1, lab: 1 },
          { line: 1, lab: 1 },
        ]),
      ),
  ],
  [
    'not_a_number',
    'pairs[1].laboratory',
    () =>
      codes.blandAltman([
        { line: 1, laboratory: 1 },
        { line: 1, laboratory: NaN },
      ]),
  ],
  [
    'sizing_not_convertible',
    'second.table',
    () => codes.compareCodes({ table: iso4406, code: '18/16/13' }, { table: codes.iso4406Microscope, code: '-/16/13' }),
  ],
  [
    'bad_code',
    'first.code',
    () => codes.compareCodes({ table: iso4406, code: 'x' }, { table: iso4406, code: '1/1/1' }),
  ],
  [
    'no_answer',
    'second.code',
    () => codes.compareCodes({ table: iso4406, code: '1/1/1' }, { table: iso4406, code: '13/18/2' }),
  ],
  [
    'unknown_sizing',
    'options.sizing',
    () =>
      codes.compareCodes({ table: iso4406, code: '1/1/1' }, { table: iso4406, code: '1/1/1' }, any({ sizing: 'x' })),
  ],
  ['out_of_range', 'count.fields', () => counts.microscopeCount({ ...field, fields: 1000 })],
  ['not_an_integer', 'count.fields', () => counts.microscopeCount({ ...field, fields: 2.5 })],
  ['unknown_option', 'count.field', () => counts.microscopeCount(any({ ...field, field: 2 }))],
  ['out_of_range', 'count.fieldMm2', () => counts.microscopeCount({ ...field, fieldMm2: 0 })],
  ['no_answer', 'counted', () => counts.fieldsForPrecision(0, 10, 0.1)],
  ['out_of_range', 'relative', () => counts.fieldsForPrecision(10, 10, 0)],
  ['out_of_range', 'diameterMm', () => counts.membraneArea(0)],
  ['too_few', 'weighing.controlAfterMg', () => counts.gravimetricLevel({ ...weighing, controlBeforeMg: 79 })],
  ['out_of_range', 'weighing.balanceMg', () => counts.gravimetricLevel({ ...weighing, balanceMg: 0 })],
  ['wrong_type', 'weighing.balanceMg', () => counts.gravimetricLevel(any({ ...weighing, balanceMg: undefined }))],
  ['unknown_option', 'weighing.before', () => counts.gravimetricLevel(any({ ...weighing, before: 1 }))],
];

test.each(cases)('%s of %s', (code, parameter, call) => {
  let thrown: unknown;
  try {
    call();
  } catch (error) {
    thrown = error;
  }
  expect(counts.isMotescaleError(thrown), String(thrown)).toBe(true);
  expect(thrown).toMatchObject({ code, parameter });
});
