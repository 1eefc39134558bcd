import { describe, expect, test } from 'vitest';
import {
  type AlarmConfig,
  type AlarmEvent,
  type AlarmInput,
  type AlarmState,
  advanceAlarm,
  alarmStateName,
  prepareAlarm,
  problemsOf,
  resumeAlarm,
  startAlarm,
} from '../../../src/alarm/index.ts';
import { packExtreme } from '../../../src/alarm/signal.ts';
import reference from './sequences.json' with { type: 'json' };

const hour = 3600000;

/** All events of the inputs, and the state at the end. */
function run(config: AlarmConfig, inputs: readonly AlarmInput[]): { events: AlarmEvent[]; state: AlarmState } {
  let state = startAlarm(prepareAlarm(config));
  const events: AlarmEvent[] = [];
  for (const input of inputs) {
    const step = advanceAlarm(prepareAlarm(config), state, input);
    state = step.state;
    events.push(...step.events);
  }
  return { events, state };
}

const told = (events: readonly AlarmEvent[]) =>
  events.map(({ time, event, standing }) => `${time} ${event}${standing ? ' standing' : ''}`);

const hot: AlarmConfig = { id: 'tank oil hot', type: 'high', setpoint: 65, deadband: 3 };

describe('sequences', () => {
  test.each(reference.sequences)('$id', ({ id, type, setpoint, deadband, secondsValueActive, ...delays }) => {
    const config: AlarmConfig = {
      id,
      type: type as 'high' | 'low',
      setpoint,
      deadband,
      onDelayMs: delays.onDelaySeconds * 1000,
      offDelayMs: delays.offDelaySeconds * 1000,
    };
    let state = startAlarm(prepareAlarm(config));
    const active = secondsValueActive.map(([seconds, value]) => {
      state = advanceAlarm(prepareAlarm(config), state, {
        time: (seconds as number) * 1000,
        value: value as number,
      }).state;
      return [seconds, value, state.active === true];
    });
    expect(active).toEqual(secondsValueActive);
  });
});

describe('exactly on the limits', () => {
  test('strictly above raises, strictly below less the deadband returns (OPC 30030, ASHRAE 135)', () => {
    const { events } = run(hot, [
      { time: 0, value: 65 },
      { time: 1, value: 65.1 },
      { time: 2, value: 62 },
      { time: 3, value: 61.9 },
    ]);
    expect(told(events)).toEqual(['1 raised', '3 returned']);
  });

  test('without a deadband the setpoint itself neither raises nor returns', () => {
    const { events } = run(
      { id: 'dirty', type: 'high', setpoint: 18 },
      [18, 19, 18, 17].map((value, time) => ({ time, value })),
    );
    expect(told(events)).toEqual(['1 raised', '3 returned']);
  });

  test('the off-delay is the on-delay where left out', () => {
    const inputs = [70, 70, 50, 50, 50].map((value, i) => ({ time: i * 500, value }));
    expect(told(run({ ...hot, onDelayMs: 500 }, inputs).events)).toEqual(['500 raised', '1500 returned']);
    expect(told(run({ ...hot, onDelayMs: 500, offDelayMs: 1000 }, inputs).events)).toEqual([
      '500 raised',
      '2000 returned',
    ]);
  });

  test('two scale numbers in a day: reached raises, a day later it is over', () => {
    const config: AlarmConfig = { id: 'dirt rises', type: 'rise', setpoint: 2, withinMs: 24 * hour };
    const { events } = run(
      config,
      [16, 16, 17, 17, 18, 18, 18, 18, 18].map((value, i) => ({ time: i * 6 * hour, value })),
    );
    expect(events.map(({ time, event, value }) => [time / hour, event, value])).toEqual([
      [24, 'raised', 2],
      [36, 'returned', 1],
    ]);
  });

  test('a slow rise is no rise, and a fall is its mirror', () => {
    const slow = [16, 16.5, 17, 17.5, 18, 18.5].map((value, i) => ({ time: i * 24 * hour, value }));
    expect(run({ id: 'r', type: 'rise', setpoint: 2, withinMs: 24 * hour }, slow).events).toEqual([]);
    const drop = [46, 45, 40].map((value, i) => ({ time: i * hour, value }));
    expect(run({ id: 'thin', type: 'fall', setpoint: 5, withinMs: 3 * hour }, drop).events).toMatchObject([
      { time: 2 * hour, alarm: 'thin', event: 'raised', value: 6 },
    ]);
  });
});

describe('what an operator does', () => {
  test('acknowledge, latch, reset: the states by name', () => {
    const config: AlarmConfig = { ...hot, latching: true };
    const steps: [AlarmInput, string][] = [
      [{ time: 0, value: 60 }, 'normal'],
      [{ time: 1, value: 70 }, 'unacknowledged_alarm'],
      [{ kind: 'command', time: 2, command: 'acknowledge' }, 'acknowledged_alarm'],
      [{ kind: 'command', time: 3, command: 'reset' }, 'acknowledged_alarm'],
      [{ time: 4, value: 50 }, 'latched_acknowledged'],
      [{ time: 5, value: 70 }, 'unacknowledged_alarm'],
      [{ time: 6, value: 50 }, 'latched_unacknowledged'],
      [{ kind: 'command', time: 7, command: 'reset' }, 'returned_to_normal_unacknowledged'],
      [{ kind: 'command', time: 8, command: 'acknowledge' }, 'normal'],
      [{ kind: 'command', time: 9, command: 'shelve', forMs: 5 }, 'shelved'],
      [{ kind: 'command', time: 10, command: 'remove_from_service' }, 'out_of_service'],
      [{ kind: 'command', time: 14, command: 'return_to_service' }, 'normal'],
    ];
    let state = startAlarm(prepareAlarm(config));
    for (const [input, name] of steps) {
      state = advanceAlarm(prepareAlarm(config), state, input).state;
      expect(alarmStateName(state), JSON.stringify(input)).toBe(name);
    }
  });

  test('a latched return says so', () => {
    const { events } = run({ ...hot, latching: true }, [
      { time: 1, value: 70 },
      { time: 2, value: 50 },
    ]);
    expect(events[1]).toEqual({ time: 2, alarm: hot.id, event: 'returned', value: 50, latched: true });
  });

  test('shelved: silent, its end to the millisecond, and what was missed', () => {
    const { events } = run(hot, [
      { kind: 'command', time: 0, command: 'shelve', forMs: 100 },
      { time: 10, value: 70 },
      { time: 20, value: 50 },
      { time: 30, value: 71 },
      { time: 250, value: 50 },
    ]);
    expect(events).toMatchObject([
      { time: 0, alarm: hot.id, event: 'shelved', until: 100 },
      { time: 100, alarm: hot.id, event: 'unshelved', silentRaises: 2 },
      { time: 100, alarm: hot.id, event: 'raised', standing: true, value: 71 },
      { time: 250, alarm: hot.id, event: 'returned', value: 50 },
    ]);
  });

  test('each silence tells its own raises', () => {
    const { events } = run(hot, [
      { kind: 'command', time: 0, command: 'shelve', forMs: 10 },
      { time: 1, value: 70 },
      { time: 20, value: 50 },
      { kind: 'command', time: 30, command: 'shelve', forMs: 10 },
      { kind: 'tick', time: 50 },
    ]);
    expect(events.filter((e) => e.event === 'unshelved').map((e) => e.silentRaises)).toEqual([1, 0]);
  });

  test('a return while shelved is told afterwards', () => {
    const { events } = run(hot, [
      { time: 0, value: 70 },
      { kind: 'command', time: 1, command: 'shelve', forMs: 100 },
      { time: 2, value: 50 },
      { kind: 'command', time: 3, command: 'unshelve' },
    ]);
    expect(told(events)).toEqual(['0 raised', '1 shelved', '3 unshelved', '3 returned standing']);
  });

  test('a one-shot shelf ends with the return', () => {
    const { events } = run(hot, [
      { time: 0, value: 70 },
      { kind: 'command', time: 1, command: 'shelve', forMs: 100, oneShot: true },
      { time: 2, value: 50 },
      { time: 3, value: 70 },
    ]);
    expect(told(events)).toEqual(['0 raised', '1 shelved', '2 unshelved', '2 returned standing', '3 raised']);
  });

  test('latched while shelved comes back latched', () => {
    const { events, state } = run({ ...hot, latching: true }, [
      { kind: 'command', time: 0, command: 'shelve', forMs: 100 },
      { time: 1, value: 70 },
      { time: 2, value: 50 },
      { kind: 'tick', time: 101 },
    ]);
    expect(told(events)).toEqual(['0 shelved', '100 unshelved', '100 raised standing', '100 returned standing']);
    expect(state.latched).toBe(true);
  });

  test('shelved and out of service: silent until both have ended', () => {
    const { events } = run(hot, [
      { kind: 'command', time: 0, command: 'remove_from_service' },
      { kind: 'command', time: 1, command: 'shelve', forMs: 10 },
      { time: 2, value: 70 },
      { time: 20, value: 70 },
      { kind: 'command', time: 30, command: 'return_to_service' },
    ]);
    expect(told(events)).toEqual([
      '0 removed_from_service',
      '1 shelved',
      '11 unshelved',
      '30 returned_to_service',
      '30 raised standing',
    ]);
  });

  const refusals: [string, AlarmInput[], string, boolean?][] = [
    ['acknowledge nothing', [{ kind: 'command', time: 1, command: 'acknowledge' }], 'nothing_to_acknowledge'],
    ['reset nothing', [{ kind: 'command', time: 1, command: 'reset' }], 'not_latched'],
    [
      'reset too early',
      [
        { time: 1, value: 70 },
        { kind: 'command', time: 1, command: 'reset' },
      ],
      'condition_stands',
      true,
    ],
    [
      'reset what does not latch',
      [
        { time: 1, value: 70 },
        { kind: 'command', time: 1, command: 'reset' },
      ],
      'not_latched',
    ],
    // acknowledged is what the operator has seen (ISA-18.2; the EventId of OPC 10000-9; both from memory)
    [
      'acknowledge before the alarm was raised again',
      [
        { time: 0, value: 70 },
        { time: 100, value: 60 },
        { time: 200, value: 70 },
        { kind: 'command', time: 199, command: 'acknowledge' },
      ],
      'older_than_alarm',
    ],
    [
      'reset before the figure was back',
      [
        { time: 0, value: 70 },
        { time: 100, value: 60 },
        { kind: 'command', time: 99, command: 'reset' },
      ],
      'older_than_return',
      true,
    ],
    ['unshelve nothing', [{ kind: 'command', time: 1, command: 'unshelve' }], 'not_shelved'],
    ['shelve too long', [{ kind: 'command', time: 1, command: 'shelve', forMs: 9 * hour }], 'longer_than_allowed'],
    ['return what is in service', [{ kind: 'command', time: 1, command: 'return_to_service' }], 'not_out_of_service'],
    [
      'remove twice',
      [
        { kind: 'command', time: 1, command: 'remove_from_service' },
        { kind: 'command', time: 1, command: 'remove_from_service' },
      ],
      'already_out_of_service',
    ],
    [
      'older than the last',
      [
        { time: 2, value: 50 },
        { time: 1, value: 99 },
      ],
      'older_than_last_reading',
    ],
  ];
  test.each(refusals)('refused: %s', (_name, inputs, reason, latching = false) => {
    expect(run({ ...hot, latching }, inputs).events.slice(-1)).toMatchObject([{ event: 'refused', reason }]);
  });

  test('an acknowledgement of its moment, or of an alarm that has returned since, counts', () => {
    const acknowledge = (time: number): AlarmInput => ({ kind: 'command', time, command: 'acknowledge' });
    const readings = [70, 60, 70, 60].map((value, i) => ({ time: 100 * i, value }));
    expect(run(hot, [...readings.slice(0, 3), acknowledge(200)]).events.slice(-1)).toMatchObject([
      { event: 'acknowledged' },
    ]);
    expect(run(hot, [...readings, acknowledge(250)]).events.slice(-1)).toMatchObject([{ event: 'acknowledged' }]);
    const anew = [
      { time: 0, value: 70 },
      { kind: 'tick', time: 1000 },
    ] as const;
    const config = { ...hot, reAlarmAfterMs: 600 };
    expect(run(config, [...anew, acknowledge(599)]).events.slice(-1)).toMatchObject([
      { event: 'refused', reason: 'older_than_alarm', limit: 600 },
    ]);
    expect(run(config, [...anew, acknowledge(600)]).events.slice(-1)).toMatchObject([{ event: 'acknowledged' }]);
  });
});

describe('the signal itself', () => {
  test('stale at its own time, restored by a good reading, not by a bad one', () => {
    const { events } = run({ ...hot, staleAfterMs: 100 }, [
      { time: 0, value: 50 },
      { time: 100, value: 50 },
      { kind: 'tick', time: 200 },
      { time: 300, value: 70, quality: 'bad' },
      { time: 400, value: 70 },
    ]);
    expect(told(events)).toEqual([
      '200 signal_stale',
      '300 signal_bad',
      '400 signal_good',
      '400 signal_restored',
      '400 raised',
    ]);
  });

  test('a delay does not run across a stale signal', () => {
    const config = { ...hot, onDelayMs: 50, staleAfterMs: 100 };
    const { events } = run(config, [
      { time: 0, value: 70 },
      { time: 500, value: 70 },
      { time: 550, value: 70 },
    ]);
    expect(told(events)).toEqual(['100 signal_stale', '500 signal_restored', '550 raised']);
  });

  test('never heard from is stale too', () => {
    expect(
      told(
        run({ ...hot, staleAfterMs: 100 }, [
          { kind: 'tick', time: 0 },
          { kind: 'tick', time: 101 },
        ]).events,
      ),
    ).toEqual(['100 signal_stale']);
  });

  test('bad neither raises nor clears, and null is bad', () => {
    const { events, state } = run(hot, [
      { time: 0, value: 99, quality: 'bad' },
      { time: 1, value: 99, quality: 'uncertain' },
      { time: 2, value: 0, quality: 'bad' },
      { time: 3, value: null },
    ]);
    expect(told(events)).toEqual(['0 signal_bad', '1 signal_good', '1 raised', '2 signal_bad']);
    expect(state.active).toBe(true);
  });

  test('chattering found, and over when no raise has come for its time', () => {
    const config: AlarmConfig = { ...hot, chattering: { raises: 3, withinMs: 100 } };
    const values = [70, 50, 70, 50, 70, 50];
    const { events } = run(config, [
      ...values.map((value, i) => ({ time: i * 10, value })),
      { kind: 'tick', time: 140 },
      { kind: 'tick', time: 141 },
    ]);
    expect(told(events).filter((text) => text.includes('chattering'))).toEqual([
      '40 chattering',
      '140 chattering_ended',
    ]);
  });

  test('chattering is found when the raises take exactly the time, and no longer', () => {
    const inputs = [70, 50, 70, 50, 70].map((value, i) => ({ time: i * 10, value }));
    const found = (withinMs: number) => run({ ...hot, chattering: { raises: 3, withinMs } }, inputs).state.chattering;
    expect([found(40), found(39)]).toEqual([true, undefined]);
  });

  test('a state is the same after JSON, which has no -0', () => {
    for (const type of ['high', 'low', 'rise', 'fall'] as const) {
      const config: AlarmConfig = {
        id: 'x',
        type,
        setpoint: 1,
        ...(type.length === 4 && type !== 'high' ? { withinMs: 1000 } : {}),
      };
      for (const value of [0, -0]) {
        const { state } = run(config, [{ time: 0, value }]);
        expect(JSON.parse(JSON.stringify(state))).toEqual(state);
      }
    }
  });

  test('the ends of what may be said of chattering', () => {
    for (const raises of [2, 20]) prepareAlarm({ ...hot, chattering: { raises, withinMs: 1 } });
    for (const raises of [1, 21, 2.5]) {
      expect(() => prepareAlarm({ ...hot, chattering: { raises, withinMs: 1 } })).toThrow(/config\.chattering\.raises/);
    }
  });

  test('slow repetition is no chattering', () => {
    const config: AlarmConfig = { ...hot, chattering: { raises: 3, withinMs: 39 } };
    const values = [70, 50, 70, 50, 70, 50, 70];
    const { events } = run(
      config,
      values.map((value, i) => ({ time: i * 10, value })),
    );
    expect(told(events).filter((text) => text.includes('chattering'))).toEqual([]);
  });
});

describe('errors', () => {
  test('a bad configuration names every mistake', () => {
    const bad = {
      id: '',
      type: 'hihi',
      setpoint: '65',
      withinMs: 5,
      deadband: -1,
      onDelayMs: 0.5,
      offDelayMs: Number.NaN,
      latching: 'yes',
      longestShelfMs: 0,
      staleAfterMs: -3,
      chattering: { raises: 1, withinMs: 0, every: 1 },
      setPoint: 65,
    };
    try {
      prepareAlarm(bad as never);
      expect.unreachable();
    } catch (error) {
      expect(error).toMatchObject({ code: 'bad_configuration' });
      expect(problemsOf(error).map(({ path }) => path.join('.'))).toEqual([
        'setPoint',
        'id',
        'deadband',
        'onDelayMs',
        'offDelayMs',
        'latching',
        'longestShelfMs',
        'staleAfterMs',
        'chattering.every',
        'chattering.raises',
        'chattering.withinMs',
        'type',
        'setpoint',
      ]);
    }
  });

  const rise = { id: 'r', type: 'rise', setpoint: 2, withinMs: 1000 };
  test.each([
    ['no object', null, ''],
    ['a rise of nothing', { ...rise, setpoint: 0 }, 'setpoint'],
    ['a rise without its time', { id: 'r', type: 'rise', setpoint: 2 }, 'withinMs'],
    ['a deadband that never returns', { ...rise, deadband: 2 }, 'deadband'],
    ['a long name', { ...rise, id: 'x'.repeat(65) }, 'id'],
    ['a name that is none', { ...rise, id: 7 }, 'id'],
  ])('one mistake: %s', (_name, config, place) => {
    expect(() => prepareAlarm(config as never)).toThrow(
      expect.objectContaining({
        code: 'bad_configuration',
        problems: [expect.objectContaining({ path: place === '' ? [] : [place] })],
      }),
    );
  });

  const fresh = startAlarm(prepareAlarm(hot));
  test.each([
    ['unknown_option', fresh, { time: 0, value: 70, command: 'acknowledge' }],
    ['unknown_option', fresh, { time: 0, vlaue: 70 }],
    ['wrong_type', fresh, 7],
    ['wrong_type', fresh, { value: 7 }],
    ['not_a_number', fresh, { time: Number.NaN }],
    ['infinite', fresh, { kind: 'tick', time: Infinity }],
    ['not_an_integer', fresh, { time: 0.5 }],
    ['out_of_range', fresh, { kind: 'tick', time: 1e16 }],
    ['wrong_type', fresh, { time: 0, value: '66' }],
    ['not_a_number', fresh, { time: 0, value: Number.NaN }],
    ['unknown_option', fresh, { time: 0, value: 66, quality: 'fair' }],
    ['unknown_option', fresh, { kind: 'command', time: 0, command: 'silence' }],
    ['out_of_range', fresh, { kind: 'command', time: 0, command: 'shelve', forMs: 0 }],
    ['wrong_type', fresh, { kind: 'command', time: 0, command: 'shelve', forMs: 5, oneShot: 1 }],
    ['bad_state', null, { kind: 'tick', time: 0 }],
    ['bad_state', { ...fresh, version: 4 }, { kind: 'tick', time: 0 }],
    ['bad_state', { ...fresh, version: 2 }, { kind: 'tick', time: 0 }],
    ['bad_state', { ...fresh, of: 'low' }, { kind: 'tick', time: 0 }],
    ['unknown_option', fresh, { kind: 'note', time: 0 }],
    ['wrong_type', fresh, { time: 0 }],
  ])('%s', (code, state, input) => {
    expect(() => advanceAlarm(prepareAlarm(hot), state as never, input as never)).toThrow(
      expect.objectContaining({ code }),
    );
  });
});

describe('as ISA-18.2 and OPC 10000-9 have them', () => {
  test('raised says what to act on: value, setpoint, priority, note', () => {
    const { events } = run({ ...hot, priority: 'urgent', note: 'Open the cooler valve.' }, [{ time: 5, value: 66 }]);
    expect(events).toEqual([
      {
        time: 5,
        alarm: hot.id,
        event: 'raised',
        value: 66,
        setpoint: 65,
        priority: 'urgent',
        note: 'Open the cooler valve.',
      },
    ]);
  });

  const low: AlarmConfig = { id: 'pressure', type: 'low', setpoint: 500, suppressedInModes: ['standstill', 'service'] };

  test('suppressed by design: before the reading of that mode, until after the first of another', () => {
    const { events, state } = run(low, [
      { time: 0, value: 700, mode: 'running' },
      { time: 1, value: 20, mode: 'standstill' },
      { time: 2, value: 10 },
      { time: 3, value: 15, mode: 'service' },
      { time: 4, value: 690, mode: 'running' },
      { time: 5, value: 400 },
    ]);
    expect(told(events)).toEqual(['1 suppressed', '4 unsuppressed', '5 raised']);
    expect(events[1]).toEqual({ time: 4, alarm: 'pressure', event: 'unsuppressed', silentRaises: 0 });
    expect(alarmStateName(state)).toBe('unacknowledged_alarm');
  });

  test('what its first reading shows when the machine runs again is told', () => {
    const { events, state } = run(low, [
      { time: 1, value: 20, mode: 'standstill' },
      { kind: 'tick', time: 4, mode: 'running' },
      { time: 5, value: 20 },
    ]);
    expect(told(events)).toEqual(['1 suppressed', '4 unsuppressed', '5 raised']);
    expect(state.suppressed).toBeUndefined();
    expect(alarmStateName(run(low, [{ kind: 'tick', time: 4, mode: 'service' }]).state)).toBe('suppressed_by_design');
  });

  test('re-alarm: what still stands is raised anew, unacknowledged again, once for as often as it fell due', () => {
    const of: AlarmConfig = { ...hot, reAlarmAfterMs: 100 };
    const { events, state } = run(of, [
      { time: 0, value: 70 },
      { kind: 'command', time: 10, command: 'acknowledge', by: 'A. Keeper', why: 'cooler is on' },
      { kind: 'tick', time: 99 },
      { kind: 'tick', time: 100 },
      { time: 350, value: 71 },
      { time: 399, value: 50 },
      { kind: 'tick', time: 9999 },
    ]);
    expect(told(events)).toEqual(['0 raised', '10 acknowledged', '100 re_alarmed', '300 re_alarmed', '399 returned']);
    expect(events[1]).toMatchObject({ by: 'A. Keeper', why: 'cooler is on' });
    expect(events[2]).toMatchObject({ value: 70, setpoint: 65, priority: 'medium' });
    expect(events[3]).toMatchObject({ times: 2 });
    expect(state.unacknowledged).toBe(true);
  });

  test.each([[[]], [[107]], [[101, 103, 105, 107]]])(
    're-alarm due as a shelf ends is told, whatever ticks came before (%j)',
    (ticks) => {
      const prepared = prepareAlarm({ id: 'hot', type: 'high', setpoint: 65, reAlarmAfterMs: 2 });
      const inputs: AlarmInput[] = [
        { time: 100, value: 66 },
        { kind: 'command', time: 100, command: 'shelve', forMs: 8 },
        ...ticks.map((time) => ({ kind: 'tick' as const, time })),
        { time: 109, value: 66 },
      ];
      let state = startAlarm(prepared);
      const told: string[] = [];
      for (const input of inputs) {
        const step = advanceAlarm(prepared, state, input);
        state = step.state;
        for (const { event, time, times } of step.events) told.push(`${event}@${time}${times ? ` x${times}` : ''}`);
      }
      expect(told).toEqual(['raised@100', 'shelved@100', 'unshelved@108', 'raised@108', 're_alarmed@108']);
    },
  );

  test('one event tells all re-alarms that one input hears of, also around a stale signal', () => {
    const prepared = prepareAlarm({ id: 'hot', type: 'high', setpoint: 65, reAlarmAfterMs: 2, staleAfterMs: 5 });
    const { state } = advanceAlarm(prepared, startAlarm(prepared), { time: 100, value: 66 });
    const { events } = advanceAlarm(prepared, state, { kind: 'tick', time: 109 });
    expect(events.map(({ event, time, times }) => [event, time, times])).toEqual([
      ['signal_stale', 105, undefined],
      ['re_alarmed', 108, 4],
    ]);
  });

  test('exactly on a limit of ten decimal places', () => {
    const rise = prepareAlarm({ id: 'dirt', type: 'rise', setpoint: 0.4114871102, withinMs: 1000 });
    const first = advanceAlarm(rise, startAlarm(rise), { time: 0, value: 0.1595709247 });
    const [raised] = advanceAlarm(rise, first.state, { time: 1, value: 0.5710580349 }).events;
    expect([raised?.event, raised?.value]).toEqual(['raised', 0.4114871102]);
    // 1.5292263978 less 0.6150529945 is 0.9141734033: not strictly below
    const high = prepareAlarm({ id: 'wet', type: 'high', setpoint: 1.5292263978, deadband: 0.6150529945 });
    expect(high.back).toBe(0.9141734033);
    const up = advanceAlarm(high, startAlarm(high), { time: 0, value: 2 });
    expect(advanceAlarm(high, up.state, { time: 1, value: 0.9141734033 }).events).toEqual([]);
    expect(advanceAlarm(high, up.state, { time: 1, value: 0.9141734032 }).events[0]?.event).toBe('returned');
  });

  test('a bad signal is told as standing after a silence, also where it was told before', () => {
    const prepared = prepareAlarm({ id: 'hot', type: 'high', setpoint: 65 });
    let state = advanceAlarm(prepared, startAlarm(prepared), { time: 0, value: null }).state;
    state = advanceAlarm(prepared, state, { kind: 'command', time: 1, command: 'shelve', forMs: 5 }).state;
    expect(advanceAlarm(prepared, state, { kind: 'tick', time: 6 }).events).toEqual([
      { time: 6, alarm: 'hot', event: 'unshelved', silentRaises: 0 },
      { time: 6, alarm: 'hot', event: 'signal_bad', standing: true },
    ]);
  });

  test('the usual interval decides what is stale: a weekly figure is not stale on Tuesday', () => {
    const week = 7 * 24 * hour;
    const weekly = (last: AlarmInput) =>
      run(hot, [{ time: 0, value: 50 }, { time: week, value: 50 }, { time: 2 * week, value: 50 }, last]).events;
    expect(weekly({ kind: 'tick', time: 2 * week + 9 * week })).toEqual([]);
    expect(weekly({ kind: 'tick', time: 2 * week + 10 * week + 1 })).toEqual([
      { time: 12 * week, alarm: hot.id, event: 'signal_stale', since: 2 * week },
    ]);
    const minutely = (after: number) =>
      run(hot, [
        { time: 0, value: 50 },
        { time: 60000, value: 50 },
        { kind: 'tick', time: 60000 + after },
      ]).events;
    expect(minutely(24 * hour)).toEqual([]);
    expect(told(minutely(24 * hour + 1))).toEqual([`${60000 + 24 * hour} signal_stale`]);
    const never = run({ ...hot, staleAfterMs: null }, [
      { time: 0, value: 50 },
      { kind: 'tick', time: 1e12 },
    ]);
    expect(never.events).toEqual([]);
  });
});

describe('a state from outside', () => {
  const prepared = prepareAlarm(hot);
  const raised = run(hot, [{ time: 7, value: 70 }]).state;

  test('goes on under other setpoints; begins anew where its figures mean something else', () => {
    const other = prepareAlarm({ ...hot, setpoint: 75 });
    expect(resumeAlarm(other, raised)).toEqual({ state: raised, events: [], kept: [hot.id], dropped: [], added: [] });
    const rise = prepareAlarm({ id: hot.id, type: 'rise', setpoint: 2, withinMs: 24 * hour });
    expect(resumeAlarm(rise, raised)).toEqual({
      state: { version: 3, of: 'rise in 86400000 ms', time: 7 },
      events: [{ time: 7, alarm: hot.id, event: 'dropped', state: 'unacknowledged_alarm' }],
      kept: [],
      dropped: [hot.id],
      added: [hot.id],
    });
    expect(() => advanceAlarm(rise, raised, { time: 8, value: 1 })).toThrow(
      "state.of: received 'high', expected 'rise in 86400000 ms'; resumeAlarm goes on from others",
    );
  });

  test.each([
    ['no object', null, 'state'],
    ['a version to come', { ...raised, version: 4 }, 'state.version'],
    ['a member too many', { ...raised, acknowledged: false }, 'state.acknowledged'],
    ['a time that is none', { ...raised, since: 0.5 }, 'state.since'],
    ['false where there is nothing', { ...raised, active: false }, 'state.active'],
    ['endless', { ...raised, value: Infinity }, 'state.value'],
    ['chattering without raises', { ...raised, chattering: true, raises: undefined }, 'state.raises'],
    ['raises that are no times', { ...raised, raises: '~~~~~~~~~' }, 'state.raises'],
    ['extremes without their part', { ...raised, extremes: packExtreme(0, 1) }, 'state.part'],
    ['an extreme too long ago', { ...raised, part: 3, extremes: packExtreme(25, 1) }, 'state.extremes'],
  ])('refused: %s', (_name, state, parameter) => {
    expect(() => resumeAlarm(prepared, state)).toThrow(expect.objectContaining({ code: 'bad_state', parameter }));
  });

  test('a raw configuration passed by mistake says so', () => {
    expect(() => startAlarm(hot as never)).toThrow(expect.objectContaining({ code: 'not_prepared' }));
    expect(() => advanceAlarm({ ...prepared, version: '0.0.1' }, raised, { time: 9, value: 1 })).toThrow(
      expect.objectContaining({ code: 'not_prepared' }),
    );
  });

  test('prepared survives JSON', () => {
    expect(JSON.parse(JSON.stringify(prepared))).toEqual(prepared);
  });
});
