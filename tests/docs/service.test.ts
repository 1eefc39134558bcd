/**
 * The service of docs/service.md: killed at any call of its store or of `tell`, and redelivered, it keeps the same
 * record and tells the same events.
 */
import * as nodeFs from 'node:fs';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import type { UnitInput, UnitRecord, UnitStep } from '../../src/monitor/index.ts';
import { some } from '../volume.ts';
import { Killed, memorySqlite } from './sqliteStandIn.ts';

interface Told {
  readonly id: string;
  readonly event: string;
}
interface Kept {
  readonly record: UnitRecord;
  readonly untold: readonly Told[];
}
interface Store {
  load(unit: string): Kept | null;
  keep(unit: string, record: UnitRecord, events: readonly Told[]): void;
  told(unit: string): void;
  waiting(): string[];
}
interface Delivery extends UnitInput {
  readonly unit: string;
}

const load = (name: string) => import(/* @vite-ignore */ `../../docs/examples/service/${name}.mjs`);
const { startService } = await load('service');
const { fileStore } = await load('files');
const { sqliteStore } = await load('sqlite');
const { configurations } = await load('configurations');

const minute = 60000;
const units = ['upper gate', 'lower gate / north'];
const payloads = [
  { time: 0, celsius: 64, codes: { iso4406: '18/16/13' } },
  { time: minute, celsius: 68 },
  { kind: 'command', time: 2 * minute, alarm: 'hot', command: 'acknowledge', by: 'night shift' },
  { kind: 'configuration', time: 3 * minute, configuration: 'summer' },
  { time: 4 * minute, celcius: 69 },
  { time: 5 * minute, celsius: 66, waterSaturation: 0.9 },
  { time: 5 * minute, celsius: 66, waterSaturation: 0.9 },
  { kind: 'tick', time: 6 * minute },
  { kind: 'configuration', time: 7 * minute, configuration: 7 },
  { time: 8 * minute, celsius: 75, codes: { iso4406: '20/16/13' } },
];
const deliveries = payloads.flatMap((payload, i) =>
  units.map((unit) => ({ unit, seq: i + 1, payload }) as unknown as Delivery),
);

/**
 * Calls counted over a life; the one numbered `at` ends it: `before` it does anything, half-way, or after. The dead
 * call nothing.
 */
class Fate {
  calls = 0;
  constructor(
    readonly at: number,
    readonly when: 'before' | 'half' | 'after',
  ) {}
  call<T>(act: () => T, half: () => void = () => {}): T {
    this.calls += 1;
    if (this.at > 0 && this.calls > this.at) throw new Killed();
    if (this.calls !== this.at) return act();
    if (this.when === 'half') half();
    if (this.when === 'after') act();
    throw new Killed();
  }
}

const never = () => new Fate(0, 'before');

/**
 * node:fs, of which each call may be the last; half of a write is the first half of its text. What a killed process
 * wrote the system still has, so nothing is forced to the disk here.
 */
function mortalFs(fate: Fate): typeof nodeFs {
  const fs: Record<string, unknown> = {};
  const { existsSync, readFileSync, openSync, closeSync, renameSync, readdirSync } = nodeFs;
  const plain = { existsSync, readFileSync, openSync, closeSync, renameSync, readdirSync };
  for (const [name, call] of Object.entries(plain))
    fs[name] = (...args: unknown[]) => fate.call(() => (call as (...all: unknown[]) => unknown)(...args));
  fs.fsyncSync = () => fate.call(() => {});
  fs.writeFileSync = (file: number, text: string) =>
    fate.call(
      () => writeFileSync(file, text),
      () => writeFileSync(file, text.slice(0, text.length / 2)),
    );
  return fs as unknown as typeof nodeFs;
}

const folders: string[] = [];
afterAll(() => {
  for (const folder of folders) rmSync(folder, { recursive: true });
});

/** Two places that outlive a service: a folder, and a database in memory. */
const places = {
  'files, by node:fs': () => {
    const folder = mkdtempSync(join(tmpdir(), 'service-'));
    folders.push(folder);
    return (fate: Fate): Store => fileStore(folder, mortalFs(fate));
  },
  'calls of the shape of SQLite': () => {
    const database = memorySqlite();
    return (fate: Fate): Store => sqliteStore(database.open((act) => fate.call(act)));
  },
};

/** What every unit's record is in the end, and all that was told, in order, without repetitions. */
function outcome(store: Store, told: readonly Told[]) {
  const once = new Map(told.map((event) => [event.id, JSON.stringify(event)]));
  for (const event of told) expect(once.get(event.id)).toBe(JSON.stringify(event));
  const first = [...once.keys()];
  return {
    records: units.map((unit) => JSON.stringify(store.load(unit))),
    events: units.map((unit) => first.filter((id) => id.startsWith(`${unit}.`)).map((id) => once.get(id))),
  };
}

describe.each(Object.entries(places))('%s', (_name, place) => {
  const start = (store: Store, tell: (event: Told) => void) =>
    startService({ store, tell, configurations, first: 'spring' }) as { take(one: Delivery): UnitStep };

  function straight() {
    const store = place()(never());
    const told: Told[] = [];
    const service = start(store, (event) => told.push(event));
    const outcomes = deliveries.filter(({ unit }) => unit === units[0]).map((one) => service.take(one).outcome);
    for (const one of deliveries) service.take(one);
    return { ...outcome(store, told), outcomes, told };
  }

  test('each input once: accepted or rejected, events in order, nothing left untold', () => {
    const { outcomes, told, records } = straight();
    expect(outcomes.map((one, i) => (one === 'rejected' ? i + 1 : 0)).filter((seq) => seq > 0)).toEqual([5, 9]);
    expect(told.filter(({ id }) => id.startsWith('upper gate')).map(({ id, event }) => `${id} ${event}`)).toEqual([
      ...['upper gate.2.1 raised', 'upper gate.3.1 acknowledged', 'upper gate.4.1 configured'],
      ...['upper gate.5.1 rejected', 'upper gate.6.1 returned', 'upper gate.6.2 raised', 'upper gate.7.1 repeated'],
      ...['upper gate.9.1 rejected', 'upper gate.10.1 raised', 'upper gate.10.2 raised'],
    ]);
    for (const record of records) expect(JSON.parse(record)).toMatchObject({ record: { seq: 10 }, untold: [] });
  });

  test('redelivered with repetitions and out of order: a gap names what has to come first', () => {
    const store = place()(never());
    const told: Told[] = [];
    const service = start(store, (event) => told.push(event));
    let gaps = 0;
    for (let i = 0; i < deliveries.length; i += 1) {
      const ahead = deliveries[Math.min(i + 6, deliveries.length - 1)] as Delivery;
      const step = service.take(ahead);
      if (step.outcome === 'gap') {
        gaps += 1;
        expect(step.missing).toBe((store.load(ahead.unit)?.record.seq ?? 0) + 1);
      }
      for (const one of [deliveries[i], deliveries[i >> 1]] as Delivery[]) service.take(one);
    }
    const { records, events } = straight();
    expect(gaps).toBeGreaterThan(10);
    expect(outcome(store, told)).toEqual({ records, events });
    expect(told).toHaveLength(new Set(told.map(({ id }) => id)).size);
  });

  test('killed before, half-way through or after any of its calls: the same records, the same events', () => {
    const { records, events } = straight();
    const whole = never();
    const all = place()(whole);
    const service = start(all, () => whole.call(() => {}));
    for (const one of deliveries) service.take(one);
    const calls = whole.calls;
    expect(calls).toBeGreaterThan(150);
    const stride = Math.max(1, Math.floor(calls / some(calls, 5)));
    for (const when of ['before', 'half', 'after'] as const) {
      for (let at = 1; at <= calls; at += stride) {
        const door = place();
        const told: Told[] = [];
        let fate = new Fate(at, when);
        let forgotten = 0;
        for (let lives = 0; forgotten < deliveries.length; lives += 1) {
          expect(lives).toBeLessThan(3);
          try {
            const one = start(door(fate), (event) => fate.call(() => told.push(event)));
            // the queue gives again what it was not told to forget, and the one before it
            for (let i = Math.max(0, forgotten - 1); i < deliveries.length; i += 1) {
              expect(one.take(deliveries[i] as Delivery).outcome).not.toBe('gap');
              forgotten = Math.max(forgotten, i + 1);
            }
          } catch (error) {
            if (!(error instanceof Killed)) throw error;
            fate = never();
          }
        }
        expect(outcome(door(never()), told), `call ${at}, ${when}`).toEqual({ records, events });
      }
    }
  });

  test('a configuration that is not installed stops its unit until it is; the others go on', () => {
    const door = place();
    const told: Told[] = [];
    const old = startService({
      store: door(never()),
      tell: (event: Told) => told.push(event),
      configurations: { spring: configurations.spring },
      first: 'spring',
    });
    for (const one of deliveries.slice(0, 6)) old.take(one);
    expect(() => old.take(deliveries[6] as Delivery)).toThrow(expect.objectContaining({ code: 'bad_configuration' }));
    expect(old.take(deliveries[8] as Delivery)).toMatchObject({ outcome: 'gap', missing: 4 });
    const grown = start(door(never()), (event) => told.push(event));
    for (const one of deliveries) grown.take(one);
    const { records, events } = straight();
    expect(outcome(door(never()), told)).toEqual({ records, events });
  });

  test('a record of an earlier version of the library goes on', () => {
    const store = place()(never());
    const service = start(store, () => {});
    for (const one of deliveries.slice(0, 4)) service.take(one);
    const { record } = store.load('upper gate') as Kept;
    store.keep('upper gate', { ...record, library: '0.1.9' }, []);
    for (const one of deliveries) service.take(one);
    expect(JSON.stringify(store.load('upper gate'))).toBe(straight().records[0]);
  });
});

test.each(['', '{"record":{"seq":', 'null', '{"record":{}}', 'that of another unit'])(
  'a damaged file (%j) is named with its unit, whose inputs wait; the other units go on',
  (damaged) => {
    const folder = mkdtempSync(join(tmpdir(), 'service-'));
    folders.push(folder);
    const begin = (warned: string[]) => {
      const store: Store = fileStore(folder, nodeFs, (text: string) => warned.push(text));
      return startService({ store, tell: () => {}, configurations, first: 'spring' }) as {
        take(one: Delivery): UnitStep;
      };
    };
    const [upper, lower] = [0, 1].map((i) => deliveries.filter(({ unit }) => unit === units[i])) as [
      ...[Delivery[], Delivery[]],
    ];
    const before = begin([]);
    for (const one of [upper[0], lower[0]] as Delivery[]) before.take(one);
    const path = join(folder, 'upper%20gate.json');
    const whole = readFileSync(path, 'utf8');
    const other = readFileSync(join(folder, 'lower%20gate%20%2F%20north.json'), 'utf8');
    const text = damaged === 'that of another unit' ? other : damaged;
    writeFileSync(path, text);

    const warned: string[] = [];
    const service = begin(warned);
    const told = `the record of upper gate is damaged: ${path}`;
    expect(warned).toEqual([told]);
    expect(() => service.take(upper[1] as Delivery)).toThrow(told);
    expect(service.take(lower[1] as Delivery).outcome).toBe('accepted');
    expect(readFileSync(path, 'utf8')).toBe(text);
    writeFileSync(path, whole);
    expect(service.take(upper[1] as Delivery).outcome).toBe('accepted');
  },
);

test.each(['', '{"seq":', 'null', '{}'])(
  'a damaged row (%j) is named with its unit, whose inputs wait; the other units go on',
  (damaged) => {
    const db = memorySqlite().open((act) => act());
    const begin = (warned: string[]) => {
      const store: Store = sqliteStore(db, (text: string) => warned.push(text));
      return startService({ store, tell: () => {}, configurations, first: 'spring' }) as {
        take(one: Delivery): UnitStep;
      };
    };
    const [upper, lower] = [0, 1].map((i) => deliveries.filter(({ unit }) => unit === units[i])) as [
      ...[Delivery[], Delivery[]],
    ];
    const before = begin([]);
    for (const one of [upper[0], lower[0]] as Delivery[]) before.take(one);
    const find = db.prepare('select record from unit where unit = ?');
    const put = db.prepare(
      'insert into unit (unit, record) values (?, ?) on conflict (unit) do update set record = excluded.record',
    );
    const whole = (find.get('upper gate') as { record: string }).record;
    put.run('upper gate', damaged);
    // an event of it waits, so that it is looked at as the service starts
    db.prepare('insert into event (id, unit, body, told) values (?, ?, ?, 0)').run('x', 'upper gate', '{}');

    const warned: string[] = [];
    const service = begin(warned);
    const told = 'the record of upper gate is damaged';
    expect(warned).toEqual([told]);
    expect(() => service.take(upper[1] as Delivery)).toThrow(told);
    expect(service.take(lower[1] as Delivery).outcome).toBe('accepted');
    expect(find.get('upper gate')).toEqual({ record: damaged });
    put.run('upper gate', whole);
    expect(service.take(upper[1] as Delivery).outcome).toBe('accepted');
  },
);

test('a file is on the disk before it takes the place of the old one, and the folder after it', () => {
  const folder = mkdtempSync(join(tmpdir(), 'service-'));
  folders.push(folder);
  const called: string[] = [];
  const fs = new Proxy(nodeFs, {
    get: (all, name: keyof typeof nodeFs) =>
      name.endsWith('Sync')
        ? (...args: never[]) => {
            called.push(name);
            return (all[name] as (...more: never[]) => unknown)(...args);
          }
        : all[name],
  });
  fileStore(folder, fs).keep('upper gate', {}, []);
  expect(called).toEqual([
    ...['openSync', 'writeFileSync', 'fsyncSync', 'closeSync', 'renameSync'],
    ...['openSync', 'fsyncSync', 'closeSync'],
  ]);
  expect(readdirSync(folder)).toEqual(['upper%20gate.json']);
  expect(readFileSync(join(folder, 'upper%20gate.json'), 'utf8')).toBe('{"record":{},"untold":[]}');
});

test('whole JSON with a damaged state: a shelf for centuries is cut and told, a lost member is named', () => {
  const folder = mkdtempSync(join(tmpdir(), 'service-'));
  folders.push(folder);
  const path = join(folder, 'upper%20gate.json');
  const begin = (told: string[]) => {
    const tell = ({ event }: Told) => told.push(event);
    return startService({ store: fileStore(folder), tell, configurations, first: 'spring' }) as {
      take(one: Delivery): UnitStep;
    };
  };
  const time = 1795593600000;
  const hot = (seq: number, at: number) =>
    ({ unit: 'upper gate', seq, payload: { time: at, celsius: 80 + (seq % 7) / 10 } }) as unknown as Delivery;
  const shelve = { kind: 'command', time, alarm: 'hot', command: 'shelve', forMs: 3600000, by: 'night shift' };
  const before = begin([]);
  before.take(hot(1, time));
  before.take({ unit: 'upper gate', seq: 2, payload: shelve } as unknown as Delivery);
  const whole = readFileSync(path, 'utf8');
  expect(whole).toContain('"until":1');

  writeFileSync(path, whole.replace('"until":1', '"until":9'));
  const told: string[] = [];
  const service = begin(told);
  for (let i = 1; i <= 30; i += 1) service.take(hot(i + 2, time + i * 20 * minute));
  expect(told).toEqual(['shelved', 'unshelved', 'raised']);

  writeFileSync(path, whole.replace('"arrivals"', '"arrivalr"'));
  expect(() => begin([]).take(hot(3, time + minute))).toThrow(expect.objectContaining({ code: 'bad_state' }));
});
