/**
 * The library's alarm against a model of the rules alone (alarmStory.ts): random configurations, each with a random
 * sequence of inputs. Events and the state's name are compared after every input, and with them an alarm that is
 * killed and restarted there.
 */
import { isDeepStrictEqual } from 'node:util';
import { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  type AlarmCommand,
  type AlarmConfig,
  type AlarmEvent,
  type AlarmInput,
  type AlarmType,
  advanceAlarm,
  alarmStateName,
  prepareAlarm,
  resumeAlarm,
  type SignalQuality,
  startAlarm,
} from '../../../src/alarm/index.ts';
import { some } from '../../volume.ts';
import { type Story, tellAlarm } from './alarmStory.ts';
import { Undetermined } from './alarmStoryFigure.ts';

/** About 45 inputs each. */
const runs = some(5000, 120);
const leastInputs = some(200_000, 2_700);

/** What must come up, or the comparison has not looked at it: events, reasons of refusal, states. */
const everything: readonly string[] = `
  raised re_alarmed returned acknowledged reset shelved unshelved suppressed unsuppressed removed_from_service
  returned_to_service signal_stale signal_restored signal_bad signal_good chattering chattering_ended
  nothing_to_acknowledge older_than_alarm not_latched condition_stands shelf_over
  older_than_last_command not_shelved longer_than_allowed
  already_out_of_service already_shelved not_out_of_service older_than_last_reading normal unacknowledged_alarm
  acknowledged_alarm
  returned_to_normal_unacknowledged latched_unacknowledged latched_acknowledged suppressed_by_design
  out_of_service
`
  .trim()
  .split(/\s+/)
  .concat(
    'raised returned signal_stale signal_restored signal_bad signal_good chattering chattering_ended'
      .split(' ')
      .map((event) => `${event}, standing`),
  );

/** `undefined` members are left out, as a caller would. */
function present<T extends object>(members: T): { [K in keyof T]: Exclude<T[K], undefined> } {
  return Object.fromEntries(Object.entries(members).filter(([, value]) => value !== undefined)) as never;
}
const maybe = <T>(arbitrary: fc.Arbitrary<T>): fc.Arbitrary<T | undefined> => fc.option(arbitrary, { nil: undefined });

/** All times of one case are few of one unit, so that delays, shelves and readings often fall on one another. */
const unit = fc.constantFrom(1, 7, 1000, 60_000, 3_600_000);
const origin = fc.constantFrom(0, 1_700_000_000_000);
const units = (least: number, most: number) => fc.integer({ min: least, max: most });

/** Figures have at most 15 digits: beyond them, the library's differences are no longer those of decimals. */
const settings = fc.record({
  type: fc.constantFrom<AlarmType>('high', 'low', 'rise', 'fall'),
  setpoint: fc.oneof(
    fc.constantFrom(65, 0.8, 16.05, 0.1, 3, 2500, 1.1),
    fc.integer({ min: 1, max: 10_000_000 }).map((n) => n / 10_000),
    fc.integer({ min: 1, max: 100_000_000 }).map((n) => n / 100_000_000),
  ),
  below0: fc.boolean(),
  /** The deadband in hundredths of the setpoint. */
  deadband: maybe(fc.constantFrom(0, 1, 5, 10, 50, 99)),
  onDelay: maybe(fc.oneof(fc.constant(0), fc.constant(0), units(0, 6))),
  offDelay: maybe(fc.oneof(fc.constant(0), fc.constant(0), units(0, 6))),
  latching: maybe(fc.boolean()),
  longestShelf: maybe(units(2, 20)),
  staleAfter: fc.oneof(fc.constant(undefined), fc.constant(null), units(2, 15)),
  reAlarmAfter: maybe(units(2, 15)),
  chattering: fc.oneof(
    { weight: 1, arbitrary: fc.constant(undefined) },
    { weight: 4, arbitrary: fc.record({ raises: fc.constantFrom(2, 2, 3, 4), within: units(2, 20) }) },
  ),
  within: units(1, 30),
  suppressedInModes: maybe(fc.subarray(['standstill', 'flushing'], { minLength: 1 })),
  priority: maybe(fc.constantFrom('low', 'medium', 'high', 'urgent')),
  note: maybe(fc.constant('call the lock keeper')),
});

interface Case {
  readonly config: AlarmConfig;
  readonly inputs: AlarmInput[];
}

/** Where a value lies, in deadbands (or, without one, hundredths) from the setpoint, so that limits are met exactly. */
const level = fc.oneof(
  { weight: 6, arbitrary: fc.constantFrom(-300, -150, -101, -100, -99, -50, -1, 0, 1, 50, 100, 101, 150, 300) },
  { weight: 1, arbitrary: fc.integer({ min: -1000, max: 1000 }) },
);
/** Mostly a step ahead, sometimes by a millisecond beside a whole unit, sometimes back. */
const step = fc.oneof(
  { weight: 12, arbitrary: fc.record({ by: units(0, 4), aside: fc.constant(0) }) },
  { weight: 4, arbitrary: fc.record({ by: units(1, 8), aside: fc.constantFrom(-1, 0, 1) }) },
  { weight: 1, arbitrary: fc.record({ by: units(10, 60), aside: fc.constantFrom(-1, 0, 1) }) },
  { weight: 1, arbitrary: fc.record({ by: units(-6, -1), aside: fc.constant(0) }) },
);
const mode = fc.constantFrom(undefined, undefined, undefined, undefined, 'standstill', 'flushing', 'running', 'idle');
const who = { by: maybe(fc.constant('shift A')), why: maybe(fc.constant('filter change')) };
const reading = fc.record({
  kind: fc.constant('reading' as const),
  step,
  level,
  quality: fc.constantFrom<(SignalQuality | undefined)[]>(
    undefined,
    undefined,
    'good',
    'good',
    'good',
    'uncertain',
    'uncertain',
    'bad',
  ),
  absent: fc.integer({ min: 0, max: 11 }).map((n) => n === 11),
  mode,
});
const command = fc.record({
  kind: fc.constant('command' as const),
  step,
  command: fc.constantFrom<AlarmCommand['command']>(
    'acknowledge',
    'acknowledge',
    'reset',
    'reset',
    'shelve',
    'unshelve',
    'remove_from_service',
    'return_to_service',
    'return_to_service',
    'return_to_service',
  ),
  forUnits: units(1, 24),
  oneShot: maybe(fc.boolean()),
  ...who,
});
const tick = fc.record({ kind: fc.constant('tick' as const), step, mode });
const symbols = fc.array(
  fc.oneof({ weight: 7, arbitrary: reading }, { weight: 3, arbitrary: command }, { weight: 1, arbitrary: tick }),
  { minLength: 1, maxLength: 100, size: 'max' },
);

/** Makes figures and times of the symbols: the same symbols mean exact limits and delays under every configuration. */
const cases: fc.Arbitrary<Case> = fc.tuple(settings, unit, origin, symbols).map(([s, ms, start, drawn]) => {
  const change = s.type === 'rise' || s.type === 'fall';
  const setpoint = s.below0 && !change ? -s.setpoint : s.setpoint;
  const deadband =
    s.deadband === undefined ? undefined : new Decimal(s.setpoint).times(s.deadband).dividedBy(100).toNumber();
  const times = (n: number | undefined): number | undefined => (n === undefined ? undefined : n * ms);
  const config: AlarmConfig = present({
    id: 'lock gate',
    type: s.type,
    setpoint,
    deadband,
    onDelayMs: times(s.onDelay),
    offDelayMs: times(s.offDelay),
    latching: s.latching,
    longestShelfMs: times(s.longestShelf),
    staleAfterMs: s.staleAfter === null ? null : times(s.staleAfter),
    reAlarmAfterMs: times(s.reAlarmAfter),
    chattering: s.chattering && { raises: s.chattering.raises, withinMs: s.chattering.within * ms },
    withinMs: change ? s.within * ms : undefined,
    suppressedInModes: s.suppressedInModes,
    priority: s.priority,
    note: s.note,
  }) as AlarmConfig;
  const scale = deadband || new Decimal(s.setpoint).dividedBy(100).toNumber();
  const value = (hundredths: number): number =>
    change
      ? new Decimal(scale)
          .times(hundredths)
          .dividedBy(100)
          .plus(hundredths > 0 ? setpoint : 0)
          .toNumber()
      : new Decimal(scale).times(hundredths).dividedBy(100).plus(setpoint).toNumber();
  let clock = start + 100 * ms;
  const inputs = drawn.map((d): AlarmInput => {
    const time = Math.max(0, clock + d.step.by * ms + d.step.aside);
    clock = Math.max(clock, time);
    if (d.kind === 'reading') {
      return present({
        kind: d.quality === 'uncertain' ? undefined : d.kind,
        time,
        value: d.absent ? null : value(d.level),
        quality: d.quality,
        mode: d.mode,
      }) as AlarmInput;
    }
    if (d.kind === 'tick') return present({ kind: d.kind, time, mode: d.mode }) as AlarmInput;
    const shelf = d.command === 'shelve' ? { forMs: d.forUnits * ms, oneShot: d.oneShot } : {};
    return present({ kind: d.kind, time, command: d.command, ...shelf, by: d.by, why: d.why }) as AlarmInput;
  });
  return { config, inputs };
});

/** How often each event, refusal and state came up. */
const seen: Record<string, number> = {};
const count = (what: string): void => {
  seen[what] = (seen[what] ?? 0) + 1;
};

/** Runs one case through the library and the model; returns how many inputs were compared. */
function compare({ config, inputs }: Case): number {
  const prepared = prepareAlarm(config);
  const preparedAgain = JSON.parse(JSON.stringify(prepared));
  let state = startAlarm(prepared);
  let saved = JSON.stringify(state);
  let story: AlarmEvent[] = [];
  for (let n = 1; n <= inputs.length; n += 1) {
    const input = inputs[n - 1] as AlarmInput;
    let now: Story;
    try {
      now = tellAlarm(config, inputs.slice(0, n));
    } catch (error) {
      if (error instanceof Undetermined) return n - 1;
      throw error;
    }
    // The story only grows: no input tells otherwise, or again, what was told before.
    const untold = now.events.slice(story.length);
    same(now.events.slice(0, story.length), story, `input ${n}, the model's own story`);
    story = now.events;

    const advanced = advanceAlarm(prepared, state, input);
    state = advanced.state;
    const name = alarmStateName(state);
    same(advanced.events, untold, `input ${n}`);
    same(name, now.name, `input ${n}, state`);

    const resumed = resumeAlarm(preparedAgain, JSON.parse(saved));
    same(resumed.events, [], `input ${n}, resumed`);
    const other = advanceAlarm(preparedAgain, resumed.state, input);
    same(other, advanced, `input ${n}, restarted`);
    saved = JSON.stringify(other.state);
    expect(saved.length).toBeLessThanOrEqual(2048);

    count(name);
    for (const { event, reason, standing } of advanced.events)
      count(reason ?? (standing ? `${event}, standing` : event));
  }
  return inputs.length;
}

/** Fast where equal; where not, the message of `expect`. */
function same(actual: unknown, expected: unknown, where: string): void {
  if (!isDeepStrictEqual(actual, expected)) expect(actual, where).toStrictEqual(expected);
}

test('Library and model agree on every event and every state', () => {
  let inputs = 0;
  fc.assert(
    fc.property(cases, (one) => {
      inputs += compare(one);
    }),
    { numRuns: runs },
  );
  expect(inputs).toBeGreaterThanOrEqual(leastInputs);
  expect(
    everything.filter((what) => seen[what] === undefined),
    'never seen',
  ).toEqual([]);
});
