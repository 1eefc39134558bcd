/** What was taken for a proof and is none, each beside the sound readings that it must not cost. */
import { describe, expect, test } from 'vitest';
import {
  type AcceptanceConfig,
  type AcceptanceEvent,
  type AcceptanceReading,
  type AcceptanceRecord,
  type AcceptanceState,
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
import { acceptanceSheetText } from '../../../src/report/index.ts';

const minute = 60000;
const day = 1440 * minute;
const target: AcceptanceConfig = { table: iso4406, target: '16/14/11', readings: 5 };
const counted = (four: number, six: number, fourteen: number) =>
  cumulativeCounts({ 4: four, 6: six, 14: fourteen }, { volumeMl: 10 });
/** No two have the same counts. */
const clean = (minutes: number, n: number, more: Partial<AcceptanceReading> = {}): AcceptanceReading => ({
  time: Math.round(minutes * minute),
  counts: counted(5201 + 7 * n, 1203 - 3 * n, 151 + n),
  ...more,
});
const dirty = (minutes: number, n: number, more: Partial<AcceptanceReading> = {}): AcceptanceReading => ({
  ...clean(minutes, n, more),
  counts: counted(52017 + 31 * n, 12031 - 7 * n, 1513 + 3 * n),
});
const series = <T>(length: number, make: (i: number) => T) => Array.from({ length }, (_x, i) => make(i));

/** Saved and resumed at every reading. */
function run(of: AcceptanceConfig, readings: readonly AcceptanceReading[], from?: AcceptanceState) {
  const prepared = prepareAcceptance(of);
  let state = from ?? startAcceptance(prepared);
  const events: AcceptanceEvent[] = [];
  for (const reading of readings) {
    state = resumeAcceptance(prepared, JSON.parse(JSON.stringify(state))).state;
    const step = advanceAcceptance(prepared, state, reading);
    state = step.state;
    events.push(...step.events);
  }
  return { prepared, state, events, told: events.map(({ event, why = event }) => why) };
}

describe('old readings after dirty oil', () => {
  const late = 20160;
  const now = series(12, (i) => dirty(late + 10 * i, i));
  const old = (more: (i: number) => Partial<AcceptanceReading>) => series(12, (i) => clean(10 * i, i, more(i)));
  const timed = now.map((one) => ({ ...one, receivedAt: one.time + 500 }));

  test.each<[string, AcceptanceReading[]]>([
    ['without receivedAt', [...now, ...old(() => ({}))]],
    ['with it, in one second', [...timed, ...old((i) => ({ receivedAt: 14 * day + 121 * minute + 80 * i }))]],
    [
      'with it, four at a time',
      [...timed, ...old((i) => ({ receivedAt: 14 * day + (121 + 60 * Math.floor(i / 4)) * minute + 80 * i }))],
    ],
  ])('prove nothing, and it is told: %s', (_what, readings) => {
    const { state, told, events } = run(target, readings);
    expect(state.accepted ?? state.run).toBeUndefined();
    expect(told.slice(-6)).toEqual(Array(6).fill('before_worse'));
    const last = events[events.length - 1] as AcceptanceEvent;
    expect(acceptanceText(last)).toMatch(/dated before .* begin a new proof, or tell .*receivedAt/);
    expect(acceptanceText(last, germanTexts)).toMatch(/älter als .* neuen Nachweis beginnen/);
  });

  test('a clock set back counts from the fourth reading on where the host tells, and never else', () => {
    const back = (more: (i: number) => Partial<AcceptanceReading>) => run(target, [...timed, ...old(more)]);
    const host = (i: number) => ({ receivedAt: 14 * day + (120 + 10 * i) * minute + (i % 3) * 4000 });
    expect(back(host).told.slice(12, 21)).toEqual([
      ...['not_newer', 'before_worse', 'counted', 'counted', 'counted', 'counted', 'accepted'],
      ...['after_acceptance', 'after_acceptance'],
    ]);
    const { state } = back(() => ({}));
    expect(state.run).toBeUndefined();
    expect(
      run(
        target,
        old(() => ({})),
      ).told[4],
    ).toBe('accepted');
    // newer than the dirty oil they count, by whatever clock
    expect(
      run(
        target,
        series(5, (i) => clean(late + 200 + 10 * i, i)),
        state,
      ).told[4],
    ).toBe('accepted');
  });

  test('half to twice the time by the host is about as much', () => {
    const told = (ms: number) => {
      const step = (i: number) => clean(10 * i, i, { receivedAt: 14 * day + 121 * minute + i * ms });
      return run(target, [...timed, ...series(4, step)]).told[15];
    };
    expect([5, 20].map((one) => told(one * minute))).toEqual(['counted', 'counted']);
    expect([5 * minute - 1, 20 * minute + 1].map(told)).toEqual(['before_worse', 'before_worse']);
  });

  test('a dirty one that comes late moves nothing, and a state saved before knows of a run that ended', () => {
    const { state } = run(target, [...series(2, (i) => clean(10 * i, i)), dirty(20, 2), dirty(5, 3), clean(30, 4)]);
    expect([state.worseAt, state.run?.readings]).toEqual([20 * minute, 1]);
    const { worseAt, ...before } = state;
    expect(resumeAcceptance(prepareAcceptance(target), before).state.worseAt).toBe(worseAt);
    expect(
      run(
        target,
        series(5, (i) => clean(40 + 10 * i, i + 5)),
        state,
      ).state,
    ).not.toHaveProperty('worseAt');
  });
});

describe('a line that has to be flushed', () => {
  const of: AcceptanceConfig = { ...target, limits: { flushMl: 833 } };
  const flowing = (every: number, more: (i: number) => Partial<AcceptanceReading>) =>
    run(
      of,
      series(100, (i) => clean(every * i, i % 40, { mlPerMin: 60 + (i % 3), ...more(i) })),
    );

  test('does not count until flow or what has passed shows it', () => {
    // 833 mL at 10 mL from one reading to the next take 84 readings before it
    const told = flowing(1 / 6, () => ({ mlPerMin: 60 })).told;
    expect([told.indexOf('counted'), told.indexOf('accepted')]).toEqual([84, 88]);
    expect(told.slice(0, 84)).toEqual(Array(84).fill('flush_not_shown'));
    expect(flowing(10, () => ({ mlPerMin: undefined })).told).toEqual(Array(100).fill('flush_not_shown'));
    const { events } = flowing(10, () => ({}));
    expect(acceptanceText(events[0] as AcceptanceEvent)).toMatch(/nothing shows yet .* flow .*flushedMl/);
    expect(acceptanceText(events[0] as AcceptanceEvent, germanTexts)).toMatch(/Noch zeigt nichts.*flushedMl/);
    expect(run({ ...of, limits: { flushMl: null } }, [clean(0, 0)]).told).toEqual(['counted']);
  });

  test.each([
    [1, 14],
    [10, 2],
    [60, 4],
    [240, 4],
  ])('a unit that tells its flow every %i minutes counts after %i readings', (every, without) => {
    const { told } = flowing(every, () => ({}));
    expect(told.slice(0, without + 5)).toEqual([
      ...Array(without).fill('flush_not_shown'),
      ...['counted', 'counted', 'counted', 'counted', 'accepted'],
    ]);
  });

  test('what has passed is enough; too little of it is bad', () => {
    expect(flowing(10, (i) => ({ mlPerMin: undefined, flushedMl: 400 * i })).told.slice(0, 4)).toEqual([
      ...['bad', 'bad', 'bad', 'counted'],
    ]);
  });
});

describe('a clock that is set, or a pause, among the first readings', () => {
  const hours: AcceptanceConfig = { ...target, leastMs: 720 * minute };
  /** Every five minutes, by a clock that is set by five hours after so many readings. */
  const set = (after: number, n: number) =>
    series(n, (i) => clean(5 * i + (i >= after ? 300 : 0), i, { litres: 9 * i }));

  test.each([1, 2, 3, 4])('after %i readings proves no more than the others', (after) => {
    const { state } = run(hours, set(after, 9));
    expect(state.run).toMatchObject({ readings: 9, ms: 35 * minute, litres: 63 });
    expect(state.run).not.toHaveProperty('early');
    const three = run(
      { ...target, readings: 3, leastMs: 720 * minute },
      series(3, (i) => clean([0, 5, 725][i] ?? 0, i)),
    );
    expect(three.state.accepted).toBeUndefined();
  });

  test('what one had proved is taken back, and it is told', () => {
    const { told, events, state } = run(hours, set(1, 3));
    expect(told).toEqual(['counted', 'counted', 'counted']);
    expect(events.map(({ wanting }) => (wanting?.ms ?? 0) / minute)).toEqual([720, 415, 715]);
    expect(events[2]?.unproved).toBe('gap_taken_back');
    expect(state.run?.early).toEqual([{ gap: 5 * minute, ms: 5 * minute, litres: 9 }]);
    expect(acceptanceText(events[2] as AcceptanceEvent)).toMatch(/an earlier gap .* too long/);
    expect(acceptanceText(events[2] as AcceptanceEvent, germanTexts)).toMatch(/frühere Pause .* zu lang/);
  });

  test('up to three usual ones stand, and maxGapMs alone decides where it is set', () => {
    const at = (list: readonly number[], more: Partial<AcceptanceConfig> = {}) =>
      run(
        { ...hours, ...more },
        list.map((minutes, i) => clean(minutes, i)),
      ).state.run?.ms;
    expect(at([0, 30, 40, 50])).toBe(50 * minute);
    expect(at([0, 31, 41, 51])).toBe(20 * minute);
    expect(at([0, 10, 41])).toBe(10 * minute);
    expect(at([0, 10, 41, 72])).toBe(41 * minute);
    expect(at([0, 31, 41, 51], { maxGapMs: 40 * minute })).toBe(51 * minute);
  });
});

describe('counts that are all equal', () => {
  const frozen = (n: number) =>
    series(n, (i) => clean(10 * i, 0, { counts: cumulativeCounts({ 4: 600, 6: 120, 14: 17 }) }));
  const three = { ...target, readings: 3 };

  test('prove nothing until they change or are told as stuck', () => {
    const { told, events, state, prepared } = run(three, frozen(100));
    expect(told.slice(0, 4)).toEqual(['counted', 'counted', 'counted', 'counted']);
    expect(told).not.toContain('accepted');
    expect(told).toContain('counts_stuck');
    const held = run(three, frozen(3));
    expect(events[2]).toMatchObject({ wanting: { readings: 1, ms: 0, litres: 0 }, unproved: 'counts_equal' });
    expect(acceptanceWanting(prepared, held.state)).toEqual({ readings: 1, ms: 0, litres: 0 });
    expect(acceptanceText(events[2] as AcceptanceEvent)).toMatch(/Still to be shown: 1 reading. .* equal.*frozen/);
    expect(acceptanceText(events[2] as AcceptanceEvent, germanTexts)).toMatch(/gleiche Zählwerte.*eingefroren/);
    const other = clean(30, 0, { counts: cumulativeCounts({ 4: 524, 6: 121, 14: 17 }) });
    expect(run(three, [other], held.state).state.accepted?.run).toMatchObject({ readings: 4, counts: 'changed' });
    expect(state.accepted).toBeUndefined();
  });

  test('codes between them show no change, and readings that share a measurement none', () => {
    const coded = (at: number) => ({ time: at * minute, codes: { iso4406: '15/13/10' } });
    const [first, second] = frozen(2) as [AcceptanceReading, AcceptanceReading];
    const mixed = run(three, [coded(-10), first, coded(5), second]);
    expect(mixed.told).toEqual(['counted', 'counted', 'counted', 'counted']);
    const rolling = series(9, (i) => ({
      ...(frozen(1)[0] as AcceptanceReading),
      time: 40000 * i,
      measuringSeconds: 60,
    }));
    expect(run(three, rolling).told).not.toContain('accepted');
  });

  test('no check for stuck counts asks for none', () => {
    expect(run({ ...three, limits: { stuckChance: null } }, frozen(3)).told[2]).toBe('accepted');
  });

  test('of codes alone the sentence says that they do not tell', () => {
    const coded = run(
      three,
      series(3, (i) => ({ time: i * minute, codes: { iso4406: '15/13/10' } })),
    );
    const last = coded.events[2] as AcceptanceEvent;
    expect(acceptanceText(last)).toBe(
      'The target is shown to be met; the last reading: 15/13/10. It rests on codes alone, which do not tell a ' +
        'frozen counter.',
    );
    expect(acceptanceText(last, germanTexts)).toMatch(/Klassen allein/);
    const counts = run(
      three,
      series(3, (i) => clean(i, i)),
    ).events[2] as AcceptanceEvent;
    expect(acceptanceText(counts)).toBe('The target is shown to be met; the last reading: 16/14/11.');
  });
});

describe('one count read again', () => {
  const twice = (n: number) => series(2 * n, (i) => clean(5 * i, Math.floor(i / 2), { litres: 50 * i }));

  test('is one reading: its time and volume count, and event, record and page tell it', () => {
    const { told, events, state } = run({ ...target, leastMs: 45 * minute, leastLitres: 450 }, twice(5));
    const [first, again] = ['counted', 'same_as_last'];
    expect(told).toEqual([first, again, first, again, first, again, first, again, first, 'accepted']);
    expect(acceptanceText(events[1] as AcceptanceEvent)).toMatch(
      /counts are those of the reading before.* 4 readings, 40 min, 400 L\.$/,
    );
    expect(acceptanceText(events[1] as AcceptanceEvent, germanTexts)).toMatch(/noch einmal ausgelesen/);
    expect(state.accepted?.run).toMatchObject({
      readings: 5,
      sameAsLast: 5,
      notCounted: 4,
      ms: 45 * minute,
      litres: 450,
    });
    const page = acceptanceSheetText(state.accepted as AcceptanceRecord);
    expect(page).toContain('Of these, with the counts of the reading before: 5');
    expect(run(target, twice(4)).state.accepted).toBeUndefined();
  });

  test('within a measurement that goes on, and after a reading that did not count', () => {
    const within = twice(5).map((one, i) => ({ ...one, time: 40000 * i, measuringSeconds: 60 }));
    expect(run(target, within).state.accepted).toMatchObject({ readings: 9, run: { readings: 5 } });
    const doubted = series(3, (i) =>
      clean(10 * i, i > 0 ? 1 : 0, i === 1 ? { qualities: { counts: 'uncertain' as const } } : {}),
    );
    expect(run(target, doubted).told).toEqual(['counted', 'uncertain', 'same_as_last']);
    // the first of a run counts, whatever came before
    expect(run(target, doubted.slice(1)).told).toEqual(['uncertain', 'counted']);
  });
});

describe('worse after acceptance', () => {
  const proved = run(
    target,
    series(5, (i) => clean(10 * i, i)),
  );
  const later = (minutes: number, more: Partial<AcceptanceReading> = {}) =>
    run(target, [dirty(minutes, 9, more)], proved.state);

  test('from within the run it contradicts the proof, and the record keeps the first', () => {
    for (const minutes of [0, 25, 40]) {
      const { told, state } = later(minutes);
      expect(told).toEqual(['contradicted']);
      expect(state.accepted).toEqual({
        ...proved.state.accepted,
        contradicted: { time: minutes * minute, text: '20/17/14' },
      });
      expect(run(target, [dirty(30, 10), clean(50, 5)], state).state).toEqual(state);
    }
    expect(later(25, { qualities: { counts: 'bad' } }).told).toEqual(['contradicted']);
    const [event] = later(25).events as [AcceptanceEvent];
    expect(acceptanceText(event)).toMatch(/contradicted: .*\(20\/17\/14\)\. Begin a new proof/);
    expect(acceptanceText(event, germanTexts)).toMatch(/widersprochen/);
  });

  test('before or after the run it is told, and changes nothing', () => {
    for (const minutes of [-1, 41]) {
      const { told, state, events } = later(minutes);
      expect(told).toEqual(['worse_after_acceptance']);
      expect(state).toEqual(proved.state);
      expect(acceptanceText(events[0] as AcceptanceEvent)).toMatch(/is worse \(20\/17\/14\)/);
      expect(acceptanceText(events[0] as AcceptanceEvent, germanTexts)).toMatch(/schlechter/);
    }
    const sound = run(target, [clean(25, 9), dirty(25, 9, { mlPerMin: 0 }), clean(60, 9)], proved.state);
    expect(sound.told).toEqual(['after_acceptance', 'after_acceptance', 'after_acceptance']);
    expect(sound.state).toEqual(proved.state);
  });
});
