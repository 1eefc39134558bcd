/** What the record of a proof says besides its run, and what volume a reading must be of. */
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
import { as4059Differential, gost17216, iso4406, nas1638 } from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { germanTexts } from '../../../src/german/index.ts';

const minute = 60000;
const good = (i: number) => cumulativeCounts({ 4: 5200 + i, 6: 1200 - i, 14: 150 + i }, { volumeMl: 10 });

/** Readings ten minutes apart, the state saved and resumed at each. */
function run(config: AcceptanceConfig, given: readonly Partial<AcceptanceReading>[]) {
  const prepared = prepareAcceptance(config);
  let state = startAcceptance(prepared);
  const events = given.flatMap((reading, i) => {
    const saved = resumeAcceptance(prepared, JSON.parse(JSON.stringify(state))).state;
    const step = advanceAcceptance(prepared, saved, { time: 10 * i * minute, ...reading });
    state = step.state;
    return step.events;
  });
  return { prepared, state, events, told: events.map(({ event, why = event }) => why) };
}

describe('the record', () => {
  const proof = { table: iso4406, target: '16/14/11', readings: 3 };

  test('says how many readings were given, of what kind, and how many of the run did not count', () => {
    const { told, state } = run(proof, [
      { counts: good(1) },
      { counts: good(2) },
      { codes: { iso4406: '17/15/12' } },
      { codes: { iso4406: '15/13/11' } },
      { counts: good(5), qualities: { counts: 'bad' } },
      { counts: cumulativeCounts({ 4: 625, 6: 120, 14: 15 }) },
      { counts: good(7), time: 45 * minute },
      { counts: good(8), measuringSeconds: 3000 },
      { counts: good(9) },
    ]);
    expect(told).toEqual([
      ...['counted', 'counted', 'worse_than_target', 'worse_than_target', 'counted', 'bad', 'counted', 'not_newer'],
      ...['overlapping', 'accepted'],
    ]);
    const { run: proved, ...record } = state.accepted!;
    expect(record).toMatchObject({ readings: 9, began: 0, notCounted: 4, restarts: 1 });
    expect(proved).toMatchObject({ readings: 3, withoutCounts: 1, withoutVolume: 1, notCounted: 3, from: 30 * minute });
    expect(record).toMatchObject({ worst: '16/14/11', text: '16/14/11', leftOut: [] });
    expect([state.readings, state.began]).toEqual([undefined, undefined]);
  });

  test('says the worst class at each column, whichever reading had it, and not that of the last', () => {
    const codes = ['16/12/9', '15/14/10', '14/12/9'];
    const { state } = run(
      proof,
      codes.map((iso) => ({ codes: { iso4406: iso } })),
    );
    expect(state.accepted).toMatchObject({ worst: '16/14/10', text: '14/12/9', run: { withoutCounts: 3 } });
    const part = run(
      { ...proof, columns: ['14'] },
      codes.map((iso) => ({ codes: { iso4406: iso } })),
    );
    expect(part.state.accepted).toMatchObject({ worst: '-/-/10', leftOut: ['4', '6'] });
  });

  test('of few particles, by their upper limit', () => {
    const few = { counts: cumulativeCounts({ 4: 500, 6: 100, 14: 12 }, { volumeMl: 10 }) };
    const { state } = run({ ...proof, limits: { stuckChance: null } }, [few, few, few]);
    expect(state.accepted).toMatchObject({ worst: '13/11/8', text: '13/10/>=7', run: { fewParticles: 3 } });
  });

  test('where a longer gap ends the run, the readings wanting are those that the time takes', () => {
    const config = { ...proof, leastMs: 100 * minute, maxGapMs: 10 * minute };
    const { prepared, state } = run(config, [{ counts: good(1) }, { counts: good(2) }]);
    expect(acceptanceWanting(prepared, startAcceptance(prepared)).readings).toBe(11);
    expect(acceptanceWanting(prepared, state)).toEqual({ readings: 9, ms: 90 * minute, litres: 0 });
    const most = prepareAcceptance({ ...config, leastMs: 12 * 60 * minute, maxGapMs: 1 });
    expect(acceptanceWanting(most, startAcceptance(most)).readings).toBe(43200001);
  });
});

describe('the least volume that can prove a class', () => {
  /** Zeros at the largest sizes, plenty at the smallest, and few enough to keep the class. */
  const oil = (table: typeof nas1638, sizes: readonly number[], volumeMl: number, dilution = 1) => {
    const counts: { [size: number]: number } = {};
    sizes.forEach((size, i) => {
      counts[size] = i === 0 ? 25 : 0;
    });
    return cumulativeCounts(counts, { volumeMl, dilution, sizing: Object.keys(table.columns[0]!.from)[0] as never });
  };

  test.each([
    [iso4406, '10/8/1', [4, 6, 14], 1],
    [iso4406, '16/14/0', [4, 6, 14], 1],
    [nas1638, '3', null, 100],
    [nas1638, '1', null, 100],
    [as4059Differential, '2', null, 100],
  ] as const)('%#: a little more of oil counts, a little less does not and is told', (table, target, own, per) => {
    const sizes = own ?? table.columns.map(({ from }) => from[Object.keys(from)[0] as 'iso11171'] as number);
    const prepared = prepareAcceptance({ table, target, readings: 2 });
    const last = prepared.volumes[prepared.volumes.length - 1]!;
    // the figure of Garwood for none counted, 3.688879 (Biometrika 28 (1936) 437)
    const limit = table.limits[table.classes.indexOf(target.split('/').pop() as string)]!.slice(-1)[0] as number;
    expect(last.leastMl).toBeCloseTo((3.688879 * per) / limit, 4);
    const least = Math.max(...prepared.volumes.map(({ leastMl }) => leastMl as number));
    const told = (volumeMl: number, dilution = 1) =>
      advanceAcceptance(prepared, startAcceptance(prepared), {
        time: 0,
        counts: oil(table as never, sizes, volumeMl, dilution),
      }).events[0]!;
    expect(told(least * 1.001).event).toBe('counted');
    const event = told(least * 0.999);
    expect(event.event).toBe('not_counted');
    expect(event.unprovable).toContainEqual({ column: last.column, leastMl: least });
    expect(acceptanceText(event)).toContain(`one reading takes ${Math.ceil(least)} mL of oil or more`);
    // of a sample diluted to twice its volume half is oil
    expect(told(least * 1.999, 2).event).toBe('not_counted');
    expect(told(least * 2.001, 2).event).toBe('counted');
  });

  test('no volume proves a limit of 0, and no count what has no size: the other columns are to be named', () => {
    const zero = prepareAcceptance({ table: nas1638, target: '00', readings: 2 });
    expect(zero.volumes[4]).toEqual({ column: '>100', leastMl: null });
    const sizes = nas1638.columns.map(({ from }) => from[Object.keys(from)[0] as 'iso11171'] as number);
    const counts = oil(nas1638, sizes, 100000);
    const [event] = advanceAcceptance(zero, startAcceptance(zero), { time: 0, counts }).events;
    expect(event?.unprovable).toEqual([{ column: '>100', leastMl: null }]);
    expect(acceptanceText(event!)).toContain('No count can prove >100, however much oil it is of');
    expect(acceptanceText(event!, germanTexts)).toContain('Keine Zählung kann >100 nachweisen');
    const columns = ['5-15', '15-25', '25-50', '50-100'];
    const others = prepareAcceptance({ table: nas1638, target: '00', columns, readings: 2 });
    expect(advanceAcceptance(others, startAcceptance(others), { time: 0, counts }).events[0]?.event).toBe('counted');

    const fibres = prepareAcceptance({ table: gost17216, target: '8', readings: 2 });
    expect(fibres.volumes.filter(({ leastMl }) => leastMl === null).map(({ column }) => column)).toEqual([
      ...['fibres', 'mass %'],
    ]);
    const of = cumulativeCounts(
      { 4.2: 900, 4.6: 800, 6.4: 400, 9.8: 100, 21.2: 30, 38.2: 25, 70: 21 },
      { volumeMl: 9e3 },
    );
    const [missing] = advanceAcceptance(fibres, startAcceptance(fibres), { time: 0, counts: of }).events;
    expect(missing).toMatchObject({ why: 'not_known', unprovable: [{ column: 'fibres' }, { column: 'mass %' }] });
  });

  test('where the limits ask for no least number of particles, none counted proves itself', () => {
    const limits = { particles: null };
    const { volumes } = prepareAcceptance({ table: nas1638, target: '00', readings: 2, limits });
    expect(volumes.every(({ leastMl }) => leastMl === 0)).toBe(true);
  });

  test('a reading of enough oil that counts a few says nothing of its volume', () => {
    const prepared = prepareAcceptance({ table: iso4406, target: '16/14/11', readings: 2 });
    const counts = cumulativeCounts({ 4: 500, 6: 100, 14: 15 }, { volumeMl: 1 });
    const [event] = advanceAcceptance(prepared, startAcceptance(prepared), { time: 0, counts }).events;
    expect(event).toMatchObject({ why: 'uncertain' });
    expect(event).not.toHaveProperty('unprovable');
  });
});

test.each(['>=16/14/11', '16/14/>=11'])('a target of few particles, %s, is none', (target) => {
  expect(() => prepareAcceptance({ table: iso4406, target, readings: 2 })).toThrow('a code without >=');
});
