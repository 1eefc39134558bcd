/** Rows of one time, of two instruments of a unit: what only the second has is news, and contradicts nothing. */
import { expect, test } from 'vitest';
import { iso4406 } from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import {
  advanceMonitor,
  prepareMonitor,
  type ReadingInput,
  resumeMonitor,
  startMonitor,
} from '../../../src/monitor/index.ts';
import { periodFigures, type ReportReading, reportReading } from '../../../src/report/index.ts';

const minute = 60000;
const begin = Date.UTC(2026, 10, 2);
const prepared = prepareMonitor({
  codes: [{ table: iso4406, target: '18/16/13' }],
  alarms: [
    { id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 65, onDelayMs: 20 * minute },
    { id: 'dirty', type: 'high', figure: { code: 'iso4406' }, setpoint: '19/17/14', onDelayMs: 20 * minute },
    { id: 'sour', type: 'high', figure: { other: 'acid number' }, setpoint: 2 },
  ],
  follow: [{ id: 'warmth', figure: { quantity: 'celsius' }, least: 5 }],
});

function run(inputs: readonly ReadingInput[]) {
  let state = startMonitor(prepared);
  const told: string[] = [];
  const arrivals: string[] = [];
  const rows: ReportReading[] = [];
  for (const input of inputs) {
    const step = advanceMonitor(prepared, state, input);
    state = resumeMonitor(prepared, JSON.parse(JSON.stringify(step.state))).state;
    const { verdict } = step;
    arrivals.push(verdict?.arrival ?? '');
    if (verdict !== null) rows.push(reportReading(input, verdict));
    for (const event of step.events) told.push('alarm' in event ? `${event.event} ${event.alarm}` : event.event);
  }
  return { state, told, arrivals, rows };
}

/** Oil that becomes hot and dirty, a row of each instrument at each time. */
function rowsOf(readings: number) {
  return Array.from({ length: readings }, (_, i) => {
    const time = begin + 10 * i * minute;
    const dirtier = i < readings / 2 ? 1 : 8;
    const sample = { 4: 18900 + 7 * ((i * 31) % 97), 6: 4020 + ((i * 17) % 89), 14: 330 + (i % 23) };
    const counts = cumulativeCounts(sample, { volumeMl: 10 / dirtier });
    return { counter: { time, counts }, thermometer: { time, celsius: (dirtier > 1 ? 80 : 45) + (i % 7) / 10 } };
  });
}

test.each([true, false])('both rows are judged, followed and counted; counter first: %s', (counterFirst) => {
  const pairs = rowsOf(40).map(({ counter, thermometer }) =>
    counterFirst ? [counter, thermometer] : [thermometer, counter],
  );
  const { state, told, arrivals, rows } = run(pairs.flat());
  expect(told.sort()).toEqual(['raised dirty', 'raised hot']);
  expect(arrivals).toEqual(Array(80).fill('in_order'));
  expect(state.arrivals.inOrder).toBe(80);
  expect(state.usualMs).toBe(10 * minute);
  expect(state.followed[0]?.open?.count).toBe(40);
  const { leftOut, measured } = periodFigures(rows);
  expect(leftOut).toEqual({ setAside: 0, repeated: 0, withoutSample: 40 });
  expect(measured?.figures.map(({ figure, readings }) => [figure, readings])).toEqual([['celsius', 40]]);
});

test('the rows of the second instrument come one reading later: late, and judged', () => {
  const pairs = rowsOf(20);
  const { told, arrivals, state } = run(
    pairs.flatMap(({ counter }, i) => (i === 0 ? [counter] : [counter, pairs[i - 1]?.thermometer as ReadingInput])),
  );
  expect(arrivals).toEqual(pairs.flatMap((_, i) => (i === 0 ? ['in_order'] : ['in_order', 'late'])));
  expect(told.filter((one) => one !== 'late')).toEqual(['raised dirty', 'raised hot']);
  expect(state.followed[0]?.open?.count).toBe(19);
});

test('a file of such rows sent again is repeated, row by row', () => {
  const rows = rowsOf(8).flatMap(({ counter, thermometer }) => [counter, thermometer]);
  const { arrivals, told } = run([...rows, ...rows]);
  expect(arrivals.slice(16)).toEqual(Array(16).fill('repeated'));
  expect(told.slice(-16)).toEqual(Array(16).fill('repeated'));
});

test('what shares a figure with its time contradicts it as before, and is judged by none', () => {
  const last = begin + minute;
  const { told, arrivals } = run([
    { time: begin, celsius: 45 },
    { time: last, celsius: 45, kPa: 30 },
    { time: last, celsius: 80 },
    { time: last, qualities: { celsius: 'bad' } },
    { time: last, coldestCelsius: 5 },
    { time: last, others: { 'acid number': 3 } },
    { time: last, others: { 'acid number': 4 } },
    { time: last, mode: 'lifting' },
  ]);
  expect(arrivals.slice(2)).toEqual(['repeated', 'repeated', 'repeated', 'in_order', 'repeated', 'repeated']);
  const contradicted = Array(3).fill('contradicted');
  expect(told).toEqual([...contradicted, 'raised sour', 'contradicted', 'contradicted']);
});

test('a print is a number of 32 bits, whatever a reading holds', () => {
  const names = Array.from({ length: 64 }, (_, i) => `figure ${i}`);
  const { state } = run([
    {
      time: begin,
      counts: cumulativeCounts({ 4: 1 }),
      mlPerMin: 1,
      kPa: 1,
      celsius: 1,
      mm2PerS: 1,
      waterSaturation: 1,
      others: Object.fromEntries(names.map((name) => [name, 1])),
    },
  ]);
  const print = state.recent?.[0]?.[1] as number;
  // all 14 kinds are set
  expect(print).toBeGreaterThanOrEqual(16383 * 262144);
  expect(print).toBeLessThan(2 ** 32);
});
