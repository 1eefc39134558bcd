/** A counter that is dead, dark or dry gives zeros: they prove nothing until particles have been seen. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type AcceptanceConfig,
  type AcceptanceEvent,
  type AcceptanceReading,
  type AcceptanceState,
  acceptanceText,
  advanceAcceptance,
  prepareAcceptance,
  resumeAcceptance,
  startAcceptance,
} from '../../../src/acceptance/index.ts';
import { type ClassTable, iso4406, nas1638, standardTables } from '../../../src/codes/index.ts';
import { formatAnyParts } from '../../../src/codes/written/formatParts.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { poissonOf, shares } from '../../chance.ts';
import { some } from '../../volume.ts';

const minute = 60000;
const clean: AcceptanceConfig = { table: iso4406, target: '13/11/8', readings: 5, leastMs: 60 * minute };
const zeros = cumulativeCounts({ 4: 0, 6: 0, 14: 0 }, { volumeMl: 50 });
const one = cumulativeCounts({ 4: 1, 6: 0, 14: 0 }, { volumeMl: 50 });
const at = (minutes: number, more: Partial<AcceptanceReading> = { counts: zeros }): AcceptanceReading => ({
  time: minutes * minute,
  mlPerMin: 45,
  ...more,
});
const saved = <T>(one: T): T => JSON.parse(JSON.stringify(one));

function run(of: AcceptanceConfig, readings: readonly AcceptanceReading[], from?: AcceptanceState) {
  const prepared = prepareAcceptance(of);
  let state = from ?? startAcceptance(prepared);
  const events: AcceptanceEvent[] = [];
  for (const reading of readings) {
    const step = advanceAcceptance(prepared, state, reading);
    const again = advanceAcceptance(prepared, resumeAcceptance(prepared, saved(state)).state, saved(reading));
    expect(again).toEqual(step);
    state = step.state;
    events.push(...step.events);
  }
  return { state, events, told: events.map(({ event, why }) => why ?? event) };
}
const five = (more?: Partial<AcceptanceReading>) => [0, 15, 30, 45, 60].map((t) => at(t, more));
const unseen = Array(5).fill('no_particle_yet');

describe('zeros before the first particle', () => {
  test.each<[string, AcceptanceConfig, Partial<AcceptanceReading>]>([
    ['raw counts', clean, { counts: zeros }],
    ['counts per mL', clean, { counts: cumulativeCounts({ 4: 0, 6: 0, 14: 0 }) }],
    ['sizes that the target does not ask for', { ...clean, columns: ['4'] }, { counts: zeros }],
    ['a code', clean, { codes: { iso4406: '0/0/0' } }],
    ['a code of which a size is not known', { ...clean, target: '13/-/-' }, { codes: { iso4406: '0/-/-' } }],
    ['a code with few counted', { ...clean, columns: ['4', '6'] }, { codes: { iso4406: '0/0/>=0' } }],
    ['a class', { ...clean, table: nas1638, target: '3' }, { codes: { nas1638: '00' } }],
    ['a target of the cleanest', { ...clean, target: '0/0/0' }, { codes: { iso4406: '0/0/0' } }],
    ['many in a table of one’s own', { ...clean, table: { ...iso4406, id: 'own' } }, { codes: { own: '0/0/0' } }],
  ])('prove nothing: %s', (_what, of, more) => {
    const { told, state } = run(of, five(more));
    expect(told).toEqual(unseen);
    expect(state).toMatchObject({ notCounted: 5 });
    expect(['run', 'particlesSeen'].filter((name) => name in state)).toEqual([]);
  });

  test('the event says why, and what to do', () => {
    const [event] = run(clean, [at(0)]).events as [AcceptanceEvent];
    expect(event).toMatchObject({ event: 'not_counted', why: 'no_particle_yet', text: '>=0/>=0/>=0' });
    expect(acceptanceText(event)).toBe(
      'Not counted: no reading of this proof has shown a particle yet, as if the counter were dead, dry or not ' +
        'connected. First stop the pump, lock it out, and release all pressure, including accumulators. Then look at ' +
        'the cell and the line of the counter, whether oil flows through it, and whether it counts a sample known to ' +
        'hold particles. For oil that clean the limits can switch this check off.',
    );
  });

  test('what else keeps a reading from counting is told first', () => {
    const told = (more: Partial<AcceptanceReading>) => run(clean, [at(0, more)]).told[0];
    expect(told({ counts: zeros, mlPerMin: 0 })).toBe('bad');
    expect(told({ counts: cumulativeCounts({ 6: 0, 14: 0 }) })).toBe('not_known');
    expect(told({ celsius: 40 })).toBe('no_code');
    expect(told({ codes: { iso4406: 'x' } })).toBe('bad');
    expect(told({ counts: zeros, qualities: { counts: 'uncertain' } })).toBe('no_particle_yet');
  });
});

describe('zeros count once particles have been seen', () => {
  test.each<[string, Partial<AcceptanceReading>]>([
    ['one at one size', { counts: one }],
    ['at a size beside those of the target', { counts: cumulativeCounts({ 2: 5, 4: 0, 6: 0, 14: 0 }) }],
    ['in a reading without flow', { counts: one, mlPerMin: 0 }],
    ['in one that the instrument calls bad', { counts: one, qualities: { counts: 'bad' } }],
    ['in one that lacks a size', { counts: cumulativeCounts({ 4: 3 }) }],
    ['in a code worse than target', { codes: { iso4406: '14/11/8' } }],
    ['in a code', { codes: { iso4406: '1/0/0' } }],
    ['in a code that says too many', { codes: { iso4406: '0/0/*' } }],
    ['in a code of at least so many', { codes: { iso4406: '0/0/>=1' } }],
  ])('%s', (_what, more) => {
    const { told, state } = run(clean, [at(-15, more), ...five()]);
    expect(told).not.toContain('no_particle_yet');
    expect(told).toContain('accepted');
    expect(state.accepted?.run.readings).toBe(5);
  });

  test.each<[string, Partial<AcceptanceReading>]>([
    ['nothing', { celsius: 40 }],
    ['a code beside counts of zero', { counts: zeros, codes: { iso4406: '9/7/4' } }],
    ['a code that cannot be read', { codes: { iso4406: '9/7' } }],
    ['a code of another table', { codes: { nas1638: '5' } }],
    ['sizes not counted', { codes: { iso4406: '-/-/-' } }],
  ])('%s shows none', (_what, more) => {
    const { told, state } = run(clean, [at(-15, more), ...five()]);
    expect(told.slice(1)).toEqual(unseen);
    expect(state.particlesSeen).toBeUndefined();
  });

  test('a reading that comes late shows them too, and one that comes again', () => {
    const late = run(clean, [at(0), at(-1, { counts: one }), at(15), at(30)]);
    expect(late.told).toEqual(['no_particle_yet', 'not_newer', 'counted', 'counted']);
    const { state } = run(clean, [at(0, { counts: one })]);
    const { particlesSeen: _seen, repeats: _repeats, ...older } = state;
    expect(run(clean, [at(0, { counts: one }), at(15)], older).told).toEqual(['not_newer', 'counted']);
  });

  test('the clock set back, and a run that ended, do not forget them', () => {
    const back = [at(100, { counts: one }), at(10), at(20), at(30)];
    expect(run(clean, back).told.slice(-2)).toEqual(['clock_set_back', 'counted']);
    const unseenBack = [at(100), at(10), at(20), at(30, { counts: one })];
    expect(run(clean, unseenBack).told.slice(-1)).toEqual(['counted']);
    expect(run(clean, [...unseenBack.slice(0, 3), at(30)]).told.slice(-1)).toEqual(['no_particle_yet']);
  });

  test('the record has no trace of it, nor the state beside a record', () => {
    const { state } = run(clean, [at(0, { counts: one }), ...five().slice(1)]);
    expect(state.accepted?.run).toMatchObject({ readings: 5, fewParticles: 5 });
    expect(Object.keys(state)).not.toContain('particlesSeen');
    expect(run(clean, [at(75)], state).told).toEqual(['after_acceptance']);
  });
});

describe('switched off as the check of a counter that died', () => {
  test.each<[string, AcceptanceConfig['limits'], string]>([
    ['its quality', { qualities: { no_particles: 'good' } }, 'accepted'],
    ['its chance', { stuckChance: null }, 'accepted'],
    ['doubt is enough to ask', { qualities: { no_particles: 'uncertain' } }, 'no_particle_yet'],
    ['no least number of particles is another matter', { particles: null }, 'no_particle_yet'],
  ])('%s', (_what, limits, last) => {
    const { told, state } = run({ ...clean, limits } as AcceptanceConfig, five());
    expect(told[4]).toBe(last);
    if (last === 'accepted') expect(state.accepted?.run.unchecked).toContain('no_particles');
  });
});

describe('a state that was saved before this was kept', () => {
  const prepared = prepareAcceptance(clean);
  /** As the version before wrote it. */
  const older = (readings: readonly AcceptanceReading[], change: (state: AcceptanceState) => object = (s) => s) => {
    const { particlesSeen: _seen, ...rest } = run(clean, readings).state;
    return saved(change(rest) as AcceptanceState);
  };
  const seen = (state: object) => resumeAcceptance(prepared, state).state.particlesSeen;
  const noLevel = ({ repeats, ...rest }: AcceptanceState) => {
    const { level: _level, ...others } = repeats ?? ({} as never);
    return { ...rest, repeats: others };
  };
  const dirty = (n: number) => cumulativeCounts({ 4: 700 - n, 6: 170, 14: 24 }, { volumeMl: 10 });

  test('tells of particles by the level of its counts', () => {
    expect(seen(older([at(0, { counts: one })]))).toBe(true);
    expect(seen(older([at(0, { counts: one })], noLevel))).toBeUndefined();
    expect(seen(older([at(0)]))).toBeUndefined();
    expect(seen(older([]))).toBeUndefined();
  });

  test('by why a run ended', () => {
    const ended = (why: string) => ({ ...older([]), time: 5, restarts: 1, lastRestart: { time: 5, why, text: null } });
    expect(['worse_than_target', 'counts_stuck'].map((why) => seen(ended(why)))).toEqual([true, true]);
    const others = ['gap_too_long', 'volume_counter_ran_back', 'clock_set_back'];
    expect(others.map((why) => seen(ended(why)))).toEqual([undefined, undefined, undefined]);
  });

  test('by the margins of its run, but not by those of the upper limit', () => {
    const coded = older([at(0, { codes: { iso4406: '13/0/0' } })]);
    expect(seen(coded)).toBe(true);
    const last = older([at(0, { codes: { iso4406: '1/1/1' } })]);
    expect(seen(last)).toBe(true);
    const margins = [13, 11, 8].map((classes, i) => ({ column: ['4', '6', '14'][i], classes }));
    expect(seen({ ...coded, run: { ...coded.run, margins } })).toBeUndefined();
    const few = older([at(0, { counts: one })], noLevel) as AcceptanceState;
    expect(few.run?.fewParticles).toBe(1);
    expect(seen(few)).toBeUndefined();
    const target = { ...clean, target: '13/-/8' };
    const narrow = saved(run(target, [at(0, { codes: { iso4406: '0/9/0' } })]).state);
    const { particlesSeen: _seen, ...old } = narrow;
    expect(resumeAcceptance(prepareAcceptance(target), old).state.particlesSeen).toBeUndefined();
  });

  test('goes on with the run it has; zeros that come then wait for a particle', () => {
    const old = older([at(0, { counts: one }), at(15)], noLevel);
    const on = resumeAcceptance(prepared, old);
    expect(on.state.run?.readings).toBe(2);
    const { told } = run(clean, [at(30), at(45, { counts: one }), at(60), at(75)], on.state);
    expect(told).toEqual(['no_particle_yet', 'counted', 'counted', 'counted']);
  });

  test('of version 0.1, a run half-way included', () => {
    const { run: half, restarts, notCounted, print } = older([at(0, { counts: dirty(0) }), at(15)]);
    const { ms: _ms, ...bare } = half as NonNullable<AcceptanceState['run']>;
    const first = { version: 1, print, time: 15 * minute, litres: null, restarts, notCounted, accepted: null };
    const of1 = (more: object) => seen({ ...first, run: null, lastRestart: null, ...more });
    expect(of1({})).toBeUndefined();
    expect(of1({ run: { ...bare, fewParticles: 0 } })).toBe(true);
    expect(of1({ run: { ...bare, fewParticles: 1 } })).toBeUndefined();
    expect(of1({ lastRestart: { time: 0, why: 'worse than target', text: '17/15/12' } })).toBe(true);
  });

  test('with a record stays as it is', () => {
    const { state } = run(clean, [at(-30, { counts: one }), at(-15, { codes: { iso4406: '14/0/0' } }), ...five()]);
    expect(state.accepted?.lastRestart?.why).toBe('worse_than_target');
    expect(resumeAcceptance(prepared, saved(state)).state).toEqual(state);
  });

  test('one that is damaged is refused', () => {
    for (const particlesSeen of [null, 1, 'true'])
      expect(() => resumeAcceptance(prepared, { ...older([]), particlesSeen })).toThrow(
        expect.objectContaining({ code: 'bad_state', parameter: 'state.particlesSeen' }),
      );
    expect(seen({ ...older([]), particlesSeen: false })).toBe(false);
  });
});

/** A code of one class at every size, in the notation of its table. */
const everywhere = (table: ClassTable, place: number) =>
  formatAnyParts(
    table,
    table.columns.map(({ label: column }) => ({ column, class: table.classes[place] as string })),
  );

describe('simulated', () => {
  test('a dead counter proves nothing, whatever its readings are like and however they come', () => {
    const dead = fc.record({
      after: fc.constantFrom(-90, -10, 0, 10, 10, 10, 45, 600),
      volumeMl: fc.constantFrom(null, 0.5, 10, 50, 1000),
      coded: fc.boolean(),
      flow: fc.constantFrom(undefined, 0, 45),
      counts: fc.constantFrom<undefined | 'bad' | 'uncertain'>(undefined, undefined, 'uncertain', 'bad'),
      celsius: fc.constantFrom(40, 41, 43),
    });
    let asked = 0;
    fc.assert(
      fc.property(
        fc.constantFrom(...standardTables),
        fc.nat(),
        fc.integer({ min: 2, max: 6 }),
        fc.array(dead, { minLength: 5, maxLength: 40 }),
        (table, dirt, readings, moves) => {
          const clean = everywhere(table, 0);
          const target = everywhere(table, dirt % table.classes.length);
          const prepared = prepareAcceptance({ table, target, readings });
          let state = startAcceptance(prepared);
          let time = 1.7e12;
          const sizing = (Object.keys(table.columns[0]?.from ?? {})[0] ?? 'iso11171') as 'iso11171';
          const sizes = [1, 2, 4, 5, 6, 10, 14, 15, 21, 25, 38, 50, 70, 100];
          for (const { after, volumeMl, coded, flow, counts: told, celsius } of moves) {
            time += after * minute;
            const perMl = sizes.map(() => 0);
            const counts =
              volumeMl === null ? { sizing, sizes, perMl } : { sizing, sizes, perMl, counted: perMl, volumeMl };
            const step = advanceAcceptance(prepared, state, {
              ...{ time, celsius },
              ...(coded ? { codes: { [table.id]: clean } } : { counts }),
              ...(flow === undefined ? {} : { mlPerMin: flow }),
              ...(told === undefined ? {} : { qualities: { counts: told } }),
            });
            state = saved(step.state);
            for (const { event, why } of step.events) {
              expect(['counted', 'accepted', 'restarted']).not.toContain(event);
              if (why === 'no_particle_yet') asked += 1;
            }
          }
          expect([state.run, state.accepted, state.particlesSeen]).toEqual([undefined, undefined, undefined]);
        },
      ),
      { numRuns: some(5000, 150) },
    );
    // a counter whose readings fail for other reasons alone shows nothing
    expect(asked).toBeGreaterThan(some(5000, 150));
  });

  test('a live one, of codes 0 to 6 in 10 to 50 mL, loses no more than the readings before its first particle', () => {
    const share = shares(20261129);
    const asks = prepareAcceptance(clean);
    const never = prepareAcceptance({ ...clean, limits: { qualities: { no_particles: 'good' } } });
    let [proofs, lost] = [0, 0];
    for (let n = 0; n < some(3000, 60); n += 1) {
      // the upper limit of a scale number is 0.01 * 2^number per mL; each size holds fewer than the one before
      const number = Math.floor(share() * 7);
      const perMl = 0.01 * 2 ** number * (0.5 + share() / 2);
      const volumeMl = 10 + 40 * share();
      const readings = Array.from({ length: 60 }, (_, i) => {
        const fourteen = poissonOf((perMl / 20) * volumeMl, share);
        const six = fourteen + poissonOf((perMl / 4) * volumeMl, share);
        const four = six + poissonOf(perMl * 0.7 * volumeMl, share);
        return at(15 * i, { counts: cumulativeCounts({ 4: four, 6: six, 14: fourteen }, { volumeMl }) });
      });
      const first = readings.findIndex(({ counts }) => counts?.perMl[0] !== 0);
      const acceptedAt = (prepared: typeof asks, from: number) => {
        let state = startAcceptance(prepared);
        for (let i = from; i < readings.length; i += 1) {
          state = advanceAcceptance(prepared, state, readings[i] as AcceptanceReading).state;
          if (state.accepted !== undefined) return i;
        }
        return null;
      };
      const now = acceptedAt(asks, 0);
      expect(now).toBe(first < 0 ? null : acceptedAt(asks, first));
      if (now !== null) proofs += 1;
      if (now === null || now > (acceptedAt(never, 0) ?? 0)) lost += 1;
      expect(first < 0 || now === null || now - first <= (acceptedAt(never, first) ?? 0) - first).toBe(true);
    }
    expect(proofs).toBeGreaterThan(some(3000, 60) * 0.9);
    expect(lost).toBeGreaterThan(0);
  });
});
