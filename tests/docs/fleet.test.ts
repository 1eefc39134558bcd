/**
 * The worker loop of docs/fleet.md on an engine in memory that fails at any place: all is as if one process had done
 * it.
 */
import { describe, expect, test } from 'vitest';
import type { RollUpBucket } from '../../src/history/index.ts';
import { mergeRollUps, rollUp } from '../../src/history/index.ts';
import type { UnitEvent, UnitRecord } from '../../src/monitor/index.ts';
import { version } from '../../src/version.ts';
import { some } from '../volume.ts';

interface Input {
  readonly unit: string;
  readonly seq: number;
  readonly text: string;
}
interface Kept {
  readonly record: UnitRecord;
  readonly open: readonly RollUpBucket[];
  readonly waiting: readonly { seq: number }[];
}
interface Step {
  readonly unit: string;
  readonly kept: Kept;
  readonly events: readonly UnitEvent[];
  readonly buckets: readonly RollUpBucket[];
}
interface Batch {
  readonly inputs: readonly Input[];
  readonly part: number;
}

const load = (name: string) => import(/* @vite-ignore */ `../../docs/examples/fleet/${name}.mjs`);
const { work } = await load('worker');
const { prepareUnits } = await load('advance');
const { begunOf, single, trialUnits, verify } = await load('verify');
const { beginsEarlier, configurations, earlierLibrary, inputsOf, kindOf, roundsOf, unitName } = await load('inputs');
const { partOf, parts } = await load('parts');

const count = 12;

/** The same numbers from 0 to 1 for the same seed. */
function numbers(seed: number): () => number {
  let a = seed;
  return () => {
    a = (Math.imul(a, 1103515245) + 12345) >>> 0;
    return a / 4294967296;
  };
}

/**
 * What an engine does, with one part for one worker at a time; a call may fail before it does anything, and `store`
 * after it did.
 */
function memoryEngine(all: Input[], random: () => number) {
  const inbox: Input[] = [...all];
  const kept = new Map<string, string>();
  const events: { unit: string; body: UnitEvent }[] = [];
  const buckets: { unit: string; body: RollUpBucket }[] = [];
  const held = new Set<number>();
  const failing = (what: string) => {
    if (random() < 0.1) throw new Error(what);
  };
  const connect = () => ({
    async take(): Promise<Batch | null> {
      failing('take');
      const part = Math.floor(random() * parts);
      if (held.has(part)) return null;
      const inputs = inbox.filter(({ unit }) => partOf(unit) === part).slice(0, 1 + Math.floor(random() * 9));
      if (inputs.length === 0) return null;
      held.add(part);
      return { inputs, part };
    },
    async load(_batch: Batch, units: string[]) {
      failing('load');
      return new Map(
        units.filter((unit) => kept.has(unit)).map((unit) => [unit, JSON.parse(kept.get(unit) as string)]),
      );
    },
    async store({ inputs, part }: Batch, steps: readonly Step[]) {
      failing('store');
      for (const { unit, kept: one, events: own, buckets: full } of steps) {
        kept.set(unit, JSON.stringify(one));
        for (const body of own) events.push({ unit, body: JSON.parse(JSON.stringify(body)) });
        for (const body of full) buckets.push({ unit, body: JSON.parse(JSON.stringify(body)) });
      }
      // done, but the worker does not hear of it; or the inputs come again although they were let go
      if (random() < 0.9) for (const input of inputs) inbox.splice(inbox.indexOf(input), 1);
      held.delete(part);
      failing('after store');
    },
    async letGo(batch: Batch | null) {
      if (batch !== null) held.delete(batch.part);
    },
  });
  return { inbox, kept, events, buckets, connect };
}

async function fleet(seed: number, units: number) {
  const random = numbers(seed);
  const all: Input[] = [];
  for (let k = 0; k < count; k += 1)
    for (let i = 0; i < units; i += 1) {
      // of some units two come in the wrong order
      const place = i % 7 !== 3 ? k : k % 2 === 0 ? k + 1 : k - 1;
      const input = (inputsOf(i, count) as Input[])[place] as Input;
      all.push(input);
      if (random() < 0.05) all.push({ ...input });
    }
  const engine = memoryEngine(all, random);
  for (let i = 0; i < units; i += 1) if (beginsEarlier(i)) engine.kept.set(unitName(i), JSON.stringify(begunOf(i)));
  const told: string[] = [];
  const worker = () =>
    work({
      engine: engine.connect(),
      units: trialUnits,
      tell: (line: string) => told.push(line),
      stopping: () => engine.inbox.length === 0,
      pauseMs: 0,
    });
  await Promise.all([worker(), worker(), worker()]);
  const kept = new Map([...engine.kept].map(([unit, text]): [string, Kept] => [unit, JSON.parse(text)]));
  return { kept, events: engine.events, buckets: engine.buckets, told };
}

describe('workers', () => {
  test('on an engine that fails, with inputs twice and before their turn: none lost, none twice, equal', async () => {
    for (let seed = 1; seed <= some(20, 2); seed += 1) {
      const ended = await fleet(seed, 60);
      const { events, buckets, ...rest } = verify(ended, 60, count);
      expect(rest).toMatchObject({ lost: 0, twice: 0, unequal: 0 });
      expect(events).toBeGreaterThan(300);
      expect(buckets).toBeGreaterThan(100);
      const lines = ended.told.join('\n');
      for (const line of [/let go: store/, /let go: after store/, /waits for input \d+/]) expect(lines).toMatch(line);
    }
  });

  test('what verify would tell: an input lost, an event twice, a record that differs', async () => {
    const ended = await fleet(1, 8);
    const unit = unitName(3);
    const cut = { ...ended, events: ended.events.slice(1) };
    expect(verify(cut, 8, count)).toMatchObject({ lost: 1, unequal: 1 });
    const twice = { ...ended, events: [...ended.events, ...ended.events.slice(-1)] };
    expect(verify(twice, 8, count)).toMatchObject({ twice: 1, unequal: 1 });
    const kept = new Map(ended.kept);
    const one = kept.get(unit) as Kept;
    kept.set(unit, { ...one, record: { ...one.record, seq: count - 2 } });
    expect(verify({ ...ended, kept }, 8, count)).toMatchObject({ lost: 2, unequal: 1 });
  });

  test('the trial has every kind of input', () => {
    const kinds = new Set<string>();
    const told = new Set<string>();
    for (let i = 0; i < 300; i += 1) {
      for (const { text } of inputsOf(i, 10) as Input[]) kinds.add(kindOf(text));
      for (const { event } of single(i, 10).events) told.add(event);
    }
    const known = ['counts', 'code alone', 'configuration', 'tick', 'command', 'misspelt', 'no JSON'];
    expect([...kinds].sort()).toEqual(known.sort());
    const wanted = 'late repeated clock_kept clock_set configured rejected raised returned acknowledged shelved';
    expect([...told]).toEqual(expect.arrayContaining(wanted.split(' ')));
  });

  test('of which each twentieth is sent twice, and one unit in a hundred sends before its turn', () => {
    const sent: Input[] = [...roundsOf(200, 10)].flat();
    const [inputs, early, next] = [new Set<string>(), new Set<string>(), new Map<string, number>()];
    for (const { unit, seq } of sent) {
      if (seq > (next.get(unit) ?? 1)) early.add(unit);
      if (!inputs.has(`${unit}.${seq}`)) next.set(unit, (next.get(unit) ?? 1) + 1);
      inputs.add(`${unit}.${seq}`);
    }
    expect([inputs.size, sent.length]).toEqual([2000, 2100]);
    expect([...early]).toEqual([unitName(3), unitName(103)]);
  });

  test('and begins with records of an earlier library, which the first input brings up to date', () => {
    const { record: before } = begunOf(7);
    const { record: after } = single(7, 10);
    expect([before.library, after.library]).toEqual([earlierLibrary, version]);
    expect(earlierLibrary).not.toBe(version);
  });
});

describe('a unit', () => {
  test('whose configuration is not installed keeps its inputs waiting, and goes on when it is', () => {
    const unit = unitName(1);
    const inputs = (inputsOf(1, 10) as Input[]).map(({ seq, text }) => {
      try {
        return { seq, payload: JSON.parse(text) };
      } catch {
        return { seq, payload: null };
      }
    });
    const old = prepareUnits({ spring: configurations.spring }, 'spring');
    const stuck = old.advance(old.fresh(unit), inputs.slice(0, 9));
    expect(stuck.told).toMatch(/^gate-000001 waits/);
    expect(stuck.kept.record.seq).toBe(5);
    expect(stuck.kept.waiting).toHaveLength(4);
    const after = trialUnits.advance(JSON.parse(JSON.stringify(stuck.kept)), inputs.slice(9));
    expect(after.kept.waiting).toEqual([]);
    expect([...stuck.events, ...after.events]).toEqual(single(1, 10).events);
  });

  test('waits for the input that is missing, and its step throws when a week of inputs has come', () => {
    const ticks = Array.from({ length: 2001 }, (_, i) => ({ seq: i + 2, payload: { kind: 'tick', time: 1.7e12 + i } }));
    const fresh = trialUnits.fresh(unitName(1));
    const { kept, told } = trialUnits.advance(fresh, ticks.slice(0, 2000));
    expect(told).toBe('gate-000001 waits for input 1');
    expect(() => trialUnits.advance(kept, ticks.slice(2000))).toThrow('waits for input 1: 2001 inputs wait');
    const closed = trialUnits.advance(kept, [{ seq: 1, payload: { kind: 'tick', time: 1.7e12 } }]);
    expect([closed.kept.record.seq, closed.kept.waiting]).toEqual([2001, []]);
  });

  test('rolled up in parts by several workers is as one roll-up, to the last bit', () => {
    const random = numbers(9);
    const options = { widthMs: 600000, holdMs: 300000 };
    const readings = Array.from({ length: 400 }, (_, i) => ({ time: i * 110000, value: 40 + 30 * random() }));
    let joined: RollUpBucket[] = [];
    for (let from = 0; from < readings.length; ) {
      const to = from + 1 + Math.floor(random() * 40);
      const part = rollUp(readings.slice(from, to), options);
      joined = mergeRollUps(joined, JSON.parse(JSON.stringify(part)), options);
      from = to;
    }
    expect(JSON.stringify(joined)).toBe(JSON.stringify(rollUp(readings, options)));
  });
});
