/**
 * A channel that has frozen, died or shows what another shows is told, and clears and proves nothing; the sizes that
 * live raise their alarms.
 */
import { describe, expect, test } from 'vitest';
import { iso4406 } from '../../../src/codes/index.ts';
import {
  advanceMonitor,
  type MonitorConfig,
  prepareMonitor,
  type ReadingInput,
  startMonitor,
} from '../../../src/monitor/index.ts';

const hour = 3600000;
const figureAlarm = (id: string, size: number, setpoint: number) =>
  ({ id, type: 'high', figure: { perMlAt: size }, setpoint }) as const;
const alarms: NonNullable<MonitorConfig['alarms']> = [
  { id: 'dirty', type: 'high', figure: { code: 'iso4406' }, setpoint: '19/17/14' },
  figureAlarm('at 6', 6, 1300),
  figureAlarm('at 14', 14, 160),
];
const config: MonitorConfig = {
  codes: [{ table: iso4406, target: '18/16/13' }],
  alarms,
  follow: [{ id: '6', figure: { continuousScaleNumberAt: 6 } }],
};

/** Counts that move, `times` as dirty; `frozen` sizes show one count for ever. */
function sample(i: number, times: number, frozen: Readonly<Record<number, number>> = {}): Partial<ReadingInput> {
  const sizes = [4, 6, 14];
  const live = [18900 + ((i * 7919) % 211), 4020 + ((i * 104729) % 97), 330 + ((i * 31) % 29)];
  const counted = live.map((count, k) => frozen[sizes[k] as number] ?? Math.round(count * times));
  return { counts: { sizing: 'iso11171', sizes, perMl: counted.map((count) => count / 10), counted, volumeMl: 10 } };
}

function run(samples: readonly Partial<ReadingInput>[], own: Partial<MonitorConfig> = {}) {
  const prepared = prepareMonitor({ ...config, ...own });
  let state = startMonitor(prepared);
  const told: string[] = [];
  const verdicts = samples.map((one, i) => {
    const step = advanceMonitor(prepared, state, { time: i * hour, celsius: 45 + (i % 5), ...one });
    state = step.state;
    for (const event of step.events) {
      const { event: name, alarm, code, figure } = event as unknown as Readonly<Record<string, string | undefined>>;
      told.push([i, name, alarm ?? figure, code].filter((part) => part !== undefined).join(' '));
    }
    return step.verdict;
  });
  const judged = (i: number) => verdicts[i]?.alarms.filter((alarm) => alarm.judged).map(({ id }) => id);
  return { told, state, verdicts, judged };
}

const many = (from: number, to: number, times: number, frozen?: Readonly<Record<number, number>>) =>
  Array.from({ length: to - from }, (_, i) => sample(from + i, times, frozen));

describe('14 µm freezes on a sound unit', () => {
  const { told, verdicts, judged, state } = run([
    ...many(0, 24, 1),
    ...many(24, 60, 1, { 14: 331 }),
    ...many(60, 70, 8, { 14: 331 }),
  ]);

  test('it is told, and the oil that becomes dirty at the sizes that live raises their alarms', () => {
    expect(told).toEqual([
      '31 quality_bad counts',
      '55 signal_stale dirty',
      '55 signal_stale at 14',
      '60 signal_restored dirty',
      '60 raised dirty 21/19/-',
      '60 raised at 6',
    ]);
  });

  test('no target is called met, and what the frozen size decides is not judged', () => {
    for (const i of [31, 40, 65]) expect(verdicts[i]).toMatchObject({ quality: 'bad', inTarget: null });
    expect(judged(40)).toEqual(['at 6']);
    expect(judged(65)).toEqual(['dirty', 'at 6']);
    expect(state.bad).toEqual(['counts']);
    // the hours of a day
    expect(state.followed[0]?.open?.count).toBe(22);
  });
});

test('an alarm on the code that stands is not cleared', () => {
  const { told } = run([...many(0, 24, 8), ...many(24, 50, 1, { 14: 2647 })]);
  expect(told.filter((one) => one.includes('returned'))).toEqual(['24 returned at 6']);
});

test('a frozen count above a smaller one that lives is no fault of that', () => {
  const { told, verdicts } = run([...many(0, 24, 8), ...many(24, 50, 0.1, { 14: 2647 })]);
  expect(verdicts[40]?.findings.map(({ code }) => code)).toContain('counts_rise_with_size');
  expect(told).toContain('29 returned at 6');
});

test('where all are frozen, or the counter itself calls its counts bad, nothing is judged', () => {
  const all = run([...many(0, 24, 1), ...Array(10).fill(sample(24, 8))]);
  expect(all.judged(33)).toEqual([]);
  const flagged = many(24, 34, 8, { 14: 331 }).map((one) => ({ ...one, qualities: { counts: 'bad' } as const }));
  expect(run([...many(0, 24, 1), ...flagged]).told).toEqual(['24 quality_bad counts']);
});

test('as uncertain, by the limits of a configuration, all sizes are taken', () => {
  const limits = { qualities: { channels_stuck: 'uncertain' } } as const;
  const { told } = run([...many(0, 24, 1), ...many(24, 34, 8, { 14: 331 })], { limits });
  expect(told).toEqual(['24 raised dirty 21/19/12', '24 raised at 6']);
});

test.each([[[4]], [[4, 14]]])('sizes below that freeze do not hide the dirt above them: %j', (sizes) => {
  const frozen = Object.fromEntries(sizes.map((size) => [size, { 4: 18901, 14: 331 }[size] as number]));
  // at 6 µm 3216 per mL, above the 1890 at which 4 µm stands
  const { told } = run([...many(0, 24, 1), ...many(24, 60, 1, frozen), ...many(60, 70, 8, frozen)]);
  expect(told).toEqual(expect.arrayContaining([expect.stringMatching(/^60 raised dirty /), '60 raised at 6']));
});

describe('a channel beyond the sizes of the code', () => {
  const sizes = [4, 6, 14, 21, 38];
  const spoilt = (i: number, times: number, spoil: (counted: readonly number[]) => readonly number[]) => {
    const { counted = [] } = sample(i, times).counts as { readonly counted?: readonly number[] };
    const fine = [...counted, 90 + ((i * 37) % 23), 21 + ((i * 13) % 11)];
    const shown = spoil(fine.map((count, k) => (k < 3 ? count : Math.round(count * times))));
    return {
      counts: { sizing: 'iso11171', sizes, perMl: shown.map((n) => n / 10), counted: shown, volumeMl: 10 },
    } as const;
  };
  const course = (spoil: (counted: readonly number[]) => readonly number[]) =>
    run(Array.from({ length: 80 }, (_, i) => spoilt(i, i < 70 ? 1 : 8, i < 24 ? (all) => all : spoil)));

  test.each<[string, (counted: readonly number[]) => readonly number[]]>([
    ['shows its neighbour', ([a = 0, b = 0, c = 0, d = 0]) => [a, b, c, d, d]],
    ['dies with those above', ([a = 0, b = 0, c = 0]) => [a, b, c, 0, 0]],
    ['freezes', ([a = 0, b = 0, c = 0, d = 0]) => [a, b, c, d, 7]],
  ])('%s: told, never in target, and the dirt is raised', (_what, spoil) => {
    const { told, verdicts } = course(spoil);
    expect(told).toContain('70 raised dirty 21/19/15');
    expect(told.some((line) => / quality_bad counts$/.test(line))).toBe(true);
    expect(verdicts[69]?.inTarget).toBeNull();
  });

  test('of a counter gone dark all but noise at the smallest size, nothing is judged', () => {
    // above a 64th of the unit's own level, so that it is not taken for zero
    const { told, verdicts } = course(() => [400, 0, 0, 0, 0]);
    expect(verdicts[69]?.findings.map(({ code }) => code)).toEqual(['few_particles', 'channel_empty']);
    const low = run(
      Array.from({ length: 70 }, (_, i) => spoilt(i, 1, (all) => (i < 24 ? all : [400, 0, 0, 0, 0]))),
      { alarms: [figureAlarm('at 4', 4, 1000)] },
    );
    expect(low.judged(23)).toEqual(['at 4']);
    expect(low.judged(69)).toEqual([]);
    expect(told.some((line) => / quality_bad counts$/.test(line))).toBe(true);
  });

  test('an alarm on a size that died is not judged, one on a size that lives is', () => {
    const { judged } = course(([a = 0, b = 0]) => [a, b, 0, 0, 0]);
    expect(judged(23)).toEqual(['dirty', 'at 6', 'at 14']);
    expect(judged(60)).toEqual(['at 6']);
  });
});
