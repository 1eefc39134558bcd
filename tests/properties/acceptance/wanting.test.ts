/**
 * What time, volume and readings are proved by, and what is still to be shown.
 */
import { describe, expect, test } from 'vitest';
import {
  type AcceptanceConfig,
  type AcceptanceReading,
  acceptanceText,
  acceptanceWanting,
  advanceAcceptance,
  prepareAcceptance,
  resumeAcceptance,
  startAcceptance,
} from '../../../src/acceptance/index.ts';
import { iso4406 } from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { germanTexts } from '../../../src/german/index.ts';

const minute = 60000;
const hour = 60 * minute;
const proof = { table: iso4406, target: '18/16/13', limits: { stuckChance: null } };

/** Good readings, each so many minutes after the start. */
function run(config: Partial<AcceptanceConfig>, given: readonly (Partial<AcceptanceReading> & { at: number })[]) {
  const prepared = prepareAcceptance({ readings: 3, ...proof, ...config });
  let state = startAcceptance(prepared);
  const events = given.flatMap(({ at, ...rest }, i) => {
    const counts = cumulativeCounts({ 4: 18900 + i, 6: 4020, 14: 330 }, { volumeMl: 10 });
    // saved and resumed at every reading
    const saved = resumeAcceptance(prepared, JSON.parse(JSON.stringify(state))).state;
    const step = advanceAcceptance(prepared, saved, { time: at * minute, counts, mlPerMin: 50, ...rest });
    state = step.state;
    return step.events;
  });
  return { prepared, state, events, told: events.map(({ event, why = event }) => why) };
}

describe('volume', () => {
  test('more than the pump delivers is a leap of the counter', () => {
    const litres = [0, 60, 65535, 65595, 65655];
    const readings = litres.map((each, i) => ({ at: 10 * i, litres: each }));
    expect(run({ leastLitres: 150 }, readings).told[2]).toBe('accepted');
    const { told, events, state } = run({ leastLitres: 150, mostLitresPerMin: 100 }, readings);
    expect(told).toEqual(['counted', 'counted', 'counted', 'counted', 'accepted']);
    expect(events[2]?.unproved).toBe('volume_leapt');
    expect(state.accepted?.run.litres).toBe(180);
    // a litre in a thousandth of a second, and as much as can be to the last litre
    const most = [0, 1000, 2000].map((each, i) => ({ at: 10 * i, litres: each }));
    expect(run({ leastLitres: 2000, mostLitresPerMin: 100 }, most).told[2]).toBe('accepted');
    expect(run({ leastLitres: 2000, mostLitresPerMin: 99.9 }, most).told[2]).toBe('counted');
  });

  test('a counter that stands over a gap too long: the gap is named; without the counter time counts by itself', () => {
    const standing = (at: number) =>
      run({ leastLitres: 9 }, [
        { at: 0, litres: 5 },
        { at, litres: 5 },
      ]).events[1];
    expect([60, 61].map((at) => standing(at)?.unproved)).toEqual(['volume_stood', 'long_gap']);
    const { state, events } = run({ leastMs: hour }, [{ at: 0, litres: 5 }, { at: 10 }]);
    expect(state.run).toMatchObject({ ms: 10 * minute, litres: 0 });
    expect(events[1]).not.toHaveProperty('unproved');
    // the first that the counter shows is no standing of it
    const begins = run({ leastMs: hour }, [{ at: 0 }, { at: 10, litres: 0 }]);
    expect(begins.events[1]).not.toHaveProperty('unproved');
    expect(begins.state.run?.ms).toBe(10 * minute);
  });

  test('by the clock of the host where the counter’s leaps', () => {
    const host = [0, 1, 2].map((i) => ({ at: 600 * i, litres: 500 * i, receivedAt: i * minute }));
    const { events } = run({ leastLitres: 500, mostLitresPerMin: 100 }, host);
    expect(events.map(({ unproved }) => unproved)).toEqual([undefined, 'volume_leapt', 'volume_leapt']);
  });

  test('readings handed in at once: time counts in part, and it is said', () => {
    const at = (i: number) => ({ at: 10 * i, receivedAt: (Math.floor(i / 6) * 60 + 61) * minute });
    const { events, state } = run(
      { leastMs: 60 * minute },
      Array.from({ length: 12 }, (_x, i) => at(i)),
    );
    expect(events.map(({ unproved }) => unproved ?? '')).toEqual(
      Array.from({ length: 12 }, (_x, i) => (i % 6 === 0 ? '' : 'less_by_host')),
    );
    expect(state.run?.ms).toBe(10 * minute);
    const timely = Array.from({ length: 12 }, (_x, i) => ({
      at: 10 * i,
      receivedAt: 10 * i * minute + (i % 3) * 2000,
    }));
    expect(run({ leastMs: 60 * minute }, timely).events.some(({ unproved }) => unproved !== undefined)).toBe(false);
  });

  test('a counter that stands proves no time', () => {
    const standing = [0, 10, 20, 30].map((at) => ({ at, litres: 5 }));
    const { told, events, state } = run({ leastMs: 20 * minute }, standing);
    expect(told).toEqual(['counted', 'counted', 'counted', 'counted']);
    expect(events[3]?.unproved).toBe('volume_stood');
    expect([state.run?.ms, state.run?.stoodMs]).toEqual([0, 30 * minute]);
    // without a counter nothing is known of it
    expect(
      run(
        { leastMs: 20 * minute },
        [0, 10, 20].map((at) => ({ at })),
      ).told[2],
    ).toBe('accepted');
  });

  test('a coarse counter that soon moves proves the time it stood, one that stood for long does not', () => {
    const coarse = [0, 0, 0, 1000, 1000, 2000].map((litres, i) => ({ at: 10 * i, litres }));
    const soon = run({ leastMs: 10 * hour }, coarse);
    expect([soon.state.run?.ms, soon.state.run?.stoodMs]).toEqual([50 * minute, undefined]);
    const night = [0, 10, 20, 30, 30, 30, 30, 30, 40].map((litres, i) => ({ at: 10 * i, litres }));
    expect(run({ leastMs: 10 * hour }, night).state.run?.ms).toBe(40 * minute);
    // with a gap of one's own that gap decides
    expect(run({ leastMs: 10 * hour, maxGapMs: hour }, night).state.run?.ms).toBe(80 * minute);
  });
});

describe('readings', () => {
  test('those that share most of their counting time are one', () => {
    const often = [0, 10, 20, 30, 40, 50, 60].map((at) => ({ at: at / 60, measuringSeconds: 60 }));
    const { told, state } = run({}, often);
    expect(told).toEqual([
      ...['counted', 'overlapping', 'overlapping', 'counted', 'overlapping', 'overlapping', 'accepted'],
    ]);
    expect(state.accepted?.run.readings).toBe(3);
    expect(state.accepted?.run.ms).toBe(minute);
    expect(state.accepted?.notCounted).toBe(4);
  });

  test('one that overlaps can complete the time, and ends the run if it is worse', () => {
    const timed = { measuringSeconds: 120 };
    const { told } = run(
      { readings: 2, leastMs: 2.75 * minute },
      [0, 2, 2.75].map((at) => ({ at, ...timed })),
    );
    expect(told).toEqual(['counted', 'counted', 'accepted']);
    const worse = { counts: cumulativeCounts({ 4: 189000, 6: 40200, 14: 3300 }, { volumeMl: 10 }) };
    const ended = run({}, [
      { at: 0, ...timed },
      { at: 0.5, ...timed, ...worse },
    ]);
    expect(ended.told).toEqual(['counted', 'worse_than_target', 'worse_than_target']);
  });

  test('a code that no sample can have proves nothing', () => {
    const codes = { iso4406: '10/13/10' };
    const { told, events } = run(
      {},
      [0, 10, 20].map((at) => ({ at, counts: undefined, codes })),
    );
    expect(told).toEqual(['bad', 'bad', 'bad']);
    expect(events[0]?.findings?.map(({ code }) => code)).toEqual(['code_rises_with_size']);
  });
});

describe('what is still to be shown', () => {
  const config = { readings: 3, leastMs: 30 * minute, leastLitres: 500 };

  test('is asked of a state at any time', () => {
    const wanting = (given: Parameters<typeof run>[1]) => {
      const { prepared, state } = run(config, given);
      return acceptanceWanting(prepared, state);
    };
    expect(wanting([])).toEqual({ readings: 3, ms: 30 * minute, litres: 500 });
    const two = [
      { at: 0, litres: 0 },
      { at: 10, litres: 200.5 },
    ];
    expect(wanting(two)).toEqual({ readings: 1, ms: 20 * minute, litres: 299.5 });
    expect(wanting([...two, { at: 20, litres: 400, mlPerMin: 0 }])).toEqual(wanting(two));
    const done = [0, 10, 20, 30].map((at) => ({ at, litres: 20 * at }));
    expect(wanting(done)).toEqual({ readings: 0, ms: 0, litres: 0 });
    const { prepared } = run(config, []);
    expect(() => acceptanceWanting(prepared, {} as never)).toThrow('the version, which resumeAcceptance brings: 2');
    expect(() => acceptanceWanting({} as never, startAcceptance(prepared))).toThrow('prepareAcceptance');
  });

  test('why there is no code is said in German without the English of the reason', () => {
    const told = { time: 0, event: 'not_counted', why: 'no_code', text: null, quality: 'good', outcome: null } as const;
    const event = { ...told, reason: "neither counts nor a code of 'iso4406' in the reading" };
    expect(acceptanceText(event)).toBe(`Not counted: ${event.reason}.`);
    expect(acceptanceText(event, germanTexts)).toMatch(/^Nicht gewertet: Für das Ziel ergibt sich keine Klasse\. /);
    expect(acceptanceText(event, germanTexts)).not.toMatch(/reason|neither|iso4406/);
  });

  test('is said of a reading that counts, in the words of a language', () => {
    const { events } = run(config, [
      { at: 0, litres: 0 },
      { at: 10, litres: 200.5 },
      { at: 20, litres: 200.5 },
    ]);
    expect(events.map((event) => acceptanceText(event))).toEqual([
      'Counted: 18/16/12. Still to be shown: 2 readings, 30 min, 500 L.',
      'Counted: 18/16/12. Still to be shown: 1 reading, 20 min, 300 L.',
      'Counted: 18/16/12. Still to be shown: 20 min, 300 L. The time since the last does not count unless the volume ' +
        'counter soon moves: it stood.',
    ]);
    expect(events.map((event) => acceptanceText(event, germanTexts))[1]).toBe(
      'Gewertet: 18/16/12. Noch nachzuweisen: 1 Messung, 20 min, 300 L.',
    );
    // why time did not count matters where time is wanting
    const bare = run({ readings: 4 }, [{ at: 0 }, { at: 10, mlPerMin: 0 }, { at: 20 }]).events;
    expect(bare[2]?.unproved).toBe('beside_others');
    expect(acceptanceText(bare[2] as never)).toBe('Counted: 18/16/12. Still to be shown: 2 readings.');
  });

  test('no English goes through where all words of a language are handed in', () => {
    const { events } = run({}, [{ at: 0, mlPerMin: 0 }]);
    const text = acceptanceText(events[0] as never, germanTexts);
    expect(text).toContain('Nicht gewertet, die Messung ist ungültig. Durch den Sensor fließt kein Öl');
    expect(text).not.toMatch(/\b(the|pump|no oil)\b/);
    expect(() => acceptanceText(events[0] as never, { acceptance: germanTexts.acceptance } as never)).toThrow('texts.');
    expect(() => acceptanceText(events[0] as never, { ...germanTexts, acceptance: {} } as never)).toThrow(
      'texts.acceptance',
    );
  });
});
