/**
 * Laws of alarms, tried on random histories against a model that looks back over the whole history instead of keeping a
 * state.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type AlarmConfig,
  type AlarmEvent,
  type AlarmInput,
  type AlarmReading,
  type AlarmState,
  advanceAlarm,
  type PreparedAlarm,
  prepareAlarm,
  startAlarm,
} from '../../../src/alarm/index.ts';
import { lettersIn } from '../../../src/alarm/memory.ts';
import { some } from '../../volume.ts';

const known = new WeakMap<AlarmConfig, PreparedAlarm>();
/** Prepared once for each configuration. */
function prepared(of: AlarmConfig): PreparedAlarm {
  const made = known.get(of) ?? prepareAlarm(of);
  known.set(of, made);
  return made;
}
const start = (of: AlarmConfig) => startAlarm(prepared(of));
const advance = (of: AlarmConfig, state: AlarmState, input: AlarmInput) => advanceAlarm(prepared(of), state, input);

/** Steps of time that land before, on and after the delays. */
const step = fc.oneof(fc.constantFrom(0, 1, 99, 100, 101, 250), fc.nat({ max: 400 }));
/** Figures on, inside and around setpoint 10 and deadband 2, on both sides. */
const figure = fc.oneof(
  fc.constantFrom(7.9, 8, 8.1, 9, 9.9, 10, 10.1, 12, 12.1),
  fc.double({ min: 5, max: 15, noNaN: true }),
);
const quality = fc.constantFrom('good' as const, 'uncertain' as const, 'bad' as const);

const config: fc.Arbitrary<AlarmConfig> = fc.record({
  id: fc.constant('x'),
  type: fc.constantFrom('high' as const, 'low' as const),
  setpoint: fc.constant(10),
  deadband: fc.constantFrom(0, 2),
  onDelayMs: fc.constantFrom(0, 100, 250),
  offDelayMs: fc.constantFrom(0, 100, 250),
  latching: fc.boolean(),
  staleAfterMs: fc.constantFrom(300, 100000),
  chattering: fc.constantFrom({ raises: 2, withinMs: 500 }, { raises: 3, withinMs: 1000 }),
});

type Untimed = AlarmInput extends infer Input ? (Input extends AlarmInput ? Omit<Input, 'time'> : never) : never;
const untimed: fc.Arbitrary<Untimed> = fc.oneof(
  { weight: 8, arbitrary: fc.record({ value: figure, quality }) },
  { weight: 1, arbitrary: fc.constantFrom({ value: null }, { kind: 'tick' as const }) },
  {
    weight: 3,
    arbitrary: fc.oneof(
      fc.record({
        kind: fc.constant('command' as const),
        command: fc.constantFrom(
          'acknowledge' as const,
          'reset' as const,
          'unshelve' as const,
          'remove_from_service' as const,
          'return_to_service' as const,
        ),
      }),
      fc.record({
        kind: fc.constant('command' as const),
        command: fc.constant('shelve' as const),
        forMs: fc.integer({ min: 1, max: 800 }),
        oneShot: fc.boolean(),
      }),
    ),
  },
);
const history: fc.Arbitrary<AlarmInput[]> = fc.array(fc.tuple(step, untimed), { maxLength: 60 }).map((list) => {
  let time = 0;
  return list.map(([after, input]) => {
    time += after;
    return { ...input, time } as AlarmInput;
  });
});

function run(of: AlarmConfig, inputs: readonly AlarmInput[], between: (state: AlarmState) => AlarmState = (s) => s) {
  const events: AlarmEvent[] = [];
  let state = start(of);
  for (const input of inputs) {
    const result = advance(of, between(state), input);
    state = result.state;
    events.push(...result.events);
  }
  return { events, state };
}

const saved = (state: AlarmState): AlarmState => JSON.parse(JSON.stringify(state));
const isGood = (input: AlarmInput): input is AlarmReading =>
  'value' in input && input.value !== null && input.quality !== 'bad';

/**
 * Active or not after a history, from the definition: every good reading of the last stretch lies on the other side,
 * for the delay.
 */
function activeByDefinition(of: AlarmConfig, inputs: readonly AlarmInput[]): boolean {
  const good = inputs.filter(isGood);
  let active = false;
  let since = 0; // the first good reading that may count towards the next change
  for (let k = 0; k < good.length; k += 1) {
    const now = (good[k] as AlarmReading).time;
    if (k > 0 && now - (good[k - 1] as AlarmReading).time > (of.staleAfterMs as number)) since = k;
    const stretch: number[] = [];
    for (let j = k; j >= since; j -= 1) {
      const { value, time } = good[j] as AlarmReading & { value: number };
      const deadband = of.deadband as number;
      const above = of.type === 'high' ? value - of.setpoint : of.setpoint - value;
      const other = active ? above < -deadband : above > 0;
      if (!other) break;
      stretch.push(time);
    }
    const begun = stretch[stretch.length - 1];
    if (begun === undefined || now - begun < ((active ? of.offDelayMs : of.onDelayMs) as number)) continue;
    active = !active;
    since = k + 1;
  }
  return active;
}

/** Begins with `raises` raises within `withinMs`, first to last; over once no raise has come for longer than that. */
function chatteringByDefinition({ chattering }: AlarmConfig, raises: readonly number[], now: number): boolean {
  const { raises: many, withinMs } = chattering ?? { raises: 3, withinMs: 3600000 };
  // the raises of the present run, which no gap longer than withinMs divides
  let start = 0;
  raises.forEach((at, i) => {
    if (i > 0 && at - (raises[i - 1] as number) > withinMs) start = i;
  });
  const last = raises[raises.length - 1];
  if (last === undefined || now - last > withinMs) return false;
  const present = raises.slice(start);
  return present.some((at, i) => i >= many - 1 && at - (present[i - many + 1] as number) <= withinMs);
}

interface Model {
  config: AlarmConfig;
  inputs: AlarmInput[];
  latched: boolean;
  active: boolean;
  raises: number[];
}
interface Real {
  state: AlarmState;
  events: AlarmEvent[];
}

/** One input given to the alarm; the model says what must be true afterwards. */
class Give implements fc.Command<Model, Real> {
  constructor(
    readonly after: number,
    readonly input: Untimed,
  ) {}
  check = () => true;
  run(model: Model, real: Real) {
    const time = (model.inputs[model.inputs.length - 1]?.time ?? 0) + this.after;
    const input = { ...this.input, time } as AlarmInput;
    const before = real.state;
    const { state, events } = advance(model.config, before, input);
    model.inputs.push(input);
    const active = activeByDefinition(model.config, model.inputs);
    expect(state.active === true).toBe(active);
    if (!isGood(input)) expect(state.active).toBe(before.active);

    if (model.active && !active) model.latched = model.config.latching === true;
    if (active) model.latched = false;
    if ('command' in input && input.command === 'reset' && !active) model.latched = false;
    expect(state.latched === true).toBe(model.latched);
    if (active && !model.active) expect(state.unacknowledged).toBe(true);
    if (active && !model.active) model.raises.push(time);
    expect(state.chattering === true).toBe(chatteringByDefinition(model.config, model.raises, time));
    model.active = active;

    for (const event of events) expect(event.time).toBeLessThanOrEqual(time);
    if (before.shelf !== undefined && time >= before.shelf.until) {
      expect(events.filter((e) => e.event === 'unshelved' && e.time === before.shelf?.until)).toHaveLength(1);
    }
    // No input is without effect unnoticed: a command is answered by exactly one event of its own.
    if ('command' in input) {
      const answers = ['acknowledged', 'reset', 'shelved', 'removed_from_service', 'returned_to_service', 'refused'];
      const own = events.filter((e) => e.time === time && (answers.includes(e.event) || e.event === 'unshelved'));
      const ranOut = before.shelf?.until === time ? 1 : 0;
      // a shelf that runs out at this very time is told besides
      expect(own.length).toBe(1 + ranOut);
    }
    expect(JSON.stringify(state).length).toBeLessThanOrEqual(2048);
    real.state = state;
    real.events.push(...events);
  }
  toString = () => `after ${this.after}: ${JSON.stringify(this.input)}`;
}

/** Written to disk and read back. */
class Restore implements fc.Command<Model, Real> {
  check = () => true;
  run(_model: Model, real: Real) {
    real.state = saved(real.state);
  }
  toString = () => 'save and restore';
}

describe('alarms', () => {
  test('any course of readings, commands, waits and restores does what the definition says', () => {
    const commands = fc.commands(
      [
        fc.tuple(step, untimed).map(([after, input]) => new Give(after, input)),
        fc.tuple(step, untimed).map(([after, input]) => new Give(after, input)),
        fc.constant(new Restore()),
      ],
      { size: '+1' },
    );
    fc.assert(
      fc.property(config, commands, (of, list) => {
        fc.modelRun(
          () => ({
            model: { config: of, inputs: [], latched: false, active: false, raises: [] },
            real: { state: start(of), events: [] },
          }),
          list,
        );
      }),
      { numRuns: some(1500) },
    );
  });

  test('restored after every input, the events are the same', () => {
    fc.assert(
      fc.property(config, history, (of, inputs) => {
        expect(run(of, inputs, saved)).toEqual(run(of, inputs));
      }),
      { numRuns: some(500) },
    );
  });

  test('a figure of -0 is 0, which JSON has: the restored state is the same', () => {
    for (const type of ['high', 'low'] as const) {
      const { state, events } = run({ id: 'x', type, setpoint: 0 }, [{ time: 0, value: -0 }]);
      expect(state).toEqual(saved(state));
      expect(events).toEqual([]);
    }
  });

  test('a state handed in is left as it was', () => {
    const freeze = (value: unknown): void => {
      if (typeof value !== 'object' || value === null) return;
      Object.freeze(value);
      Object.values(value).forEach(freeze);
    };
    fc.assert(
      fc.property(config, history, (of, inputs) => {
        run(of, inputs, (state) => {
          freeze(state);
          return state;
        });
      }),
      { numRuns: 200 },
    );
  });

  test('the edges are where the decimals say, in hundredths', () => {
    const hundredths = fc.integer({ min: -100000, max: 100000 });
    const few = fc.integer({ min: 0, max: 300 });
    fc.assert(
      fc.property(hundredths, few, fc.integer({ min: -305, max: 5 }), fc.boolean(), (setpoint, deadband, off, high) => {
        const sign = high ? 1 : -1;
        const of: AlarmConfig = {
          id: 'x',
          type: high ? 'high' : 'low',
          setpoint: setpoint / 100,
          deadband: deadband / 100,
        };
        const at = (value: number) =>
          run(of, [
            { time: 0, value: (setpoint + sign * 400) / 100 },
            { time: 1, value },
          ]);
        expect(at((setpoint + sign * off) / 100).state.active === true).toBe(off >= -deadband);
        const edge = at((setpoint - sign * deadband) / 100);
        expect(edge.state.active === true).toBe(true);
        expect(run(of, [{ time: 0, value: (setpoint + sign * off) / 100 }]).state.active === true).toBe(off > 0);
      }),
      { numRuns: some(2000) },
    );
  });

  test('a rise or fall of exactly the setpoint raises, one of a hundredth less does not', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -100000, max: 100000 }),
        fc.integer({ min: 2, max: 3000 }),
        fc.nat({ max: 3000 }),
        fc.boolean(),
        (base, amount, band, rise) => {
          const sign = rise ? 1 : -1;
          const deadband = band % amount;
          const type = rise ? 'rise' : 'fall';
          const of: AlarmConfig = {
            id: 'x',
            type,
            setpoint: amount / 100,
            withinMs: 86400000,
            deadband: deadband / 100,
          };
          const activeAfter = (...changes: readonly number[]) =>
            run(
              of,
              [0, ...changes].map((change, time) => ({ time, value: (base + sign * change) / 100 })),
            ).state.active === true;
          expect(activeAfter(amount - 1)).toBe(false);
          expect(activeAfter(amount)).toBe(true);
          expect(activeAfter(amount, amount - deadband)).toBe(true);
          expect(activeAfter(amount, amount - deadband - 1)).toBe(false);
        },
      ),
      { numRuns: some(2000) },
    );
  });

  test('no chatter inside the deadband: figures above setpoint less deadband give no further event', () => {
    const inside = fc.array(fc.tuple(step, fc.double({ min: 8, minExcluded: true, max: 15, noNaN: true })), {
      minLength: 1,
      maxLength: 50,
    });
    fc.assert(
      fc.property(inside, fc.boolean(), (steps, latching) => {
        const of: AlarmConfig = { id: 'x', type: 'high', setpoint: 10, deadband: 2, latching };
        let time = 0;
        const inputs = steps.map(([after, value]) => {
          time += after;
          return { time, value };
        });
        const { events } = run(of, [{ time: 0, value: 11 }, ...inputs]);
        expect(events.map((e) => e.event)).toEqual(['raised']);
      }),
    );
  });

  test('the on-delay is respected to the millisecond', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1e9 }), fc.integer({ min: 0, max: 1.8e12 }), (onDelayMs, begun) => {
        const of: AlarmConfig = { id: 'x', type: 'low', setpoint: 10, onDelayMs };
        const early = run(
          of,
          [begun, begun + onDelayMs - 1].map((time) => ({ time, value: 9 })),
        );
        expect(early.events).toEqual([]);
        const due = advance(of, early.state, { time: begun + onDelayMs, value: 9 });
        expect(due.events).toMatchObject([{ time: begun + onDelayMs, alarm: 'x', event: 'raised', value: 9 }]);
        const back = advance(of, early.state, { time: begun + onDelayMs, value: 10 });
        expect(back.events).toEqual([]);
      }),
    );
  });

  test('a latched alarm stays until it is reset, whatever else happens', () => {
    fc.assert(
      fc.property(config, history, (of, inputs) => {
        const withoutReset = inputs.filter((input) => !('command' in input && input.command === 'reset'));
        const latching = { ...of, latching: true };
        let state = start(latching);
        let everRaised = false;
        for (const input of withoutReset) {
          state = advance(latching, state, input).state;
          everRaised = everRaised || state.active === true;
          expect(state.active === true || state.latched === true).toBe(everRaised);
        }
      }),
      { numRuns: some(500) },
    );
  });

  test('shelved it is silent, and what stands comes back with the end of the shelf', () => {
    const readings = history.map((inputs) => inputs.filter((input) => !('command' in input)));
    fc.assert(
      fc.property(config, readings, readings, fc.integer({ min: 1, max: 800 }), (of, before, during, forMs) => {
        const begun = before[before.length - 1]?.time ?? 0;
        const shelved = run(of, [...before, { kind: 'command', time: begun, command: 'shelve', forMs }]);
        let { state } = shelved;
        for (const input of during) {
          const time = begun + input.time;
          if (time >= begun + forMs) break;
          const result = advance(of, state, { ...input, time });
          expect(result.events).toEqual([]);
          state = result.state;
        }
        const ended = advance(of, state, { kind: 'tick', time: begun + forMs });
        const end = { time: begun + forMs, alarm: 'x' };
        expect(ended.events[0]).toMatchObject({ ...end, event: 'unshelved' });
        const stands = ended.state.active || ended.state.latched;
        expect(ended.events.filter((e) => e.event === 'raised')).toHaveLength(stands ? 1 : 0);
        expect(ended.events.filter((e) => e.event === 'raised' && e.standing !== true)).toEqual([]);
        expect(ended.events.some((e) => e.event === 'signal_stale')).toBe(ended.state.stale === true);
      }),
      { numRuns: some(500) },
    );
  });

  test('whoever adds up the events knows the state', () => {
    fc.assert(
      fc.property(config, history, (of, inputs) => {
        const { events, state } = run(of, [...inputs, { kind: 'command', time: 1e7, command: 'return_to_service' }]);
        const last = (on: string, off: string) => {
          const found = events.filter((e) => e.event === on || e.event === off);
          return found[found.length - 1]?.event === on;
        };
        expect(last('raised', 'returned')).toBe(state.active === true);
        expect(last('signal_stale', 'signal_restored')).toBe(state.stale === true);
        expect(last('chattering', 'chattering_ended')).toBe(state.chattering === true);
        const cycles = events.filter((e) => (e.event === 'raised' || e.event === 'returned') && !e.standing);
        cycles.forEach((e, i) => {
          if (i > 0 && e.event === cycles[i - 1]?.event) {
            const between = events.slice(events.indexOf(cycles[i - 1] as AlarmEvent) + 1, events.indexOf(e));
            expect(between.some((b) => b.event === 'unshelved' || b.event === 'returned_to_service')).toBe(true);
          }
        });
      }),
      { numRuns: some(500) },
    );
  });

  test('bad readings and ticks change nothing but when one hears of it', () => {
    fc.assert(
      fc.property(config, history, fc.array(fc.nat({ max: 8000 })), (of, inputs, ticks) => {
        const first = inputs[0]?.time ?? 0;
        const extra = ticks.map((time) => ({ time: time + first, value: 99, quality: 'bad' as const }));
        const merged: AlarmInput[] = [...inputs, ...extra].sort((a, b) => a.time - b.time);
        const end: AlarmInput = { kind: 'tick', time: 1e7 };
        const begin: AlarmInput = { kind: 'tick', time: first };
        const heard = (list: AlarmInput[]) =>
          run(of, [begin, ...list, end]).events.filter((e) => e.event !== 'signal_bad' && e.event !== 'signal_good');
        expect(heard(merged)).toEqual(heard(inputs));
      }),
      { numRuns: some(500) },
    );
  });

  test('a reading older than the last reading changes nothing and is not lost silently', () => {
    fc.assert(
      fc.property(config, history, figure, fc.integer({ min: 1, max: 1000 }), (of, inputs, value, earlier) => {
        const { state } = run(of, [...inputs, { time: 5e6, value: null }]);
        const late = advance(of, state, { value, time: 5e6 - earlier });
        expect(late.state).toEqual(state);
        expect(late.events).toMatchObject([{ event: 'refused', reason: 'older_than_last_reading', limit: 5000000 }]);
      }),
      { numRuns: 200 },
    );
  });

  test('an input that a time or a command has overtaken counts as of that time; delays and rates by its own', () => {
    fc.assert(
      fc.property(config, history, untimed, fc.integer({ min: 0, max: 1000 }), (given, inputs, input, behind) => {
        const { onDelayMs: _on, offDelayMs: _off, withinMs, ...rest } = given;
        // parts of time so wide that both lie in one
        const of = withinMs === undefined ? rest : { ...rest, withinMs: 24e7 };
        const { state } = run(of, [...inputs, { time: 5e6, value: 9 }, { kind: 'tick', time: 5e6 + 1000 }]);
        if ('command' in input && input.command === 'shelve') return; // reckoned from its own time
        const overtaken = advance(of, state, { ...input, time: 5e6 + 1000 - behind } as AlarmInput);
        const inTime = advance(of, state, { ...input, time: 5e6 + 1000 } as AlarmInput);
        expect(overtaken.events).toEqual(inTime.events);
        // it remembers when a command was given
        const kept = ({ told = '', ...rest }: AlarmState) => ({ ...rest, read: 0, told: lettersIn(told) });
        expect(kept(overtaken.state)).toEqual(kept(inTime.state));
      }),
      { numRuns: 200 },
    );
  });

  test('rise and fall: however many readings come in the time, the state stays within its 2 kB', () => {
    for (const type of ['rise', 'fall'] as const) {
      const of: AlarmConfig = { id: 'x', type, setpoint: 1e6, withinMs: 3600000 };
      const sign = type === 'rise' ? 1 : -1;
      const { state } = run(
        of,
        Array.from({ length: 3600 }, (_, i) => ({ time: 1.8e12 + i * 1000, value: sign * i })),
      );
      expect(JSON.stringify(state).length).toBeLessThanOrEqual(2048);
      expect(state.value).toBe(3599);
    }
  });

  test('rise and fall: never missed within the time, never raised for more than a 24th beyond it', () => {
    const readings = fc.array(fc.tuple(fc.integer({ min: 1, max: 300 }), fc.integer({ min: 0, max: 12 })), {
      maxLength: 80,
    });
    fc.assert(
      fc.property(
        readings,
        fc.constantFrom('rise' as const, 'fall' as const),
        fc.integer({ min: 50, max: 3000 }),
        (list, type, withinMs) => {
          const of: AlarmConfig = { id: 'x', type, setpoint: 4, withinMs };
          const sign = type === 'rise' ? 1 : -1;
          const seen: { time: number; value: number }[] = [];
          let state = start(of);
          let time = 1.8e12;
          const changeOver = (span: number) =>
            Math.max(
              ...seen
                .filter((r) => r.time >= time - span)
                .map((r) => sign * ((seen[seen.length - 1]?.value as number) - r.value)),
            );
          for (const [after, value] of list) {
            time += after;
            seen.push({ time, value });
            state = advance(of, state, { time, value }).state;
            if (changeOver(withinMs) >= 4) expect(state.active === true).toBe(true);
            if (changeOver((withinMs * 25) / 24) < 4) expect(state.active === true).toBe(false);
          }
          expect(JSON.stringify(state).length).toBeLessThanOrEqual(2048);
        },
      ),
      { numRuns: some(300) },
    );
  });
});
