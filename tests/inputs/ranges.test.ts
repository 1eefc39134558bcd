/**
 * Figures at the edge of a double, and states and configurations that nobody made: an error with its code, never NaN,
 * never another exception.
 */
import { describe, expect, test } from 'vitest';
import { advanceAcceptance, prepareAcceptance, resumeAcceptance, startAcceptance } from '../../src/acceptance/index.ts';
import { as4059Cumulative, iso4406, limitsOf, nas1638 } from '../../src/codes/index.ts';
import { cumulativeCounts } from '../../src/counts/index.ts';
import {
  cleanUp,
  cleanUpCurve,
  combineFilters,
  estimateIngression,
  filtrationRatios,
  flowToReach,
  timeToReach,
  timeToReachCode,
} from '../../src/filtration/index.ts';
import { mergeRollUps, rollUp } from '../../src/history/index.ts';
import { assessReading } from '../../src/reading/index.ts';
import { cleanUpChart, reportRows, sizeChart } from '../../src/report/index.ts';
import {
  advanceFlowControl,
  countingConfidence,
  isMotescaleError,
  prepareFlowControl,
  startFlowControl,
  suctionLimits,
  timeForCount,
  timeForTarget,
} from '../../src/sampling/index.ts';
import { waterContent } from '../../src/water/index.ts';
import { advanceMonitor, startMonitor } from '../properties/watched.ts';

const counts = cumulativeCounts({ 4: 1890, 6: 402, 14: 33 });
const huge = { sizing: 'iso11171', sizes: [4, 6, 14], perMl: [1e308, 10, 0] } as const;
const tank = { litres: 400, litresPerMin: 40, beta: 200, perMl: 5000 };
const bySize = { litres: 400, litresPerMin: 40, counts, beta: [20, 75, 1000] };
const control = { mlPerMin: 100, gain: 0.1, integralSeconds: 2.5, leastPercent: 5, mostPercent: 90, slewPerSecond: 5 };
const step = (own: object) => {
  const prepared = prepareFlowControl({ ...control, ...own });
  return advanceFlowControl(prepared, startFlowControl(prepared), { elapsedSeconds: 1, mlPerMin: 0 });
};
const line = {
  segments: [{ metres: 2.5, boreMm: 6, riseMetres: 1.2 }],
  mlPerMin: 100,
  fluid: { mm2PerS: 46, kgPerM3: 860 },
};
const tiny = { sizing: 'iso11171', bands: [{ from: 4, to: null, above: 0, upTo: 1e-308 }] } as const;
const nowhere = { sizing: 'iso11171', bands: [{ from: Number.NaN, to: null, above: 1, upTo: 2 }] } as const;

const reading = { time: 0, counts: cumulativeCounts({ 4: 18900, 6: 4020, 14: 330 }, { volumeMl: 10 }), kPa: 800 };
const started = startMonitor({ codes: [] });
const watch = (config: unknown) => advanceMonitor(config as never, started, reading);

const proof = { table: iso4406, target: '18/16/13', readings: 3 };
const prepared = prepareAcceptance(proof);
const proving = advanceAcceptance(prepared, startAcceptance(prepared), { ...reading, litres: 5 }).state;
const prove = (own: object) => resumeAcceptance(prepared, { ...proving, ...own });

const options = { widthMs: 1000, holdMs: 1000 };
const [bucket] = rollUp([{ time: 0, value: 1, scaleNumbers: [1] }], options);
const later = rollUp([{ time: 800, value: 3, scaleNumbers: [3] }], options);
const merge = (own: object) => mergeRollUps([{ ...bucket, ...own } as never], later, options);

const row = (codes: unknown) => reportRows([{ time: 0, counts, codes: codes as never }]);

const cases: readonly (readonly [string, string, () => unknown])[] = [
  ['out_of_range', 'a size chart of 1e308 particles', () => sizeChart(huge)],
  ['out_of_range', 'a clean-up chart of them', () => cleanUpChart({ ...bySize, counts: huge }, { minutes: 60 })],
  ['out_of_range', 'a curve of 1e9 steps', () => cleanUpCurve(bySize, 60, 1e9)],
  ['bad_configuration', 'a gain of 1e308', () => step({ gain: 1e308 })],
  ['bad_configuration', 'an integral time of 1e-308', () => step({ integralSeconds: 1e-308 })],
  ['out_of_range', 'a count of 5e-324', () => countingConfidence({ perMl: 5e-324, mlPerMin: 100, seconds: 10 })],
  ['out_of_range', 'the time for it', () => timeForCount({ perMl: 5e-324, mlPerMin: 100 })],
  ['out_of_range', 'a tank of 1e-308 L', () => cleanUp({ ...tank, litres: 1e-308 }, 30)],
  ['out_of_range', 'a target of 1e-308', () => timeToReach(tank, 1e-308)],
  ['out_of_range', 'the flow to reach it', () => flowToReach({ litres: 400, beta: 75, perMl: 5000 }, 1e-308, 30)],
  ['out_of_range', 'a code of such limits', () => timeToReachCode(bySize, tiny)],
  [
    'out_of_range',
    'readings of 1e308',
    () =>
      estimateIngression(
        tank,
        [0, 1, 2].map((i) => ({ minutes: i, perMl: 1e308 })),
      ),
  ],
  ['out_of_range', 'a count downstream of 1e-308', () => filtrationRatios(counts, cumulativeCounts({ 6: 1e-308 }))],
  ['infinite', 'an endless count', () => assessReading({ counts: { ...huge, perMl: [Infinity, 10, 0] } })],
  ['not_a_number', 'a size that is none', () => timeForTarget({ target: nowhere, mlPerMin: 100 })],
  ['wrong_type', 'a symbol for a pressure', () => suctionLimits({ ...line, inletLimitKPa: Symbol('low') as never })],
  ['wrong_type', 'an object for a pressure', () => suctionLimits({ ...line, inletLimitKPa: {} as never })],
  ['wrong_type', 'filters that stand nowhere', () => combineFilters([2, 10] as never)],
  ['out_of_range', 'a saturation in percent', () => waterContent({ a: 7, b: 1412 }, 45, 20)],
  ['bad_configuration', 'a monitor of nothing', () => watch({})],
  ['bad_configuration', 'no codes', () => watch({ codes: null })],
  ['bad_configuration', 'a code that is none', () => watch({ codes: [null] })],
  ['bad_configuration', 'a code without a table', () => watch({ codes: [{ table: {} }] })],
  ['bad_configuration', 'alarms that are none', () => watch({ codes: [], alarms: 3 })],
  ['bad_state', 'litres NaN', () => prove({ litres: Number.NaN })],
  ['bad_state', 'litres as text', () => prove({ litres: 'abc' })],
  ['bad_state', 'readings NaN', () => prove({ run: { ...proving.run, readings: Number.NaN } })],
  ['bad_state', 'first litres as text', () => prove({ run: { ...proving.run, fromLitres: 'abc' } })],
  ['bad_state', 'margins of no size', () => prove({ run: { ...proving.run, margins: [null, {}, 3] } })],
  ['bad_state', 'margins of another target', () => prove({ run: { ...proving.run, margins: [] } })],
  ['bad_state', 'restarts NaN', () => prove({ restarts: Number.NaN })],
  ...(['count', 'good', 'valuedMs', 'badMs', 'gapMs', 'min', 'max', 'mean'] as const).flatMap((name) =>
    [undefined, 'abc', Number.NaN].map(
      (value) => ['bad_state', `a bucket with ${name} ${value}`, () => merge({ [name]: value })] as const,
    ),
  ),
  ['bad_state', 'a bucket with gaps that are none', () => merge({ gaps: [1] })],
  ['bad_state', 'a bucket with times that are none', () => merge({ spent: [1] })],
  ['bad_state', 'a bucket with parts of a sum as text', () => merge({ weighted: ['x'] })],
  ['unknown_option', 'a standard named quality', () => row({ quality: '1' })],
  ['unknown_option', 'a standard named as the time', () => row({ 'time (UTC)': '1' })],
  ['wrong_type', 'a code that is NaN', () => row({ 'ISO 4406': Number.NaN })],
];

describe('refused', () => {
  test.each(cases)('%s: %s', (code, _what, act) => {
    let thrown: unknown;
    try {
      act();
    } catch (error) {
      thrown = error;
    }
    expect(isMotescaleError(thrown) ? thrown.code : thrown).toBe(code);
  });
});

describe('configurations that could never act', () => {
  const alarm = (setpoint: string, columns?: readonly string[]) => () =>
    startMonitor({
      codes: [{ table: iso4406, ...(columns && { columns }) }],
      alarms: [{ id: 'dirty', type: 'high', figure: { code: 'iso4406' }, setpoint }],
    });
  const target = (code: string, columns?: readonly string[]) => () =>
    startMonitor({ codes: [{ table: iso4406, target: code, ...(columns && { columns }) }] });
  const proofOf = (code: string) => () => prepareAcceptance({ ...proof, target: code });
  test.each([
    ['an alarm on nothing', alarm('-/-/-')],
    ['an alarm beyond the table', alarm('>28/16/13')],
    ['an alarm on columns not judged', alarm('18/-/-', ['6', '14'])],
    ['a target of nothing', target('-/-/-')],
    ['a target never counted', target('18/*/13')],
    ['a target beyond the table', target('>28/16/13')],
    ['a target on columns not judged', target('18/-/-', ['6', '14'])],
    ['a column the table lacks', target('18/16/13', ['5'])],
    ['no column', target('18/16/13', [])],
    ['a proof of nothing', proofOf('-/-/-')],
    ['a proof of a code typed backwards', proofOf('13/16/18')],
    ['a proof of a code that rises by one', proofOf('16/14/15')],
    ['a proof of a code that rises beside a size not asked', proofOf('13/-/14')],
    ['a proof beyond the table', proofOf('18/16/>28')],
  ])('%s', (_what, start) => {
    expect(start).toThrow(expect.objectContaining({ code: 'bad_configuration' }));
  });
});

test('a class of NAS 1638 can be proved on the columns that are counted', () => {
  const config = prepareAcceptance({ table: nas1638, target: '8', readings: 2, columns: ['5-15', '15-25'] });
  const seen = cumulativeCounts({ 4: 18900, 6: 4020, 14: 330, 21: 30 }, { volumeMl: 10 });
  const first = advanceAcceptance(config, startAcceptance(config), { time: 0, counts: seen, kPa: 800 });
  const next = cumulativeCounts({ 4: 18850, 6: 4031, 14: 327, 21: 31 }, { volumeMl: 10 });
  const second = advanceAcceptance(config, first.state, { time: 1000, counts: next, kPa: 800 });
  expect(second.state.accepted?.run.margins.map(({ column }) => column)).toEqual(['5-15', '15-25']);
});

test('what the ranges leave is finite', () => {
  expect(timeToReach(tank, 0)).toBeNull();
  expect(timeToReachCode(bySize, limitsOf(iso4406, '16/14/11')).minutes).toBeGreaterThan(0);
  expect(filtrationRatios(cumulativeCounts({ 6: 1e12 }), cumulativeCounts({ 6: 1e-60 }))[0]?.beta).toBeLessThan(1e73);
  expect(countingConfidence({ perMl: 0, mlPerMin: 100, seconds: 10 }).chance).toBe(0);
  expect(countingConfidence({ perMl: 1e-60, mlPerMin: 100, seconds: 10 }).chance).toBe(0);
});

test('a proof takes codes that do not rise, lettered classes, and columns judged alone', () => {
  const taken = (target: string, more: object = {}) => prepareAcceptance({ ...proof, target, ...more }).code.target;
  for (const code of ['16/16/16', '18/-/13', '-/16/13', '18/16/13', '0/0/0']) expect(taken(code)).toBe(code);
  expect(taken('13/16/18', { columns: ['14'] })).toBe('13/16/18');
  expect(taken('5A/6B/7C', { table: as4059Cumulative })).toBe('5A/6B/7C');
});
