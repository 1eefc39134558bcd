/**
 * The probability of a target in the verdict of a monitor and in the figures of a period: that of `targetProbability`,
 * and only where asked for.
 */
import { expect, test } from 'vitest';
import { iso4406, nas1638, targetProbability } from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { germanTexts } from '../../../src/german/index.ts';
import { bucketCounts, rollUp } from '../../../src/history/index.ts';
import { advanceMonitor, prepareMonitor, problemsOf, startMonitor } from '../../../src/monitor/index.ts';
import { periodFigures, periodSummary } from '../../../src/report/index.ts';

const counts = cumulativeCounts({ 4: 12600, 6: 4700, 14: 330 }, { volumeMl: 10 });
const errors = { volume: 0.02, sampling: 0.1 };

function verdictOn(code: object, reading: object = { counts }) {
  const prepared = prepareMonitor({ codes: [{ table: iso4406, target: '17/16/12', ...code }] });
  const { verdict } = advanceMonitor(prepared, startMonitor(prepared), { time: 0, ...reading });
  return verdict?.codes[0];
}

test('a verdict has the probability of its target where errors are given, by the columns judged', () => {
  const of = (options: object) => targetProbability(iso4406, '17/16/12', counts, errors, options).probability;
  expect(verdictOn({ errors })?.probability).toBe(of({}));
  expect(verdictOn({ errors, columns: ['6'] })?.probability).toBe(of({ columns: ['6'] }));
  expect(of({})).not.toBe(of({ columns: ['6'] }));
  expect(verdictOn({ errors: {} })?.probability).toBe(targetProbability(iso4406, '17/16/12', counts).probability);
});

test('and no such member where they are left out', () => {
  expect(verdictOn({})).not.toHaveProperty('probability');
  const twice = prepareMonitor({ codes: [{ table: iso4406, target: '17/16/12', errors }] });
  expect(JSON.parse(JSON.stringify(twice))).toEqual(twice);
  expect(twice.print).not.toBe(prepareMonitor({ codes: [{ table: iso4406, target: '17/16/12' }] }).print);
});

test('it is null where it cannot be told', () => {
  const perMl = cumulativeCounts({ 4: 1260, 6: 470, 14: 33 });
  const lacking = cumulativeCounts({ 4: 12600, 6: 4700 }, { volumeMl: 10 });
  expect(verdictOn({ errors }, { counts: perMl })?.probability).toBeNull();
  expect(verdictOn({ errors }, { counts: lacking })?.probability).toBeNull();
  expect(verdictOn({ errors }, { codes: { iso4406: '17/16/12' } })?.probability).toBeNull();
  expect(verdictOn({ errors }, { celsius: 40 })?.probability).toBeNull();
});

test.each<[string, unknown, string, string]>([
  ['an error beyond its range', { errors: { volume: 0.6 } }, 'codes.0.errors.volume', 'out_of_range'],
  ['a misspelt one', { errors: { volumes: 0.1 } }, 'codes.0.errors.volumes', 'unknown_option'],
  ['one that is none', { errors: 0.03 }, 'codes.0.errors', 'wrong_type'],
  ['errors without a target', { errors: {}, target: undefined }, 'codes.0.errors', 'unknown_option'],
])('%s is told', (_name, code, place, word) => {
  let problems: readonly { readonly path: readonly (string | number)[]; readonly code: string }[] = [];
  try {
    verdictOn(code as object);
  } catch (error) {
    problems = problemsOf(error);
  }
  expect(problems.map(({ path, code: found }) => [path.join('.'), found])).toEqual([[place, word]]);
});

test('a period says it of its last reading', () => {
  const dirty = cumulativeCounts({ 4: 90000, 6: 4700, 14: 330 }, { volumeMl: 10 });
  const readings = [dirty, counts].map((one, i) => ({ time: i * 3600000, counts: one }));
  const figures = periodFigures(readings, { target: '17/16/12', errors });
  const { probability } = targetProbability(iso4406, '17/16/12', counts, errors);
  expect(figures.target?.probability).toBe(probability);
  const percent = `${Math.floor(1000 * (probability as number) + 0.5) / 10}`;
  const oneLine = (text: string) => text.replace(/\s+/g, ' ');
  expect(oneLine(periodSummary(figures))).toContain(
    `The last reading met it. That the last met it in truth has a probability of ${percent} %.`,
  );
  expect(oneLine(periodSummary(figures, germanTexts))).toContain(
    `mit ${percent.replace('.', ',')} % Wahrscheinlichkeit`,
  );
  expect(periodFigures(readings, { target: '17/16/12' }).target).not.toHaveProperty('probability');
  const classes = periodFigures([{ time: 0, counts: cumulativeCounts({ 5: 3 }, { sizing: 'microscope' }) }], {
    ...{ table: nas1638, target: '8', errors },
  });
  expect(classes.target?.probability).toBeNull();
  expect(() => periodFigures(readings, { target: '17/16/12', errors: { volume: 2 } })).toThrowError(
    expect.objectContaining({ code: 'out_of_range', parameter: 'options.errors.volume' }),
  );
});

test('the counts of a bucket of diluted samples are those of the oil', () => {
  const readings = [0, 1].map((i) => ({ time: i * 60000, value: 6, counted: [140 + i, 21], volumeMl: 10 }));
  const [bucket] = rollUp(readings, { widthMs: 3600000, holdMs: 900000 });
  if (bucket === undefined) throw new Error('no bucket');
  const diluted = bucketCounts(bucket, [4, 6], { dilution: 5 });
  expect(diluted).toEqual(cumulativeCounts({ 4: 281, 6: 42 }, { volumeMl: 20, dilution: 5 }));
  expect(bucketCounts(bucket, [4, 6], { dilution: 1 })).not.toHaveProperty('dilution');
  expect(() => bucketCounts(bucket, [4, 6], { dilution: 0.5 })).toThrowError(
    expect.objectContaining({ code: 'out_of_range', parameter: 'options.dilution' }),
  );
});
