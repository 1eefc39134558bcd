/**
 * A number that may be more in truth (`>=13`, `*`) raises what it proves and clears nothing that it leaves open: an
 * alarm returns where `meets` calls its setpoint, less the deadband, met.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { iso4406, meets } from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import {
  advanceMonitor,
  type MonitorAlarm,
  type MonitorEvent,
  prepareMonitor,
  type ReadingInput,
  startMonitor,
} from '../../../src/monitor/index.ts';
import { some } from '../../volume.ts';

const hour = 3600000;
const day = 24 * hour;
type Sample = Omit<ReadingInput, 'time'>;
const code = (text: string): Sample => ({ codes: { iso4406: text } });

function run(alarm: Partial<MonitorAlarm>, samples: readonly Sample[], everyMs = hour) {
  const whole = { id: 'dirty', type: 'high', ...alarm } as MonitorAlarm;
  const follow = [{ id: '6', figure: { scaleNumberAt: 6 } } as const];
  const prepared = prepareMonitor({ codes: [{ table: iso4406 }], alarms: [whole], follow });
  let state = startMonitor(prepared);
  const told: MonitorEvent[] = [];
  const judged = samples.map((sample, i) => {
    const step = advanceMonitor(prepared, state, { time: i * everyMs, ...sample });
    state = step.state;
    told.push(...step.events.filter((event) => 'alarm' in event));
    return step.verdict?.alarms[0]?.judged;
  });
  return { judged, events: told.map(({ event }) => event), state };
}

const onCode = { figure: { code: 'iso4406' }, setpoint: '18/16/13' } as const;
const atSix = { type: 'high', figure: { scaleNumberAt: 6 }, setpoint: 16 } as const;

describe('fewer than 20 particles', () => {
  test.each([onCode, atSix])('just the class of the setpoint neither clears nor calls normal: %j', (alarm) => {
    const { judged, events } = run(alarm, ['21/19/16', '>=18/>=16/>=13', '18/16/13', '>=18/>=16/>=13'].map(code));
    expect(judged).toEqual([true, false, true, false]);
    expect(events).toEqual(['raised', 'returned']);
  });

  test.each([onCode, atSix])('a class above it raises, and one below clears: %j', (alarm) => {
    const { judged, events } = run(alarm, ['>=19/>=17/>=14', '>=17/>=15/>=12'].map(code));
    expect(judged).toEqual([true, true]);
    expect(events).toEqual(['raised', 'returned']);
  });

  test('an open reading ends a delay that raises, and does not lengthen one that clears', () => {
    const open = Array(6).fill('>=18/>=16/>=13');
    const delayed = { ...onCode, onDelayMs: 6 * hour };
    expect(run(delayed, ['>=19/>=17/>=14', ...open, '>=19/>=17/>=14'].map(code)).events).toEqual([]);
    expect(run(delayed, Array(8).fill('>=19/>=17/>=14').map(code)).events).toEqual(['raised']);
    const clears = { ...onCode, offDelayMs: 6 * hour };
    const samples = ['21/19/16', '>=17/>=15/>=12', ...open, '>=17/>=15/>=12'];
    expect(run(clears, samples.map(code)).events).toEqual(['raised', 'returned']);
  });

  test('an alarm that was never decided is heard by a weekly bottle, and its signal is not stale', () => {
    const samples = Array.from({ length: 70 * 24 }, (_, i) =>
      i % 168 === 0 ? code('18/16/>=13') : { celsius: 40 + (i % 7) },
    );
    expect(run(onCode, samples).events).toEqual([]);
  });

  test('of counts too', () => {
    const dirty = cumulativeCounts({ 4: 30000, 6: 7000, 14: 1200 }, { volumeMl: 10 });
    // 60 per mL, class 13, of three particles
    const few = cumulativeCounts({ 4: 90, 6: 19, 14: 3 }, { volumeMl: 0.05 });
    const samples = [{ counts: dirty }, { counts: few }];
    expect(run(onCode, samples)).toMatchObject({ judged: [true, false], events: ['raised'] });
    expect(run({ ...onCode, setpoint: '-/16/-' }, samples).events).toEqual(['raised']);
    const atFourteen = { ...atSix, figure: { scaleNumberAt: 14 }, setpoint: 13 } as const;
    expect(run(atFourteen, samples)).toMatchObject({ judged: [true, false], events: ['raised'] });
    // without raw counts nothing is known of chance
    const bare = { counts: cumulativeCounts({ 4: 1800, 6: 380, 14: 60 }) };
    expect(run(onCode, [{ counts: dirty }, bare]).events).toEqual(['raised', 'returned']);
  });

  test('within the deadband a standing alarm is judged and stands, and its off-delay ends', () => {
    const alarm = { ...onCode, deadband: 2, offDelayMs: 2 * hour } as const;
    const codes = ['21/19/16', '16/14/11', '18/16/>=13', '16/14/11', '16/14/>=11', '16/14/11', '16/14/11'];
    const { judged, events } = run(alarm, codes.map(code));
    expect(judged).toEqual([true, true, true, true, false, true, true]);
    expect(events).toEqual(['raised', 'returned']);
  });

  test('one that decides nothing is heard all the same: no signal is stale', () => {
    const codes = ['18/16/13', ...Array(40).fill('>=18/>=16/>=13')].map(code);
    expect(run(onCode, codes).events).toEqual([]);
    expect(run(onCode, [...Array(6).fill('18/16/13'), '18/16/>=13', '18/16/13'].map(code), 6 * hour).events).toEqual(
      [],
    );
    // while a size that is not there is not heard
    expect(run(onCode, ['18/16/13', '18/16/13', ...Array(40).fill('18/16/-')].map(code)).events).toEqual([
      'signal_stale',
    ]);
  });

  test('a low alarm is raised by what cannot be more, and returns by what it proves', () => {
    const low = { type: 'low', figure: { scaleNumberAt: 6 }, setpoint: 12 } as const;
    const codes = ['15/>=11/8', '15/11/8', '15/>=11/8', '15/>=12/8', '15/>=10/8', '*/*/8'];
    expect(run(low, codes.map(code))).toMatchObject({
      judged: [false, true, false, true, true, true],
      events: ['raised', 'returned', 'raised', 'returned'],
    });
  });

  test('an alarm on a code returns where meets says met', () => {
    const marked = fc.tuple(fc.integer({ min: 9, max: 16 }), fc.boolean());
    const few = (mark: boolean) => (mark ? '>=' : '');
    fc.assert(
      fc.property(marked, fc.integer({ min: 0, max: 3 }), ([fourteen, mark], deadband) => {
        const text = `20/18/${few(mark)}${fourteen}`;
        const { events } = run({ ...onCode, setpoint: '-/-/13', deadband }, ['21/19/16', text].map(code));
        const { met } = meets(iso4406, `-/-/${13 - deadband}`, text);
        expect(events).toEqual(met === true ? ['raised', 'returned'] : ['raised']);
      }),
      { numRuns: some(100, 40) },
    );
  });
});

describe('too many to count', () => {
  test.each([onCode, atSix])('raises, and clears nothing: %j', (alarm) => {
    expect(run(alarm, ['18/16/13', '*/*/*', '*/*/*', '18/16/13'].map(code))).toMatchObject({
      judged: [true, true, true, true],
      events: ['raised', 'returned'],
    });
  });

  test('is no figure of a trend, and a rise of the scale', () => {
    const rise = { type: 'rise', figure: { scaleNumberAt: 6 }, setpoint: 2, withinMs: day } as const;
    const { events, state } = run(rise, ['18/16/13', '*/*/*'].map(code));
    expect(events).toEqual(['raised']);
    expect(state.followed[0]?.open).toMatchObject({ mean: 16, count: 1 });
  });
});
