/** What is there only in part: tables of texts without a text, lists with a hole. */
import { describe, expect, test } from 'vitest';
import { acceptanceText, englishAcceptanceTexts } from '../../src/acceptance/index.ts';
import { blandAltman, iso4406 } from '../../src/codes/index.ts';
import { cumulativeCounts } from '../../src/counts/index.ts';
import { timeToReachCode } from '../../src/filtration/index.ts';
import { bucketQuantile, mergeRollUps, type RollUpBucket, rollUp } from '../../src/history/index.ts';
import { prepareMonitor } from '../../src/monitor/index.ts';
import { assessReading, englishFindingTexts, type Finding, findingText } from '../../src/reading/index.ts';
import { noRepeats } from '../../src/reading/remembered/repeats.ts';
import { isRepeats } from '../../src/reading/remembered/repeatsState.ts';
import { cleanUpChart, csvColumns, periodFigures, sampleSheet, trendChart } from '../../src/report/index.ts';
import { flowControlText, flowControlTexts, flowForPressure, speedForViscosity } from '../../src/sampling/index.ts';
import { parseMonitorConfig } from '../../src/schema/index.ts';

const finding = assessReading({ mm2PerS: 420 }, { mostMm2PerS: 400 }).findings[0] as Finding;
const told = {
  time: 0,
  event: 'restarted',
  text: null,
  quality: 'good',
  outcome: null,
  why: 'clock_set_back',
} as const;
const lost = { event: 'signal_lost', mode: 'holding', percent: 31 } as const;
const { and: _and, ...withoutAnd } = englishFindingTexts;
const { restarted: _restarted, ...withoutRestarted } = englishAcceptanceTexts;

describe('a table of texts', () => {
  test.each<[string, unknown, (texts: never) => string]>([
    ['texts.and', withoutAnd, (texts) => findingText(finding, texts)],
    ['texts.findings.no_flow', { ...englishFindingTexts, findings: {} }, (texts) => findingText(finding, texts)],
    ['texts.figures', { ...englishFindingTexts, figures: null }, (texts) => findingText(finding, texts)],
    ['texts', null, (texts) => findingText(finding, texts)],
    ['texts.restarted', withoutRestarted, (texts) => acceptanceText(told, texts)],
    ['findingTexts.and', withoutAnd, (texts) => acceptanceText(told, undefined, texts)],
    ['texts.signal_lost', { ...flowControlTexts, signal_lost: 7 }, (texts) => flowControlText(lost, texts)],
  ])('without %s', (parameter, texts, write) => {
    expect(() => write(texts as never)).toThrow(expect.objectContaining({ code: 'wrong_type', parameter }));
  });
});

describe('a list', () => {
  const forecast = { size: 6, from: 0, now: 300, level: 640, time: 8e9, earliest: 4e9, latest: null };
  const [day] = rollUp([{ time: 0, value: 402 }], { widthMs: 86400000, holdMs: 86400000 }) as [RollUpBucket];
  const counts = cumulativeCounts({ 4: 9000, 6: 2400, 14: 160 });
  const cart = { litres: 400, litresPerMin: 40, counts, beta: [20, 75, 1000] };
  const holed = <T>(first: T, last: T): T[] => {
    const list = [first, last, last];
    delete list[1];
    return list;
  };

  test.each<[string, () => unknown]>([
    ['curve[1]', () => speedForViscosity(holed({ mm2PerS: 24, percent: 46 }, { mm2PerS: 55, percent: 39 }), 30)],
    ['pairs[1]', () => blandAltman(holed({ line: 18, laboratory: 18.2 }, { line: 17, laboratory: 17.1 }))],
    [
      'options.measured[1]',
      () => cleanUpChart(cart, { minutes: 60, measured: holed({ minutes: 0, counts }, { minutes: 9, counts }) }),
    ],
    ['options.forecast[1]', () => trendChart([], { forecast: holed(forecast, forecast) })],
    [
      'readings[0].buckets[1]',
      () => trendChart([{ size: 4, sizing: 'iso11171', buckets: holed(day, { ...day, start: 86400000 }) }]),
    ],
  ])('with a hole at %s', (parameter, call) => {
    expect(call).toThrow(expect.objectContaining({ code: 'wrong_type', parameter }));
  });
});

test('a name of a configuration that is no text', () => {
  const named = { code: 'wrong_type', parameter: 'options.configuration' };
  const config = { codes: [{ table: iso4406 }] };
  expect(() => prepareMonitor(config, { configuration: Number.NaN as never })).toThrow(expect.objectContaining(named));
});

test('a target in a table that is handed in later', () => {
  const config = { codes: [{ table: 'own-table', target: '7' }] };
  expect(parseMonitorConfig(config)).toEqual(config);
  const named = expect.objectContaining({ path: ['codes', 0, 'table'], received: "'own-table'" });
  expect(() => prepareMonitor(config)).toThrow(expect.objectContaining({ problems: [named] }));
});

test('a reading whose quality is null', () => {
  const readings = [{ time: 0, counts: cumulativeCounts({ 4: 1890, 6: 402 }), quality: null as never }];
  const named = { code: 'wrong_type', parameter: 'readings[0].quality' };
  expect(() => periodFigures(readings)).toThrow(expect.objectContaining(named));
});

describe('what no type lets in, but JSON and plain JavaScript do', () => {
  const tank = { litres: 400, litresPerMin: 40, counts: cumulativeCounts({ 4: 9000 }), beta: [20] };
  const band = { from: Symbol('4'), to: null, above: 0, upTo: 640 };
  const [bucket] = rollUp([{ time: 0, value: 16 }], { widthMs: 60000, holdMs: 1000 }) as [RollUpBucket];
  const spoilt = { ...bucket, last: { ...bucket.last, quality: Number.NaN } };

  test.each<[string, string, () => unknown]>([
    ['wrong_type', 'table.rows[0][0]', () => csvColumns({ header: ['4'], rows: [[Number.NaN]] })],
    ['wrong_type', 'table.rows[0]', () => csvColumns({ header: ['4'], rows: new Array(1) })],
    [
      'wrong_type',
      'readings[0].scaleNumbers[0]',
      () => rollUp([{ time: 0, value: 16, scaleNumbers: new Array(1) }], { widthMs: 60000, holdMs: 1000 }),
    ],
    [
      'wrong_type',
      'target.bands[0].from',
      () => timeToReachCode(tank, { sizing: 'iso11171', bands: [band as never] } as never),
    ],
    ['bad_state', 'bucket', () => bucketQuantile({ ...bucket, levels: null } as never, 0.5)],
    ['wrong_type', 'options.errors', () => sampleSheet(tank.counts, { errors: null as never })],
    ['bad_state', 'later[0]', () => mergeRollUps([], [spoilt as never], { widthMs: 60000, holdMs: 1000 })],
    ['wrong_type', 'options.table', () => trendChart([], { table: { ...iso4406, columns: null } as never })],
  ])('%s of %s', (code, parameter, call) => {
    expect(call).toThrow(expect.objectContaining({ code, parameter }));
  });
});

test.each([[10n], [null], [{}], [Number.NaN]])('a saved level of counts that holds %s', (part) => {
  expect(isRepeats({ ...noRepeats, level: [20, 25, 0] })).toBe(true);
  expect(isRepeats({ ...noRepeats, level: [20, part, 0] })).toBe(false);
  expect(isRepeats({ ...noRepeats, level: part })).toBe(false);
});

test.each([5e-324, 1e-200, 1e-60])('a line of %d m has no end that a pressure could find', (metres) => {
  const line = { segments: [{ metres, boreMm: 8 }], kPa: 70, fluid: { mm2PerS: 46, kgPerM3: 870 } };
  expect(() => flowForPressure(line)).toThrow(
    expect.objectContaining({ code: 'out_of_range', parameter: 'line.kPa', received: '70' }),
  );
});
