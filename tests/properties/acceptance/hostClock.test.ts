/** What the host's clock and equal counts tell of a proof, each case beside the one a step away from it. */
import { describe, expect, test } from 'vitest';
import {
  type AcceptanceReading,
  advanceAcceptance,
  prepareAcceptance,
  startAcceptance,
} from '../../../src/acceptance/index.ts';
import { iso4406 } from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';

const minute = 60000;
const hour = 60 * minute;

const particles = (n: number) => ({ 4: 5201 + 7 * n, 6: 1203 - 3 * n, 14: 151 + n });
const clean = (time: number, n: number, receivedAt?: number): AcceptanceReading => {
  const reading = { time, counts: cumulativeCounts(particles(n), { volumeMl: 10 }) };
  return receivedAt === undefined ? reading : { ...reading, receivedAt };
};
const dirty = (time: number, receivedAt?: number): AcceptanceReading => ({
  ...clean(time, 0, receivedAt),
  counts: cumulativeCounts({ 4: 52017, 6: 12031, 14: 1513 }, { volumeMl: 10 }),
});

function run(readings: readonly AcceptanceReading[], least = 5) {
  const prepared = prepareAcceptance({ table: iso4406, target: '16/14/11', readings: least });
  let state = startAcceptance(prepared);
  const told: string[] = [];
  for (const reading of readings) {
    const step = advanceAcceptance(prepared, state, reading);
    state = step.state;
    told.push(...step.events.map((event) => ('why' in event ? `${event.why}` : event.event)));
  }
  return { state, told };
}

describe('the host’s clock', () => {
  test.each([
    ['later than the last in order', 7, ['counted', 'not_newer', 'clock_set_back', 'counted']],
    ['of the same moment', 5, ['counted', 'not_newer', 'not_newer']],
    ['of before', 4, ['counted', 'not_newer', 'not_newer']],
  ])('a second older reading received %s', (_what, receivedAt, told) => {
    const first = clean(100 * minute, 0, 5 * minute);
    const older = [clean(1 * minute, 1, 6 * minute), clean(2 * minute, 2, receivedAt * minute)];
    expect(run([first, ...older]).told).toEqual(told);
  });

  test('known of every second reading alone shows no old reading to be of now', () => {
    const late = 30 * hour;
    const before = Array.from({ length: 3 }, (_x, i) => dirty(late + 10 * i * minute, late + 10 * i * minute));
    const every = (some: (i: number) => boolean) =>
      Array.from({ length: 12 }, (_x, i) =>
        clean(10 * i * minute, i, some(i) ? late + (30 + 10 * i) * minute : undefined),
      );
    expect(run([...before, ...every((i) => i % 2 === 0)]).state.run).toBeUndefined();
    expect(run([...before, ...every((i) => i % 2 === 1)]).state.run).toBeUndefined();
    expect(run([...before, ...every(() => true)]).state.accepted).toBeDefined();
  });
});

describe('equal counts of a run', () => {
  const code = (time: number): AcceptanceReading => ({ time, codes: { iso4406: '16/14/11' } });
  const counts = (readings: readonly AcceptanceReading[]) => run(readings, 9).state.run?.counts;

  test('stay equal over a code in between, and codes alone tell nothing', () => {
    expect(counts([code(0), code(minute)])).toBeUndefined();
    expect(counts([clean(0, 0), code(minute)])).toBe('equal');
    expect(counts([code(0), clean(minute, 0)])).toBe('equal');
    expect(counts([clean(0, 0), code(minute), clean(2 * minute, 0)])).toBe('equal');
    expect(counts([clean(0, 0), code(minute), clean(2 * minute, 1)])).toBe('changed');
    expect(counts([clean(0, 0), clean(minute, 1), code(2 * minute), clean(3 * minute, 1)])).toBe('changed');
  });

  test('are those of the same sizes', () => {
    const of = (time: number, third: number): AcceptanceReading => ({
      time,
      counts: cumulativeCounts({ 4: 5201, 6: 1203, 14: 151, [third]: 30 }, { volumeMl: 10 }),
    });
    expect(counts([of(0, 21), of(minute, 21)])).toBe('equal');
    expect(counts([of(0, 21), of(minute, 25)])).toBe('changed');
  });

  test('of a run that was ended are not those of the next', () => {
    const ended = [clean(0, 0), clean(minute, 1), dirty(2 * minute)];
    expect(counts([...ended, clean(3 * minute, 1)])).toBe('equal');
  });
});
