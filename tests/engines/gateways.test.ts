/**
 * The gateway of docs/gateways.md: twenty days on every engine, or as many as MOTESCALE_DAYS says; its state handed
 * from engine to engine, for five days where npm alone brings them; the hosts in C; and the table of the page.
 */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { crc32 } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { library1 } from '../differential/library1.ts';
import { all, type Engine, engines, isRun, type Programs, runLimit, writePrograms } from './engines.ts';
import {
  followingProgram,
  gatewayProgram,
  leastHeap,
  type Measured,
  measureProgram,
  memoryOf,
  scriptFile,
  wholeFile,
} from './measure.ts';
import { ending } from './program.ts';

const days = Number(process.env.MOTESCALE_DAYS ?? 20);
const handed = all ? 20 : 5;
const page = 'docs/gateways.md';
const running = engines.filter((engine) => engine.modules !== true);
const engineOf = (name: string) => running.find((engine) => engine.name.startsWith(name)) as Engine;

interface Told {
  readonly saved: string;
  readonly events: readonly Record<string, unknown>[];
}

/** What stands after the checksum. */
function stateIn(saved: string): unknown {
  return JSON.parse(saved.slice(8));
}

/** Days on one engine, from a state saved before. */
async function runOn(
  engine: Engine,
  from: number,
  to: number,
  saved: string | null = null,
  program: (code: string) => string = gatewayProgram,
): Promise<Told> {
  const restore = saved === null ? '' : `gateway.restore(${JSON.stringify(saved)});`;
  const run = `var told = runDays(${from}, ${to}); walked = JSON.stringify({ events: told, saved: gateway.save() });`;
  return JSON.parse(await resultOf(engine, program(`${restore}\n${run}`)));
}

async function resultOf(engine: Engine, program: string): Promise<string> {
  const programs = writePrograms(program, '');
  try {
    return await engine.run(programs);
  } finally {
    rmSync(programs.folder, { recursive: true, force: true });
  }
}

let expected: Told;

beforeAll(async () => {
  expected = await runOn(engineOf('Node'), 0, days);
}, runLimit);

describe('the days', () => {
  test('raise each alarm, and hold registers that make no reading', () => {
    const kinds = new Set(expected.events.map(({ alarm, event }) => `${alarm ?? ''} ${event}`));
    expect([...kinds]).toEqual(expect.arrayContaining(['hot raised', 'hot returned', 'dirty raised', ' rejected']));
  });

  test('of a counter that stands still the thermometer is heard all the same', async () => {
    const program = gatewayProgram(`
      var told = [];
      for (var i = 0; i < 18; i += 1) {
        var volume = i < 1 ? 100 : 0;
        var words = [0, 18900 + i, 0, 4020 + i, 0, 330 + i, volume, 900, 60, 32, 0];
        told = told.concat(JSON.parse(gateway.take(i * 600000, JSON.stringify(words))));
      }
      walked = JSON.stringify(told);`);
    const told = JSON.parse(await resultOf(engineOf('Node'), program)) as Record<string, unknown>[];
    const refused = told.filter(({ event }) => event === 'rejected');
    expect(refused).toHaveLength(17);
    expect(refused[0]).toMatchObject({ time: 600000, part: 'counts', code: 'out_of_range' });
    expect(told.filter(({ event }) => event === 'raised').map(({ alarm }) => alarm)).toEqual(['hot']);
    // and that the code came no more is told after an hour
    expect(told.map(({ alarm, event }) => `${alarm} ${event}`)).toContain('dirty signal_stale');
  });

  // an alarm waits out its delay: readings of 65 °C, and as many as make a state of some length
  const waiting = `for (var i = 0; i < 5; i += 1)
      gateway.take(1795593600000 + i * 60000, '[0,18900,0,4020,0,' + (330 + i) + ',100,650,60,32,0]');`;

  test('of a text that was saved each bit that is bent is refused, and each cut', async () => {
    const program = gatewayProgram(`${waiting}
      var saved = gateway.save(), taken = 0, tried = 0;
      function refuses(text) {
        tried += 1;
        try { gateway.restore(text); } catch (error) { return; }
        taken += 1;
      }
      for (i = 0; i < saved.length; i += 1) {
        for (var bit = 0; bit < 8; bit += 1)
          refuses(saved.slice(0, i) + String.fromCharCode(saved.charCodeAt(i) ^ (1 << bit)) + saved.slice(i + 1));
        refuses(saved.slice(0, i));
      }
      var same = gateway.save() === saved;
      gateway.restore(saved);
      walked = JSON.stringify({ saved: saved, same: same, taken: taken, tried: tried });`);
    const { saved, same, taken, tried } = JSON.parse(await resultOf(engineOf('Node'), program));
    expect(saved).toContain('"pending":1795593600000');
    expect(tried).toBe(9 * saved.length);
    expect([taken, same]).toEqual([0, true]);
    expect(saved.slice(0, 8)).toBe(
      crc32(Buffer.from(saved.slice(8), 'utf16le'))
        .toString(16)
        .padStart(8, '0'),
    );
  });

  test('a restart under another configuration tells what stood and does not go on', async () => {
    const hot = `gateway.take(1795593600000 + 900000, '[0,18900,0,4020,0,330,100,650,60,32,0]');`;
    const save = gatewayProgram(`${waiting} ${hot} walked = gateway.save();`);
    const saved = await resultOf(engineOf('Node'), save);
    const restore = `walked = gateway.restore(${JSON.stringify(saved)});`;
    const time = 1795593600000 + 900000;
    expect(JSON.parse(await resultOf(engineOf('Node'), gatewayProgram(restore)))).toEqual([
      { time, event: 'restored', kept: ['dirty', 'hot'], dropped: [], added: [] },
    ]);
    const other = gatewayProgram(restore, (text) => text.replace("id: 'hot'", "id: 'oil hot'"));
    expect(JSON.parse(await resultOf(engineOf('Node'), other))).toEqual([
      { time, event: 'restored', kept: ['dirty'], dropped: ['hot'], added: ['oil hot'] },
      { time, alarm: 'hot', event: 'dropped', state: 'unacknowledged_alarm' },
    ]);
  });

  test('what 0.1.0 left is converted once on a host; the unit script reads none of it', async () => {
    const before = library1 as Readonly<Record<string, (...given: unknown[]) => { state: object }>>;
    const config = {
      codes: [{ table: before.iso4406, target: '18/16/13' }],
      alarms: [
        { id: 'dirty', type: 'high', figure: { code: 'iso4406' }, setpoint: '19/17/14', onDelayMs: 1800000 },
        { id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 60, deadband: 3 },
      ],
    };
    const time = 1795593600000;
    const counts = { sizing: 'iso11171', sizes: [4, 6, 14], perMl: [1890, 402, 33] };
    const heated = before.advanceMonitor?.(config, before.startMonitor?.(config), { time, celsius: 65, counts });
    const left = JSON.stringify(heated?.state);
    const checksum = crc32(Buffer.from(left, 'utf16le')).toString(16).padStart(8, '0');
    const restored = (saved: string) =>
      gatewayProgram(`walked = gateway.restore(${JSON.stringify(saved)}) + gateway.save();`);
    await expect(resultOf(engineOf('Node'), restored(checksum + left))).rejects.toThrow('no state of 0.1.0');
    const files = ['convert.mjs', 'gateway.js'].map((name) => `docs/examples/gateways/${name}`);
    const saved = execFileSync('node', [files[0] as string, wholeFile, files[1] as string], {
      input: `${left}\n`,
      encoding: 'utf8',
      stdio: ['pipe', 'pipe', 'ignore'],
    });
    const told = { time, event: 'restored', kept: ['dirty', 'hot'], dropped: [], added: [] };
    expect(await resultOf(engineOf('Node'), restored(saved))).toBe(JSON.stringify([told]) + saved);
    expect(stateIn(saved)).toMatchObject({ alarms: [{}, { active: true, unacknowledged: true }] });
  });

  const good = [0, 18900, 0, 4020, 0, 330, 100, 410, 60, 32, 0];
  const at = (place: number, word: unknown) => JSON.stringify(good.map((one, i) => (i === place ? word : one)));
  test.each<[string, string, string[]]>([
    ['no list', 'null', ['frame wrong_type registers']],
    ['a list cut short', '[0,18900,0,', ['frame wrong_type registers']],
    ['a NaN', '[0,18900,0,NaN,0,330,100,410,60,32,0]', ['frame wrong_type registers']],
    ['no temperature', at(7, null), ['celsius wrong_type registers[7]']],
    ['a temperature beyond 16 bits', at(7, 70000), ['celsius out_of_range registers[7]']],
    ['a temperature that is no whole number', at(7, 0.5), ['celsius out_of_range registers[7]']],
    ['a temperature that no oil has', at(7, 32768), ['celsius out_of_range input.celsius']],
    ['a count beyond 16 bits', at(3, 70000), ['counts out_of_range registers[3]']],
    ['a count below 0', at(3, -1), ['counts out_of_range registers[3]']],
    [
      'counts alone',
      JSON.stringify(good.slice(0, 7)),
      ['celsius', 'mlPerMin', 'kPa', 'qualities'].map((part, i) => `${part} wrong_type registers[${7 + i}]`),
    ],
  ])('of a frame with %s what is wrong is told, and the rest is taken', async (_name, frame, refused) => {
    const program = gatewayProgram(`
      gateway.take(0, '[0,18901,0,4021,0,331,100,900,60,32,0]');
      var told = JSON.parse(gateway.take(300000, ${JSON.stringify(frame)}));
      var then = JSON.parse(gateway.take(600000, '[0,18902,0,4022,0,332,100,900,60,32,0]'));
      walked = JSON.stringify({ told: told, then: then });`);
    const { told, then } = JSON.parse(await resultOf(engineOf('Node'), program));
    const rejected = told.filter(({ event }: { event: string }) => event === 'rejected');
    expect(rejected.map((one: Record<string, string>) => `${one.part} ${one.code} ${one.parameter}`)).toEqual(refused);
    expect(told.every((one: Record<string, unknown>) => one.time === 300000)).toBe(true);
    // what is left out is bad, not unmeasured; counts in doubt beside a flow that is none are no event
    const bad = told.filter(({ event }: { event: string }) => event === 'quality_bad');
    const names = refused.map((one) => one.split(' ')[0]).filter((one) => one !== 'frame' && one !== 'qualities');
    expect(bad.map(({ figure }: { figure: string }) => figure).sort()).toEqual(names.sort());
    // a temperature of 41 °C ends the wait of the alarm at 90 °C; one left out does not
    const cooled = refused.every((one) => one.startsWith('counts'));
    const words = then.map(({ event }: { event: string }) => event).filter((one: string) => one !== 'quality_restored');
    expect(words).toEqual(cooled ? [] : ['raised']);
    expect(then.length - words.length).toBe(bad.length);
  });

  test('of a frame of counts alone the code is judged, and of one of nothing nothing is taken', async () => {
    const program = gatewayProgram(`
      var told = [];
      for (var i = 0; i < 6; i += 1) {
        var frame = [0, 48900 + i, 0, 14020 + i, 0, 1330 + i, 100];
        told = told.concat(JSON.parse(gateway.take(i * 600000, JSON.stringify(frame))));
      }
      var before = gateway.save();
      gateway.take(3600000, '[]');
      walked = JSON.stringify({ told: told, same: gateway.save() === before });`);
    const { told, same } = JSON.parse(await resultOf(engineOf('Node'), program));
    expect(told.map(({ alarm, event }: Record<string, string>) => `${alarm} ${event}`)).toContain('dirty raised');
    expect(same).toBe(true);
  });

  test.each(running.filter(isRun))(
    '$name tells the same and remembers the same',
    async (engine) => {
      const told = await runOn(engine, 0, days);
      expect(told.events).toEqual(expected.events);
      expect(stateIn(told.saved)).toEqual(stateIn(expected.saved));
    },
    runLimit,
  );
});

describe('a state saved on one engine goes on on the next', () => {
  const ring = ['Node', 'mujs', 'Duktape', 'Hermes', 'SpiderMonkey', 'QuickJS', 'JavaScriptCore'].map(engineOf);

  test(
    'around all of them, a day each',
    async () => {
      const there = ring.filter(isRun);
      let saved: string | null = null;
      const events: unknown[] = [];
      for (let day = 0; day < handed; day += 1) {
        const told: Told = await runOn(there[day % there.length] as Engine, day, day + 1, saved, followingProgram);
        events.push(...told.events);
        saved = told.saved;
      }
      const unbroken = await runOn(engineOf('Node'), 0, handed, null, followingProgram);
      expect(events).toEqual(unbroken.events);
      expect(stateIn(saved as string)).toEqual(stateIn(unbroken.saved));
    },
    runLimit,
  );
});

describe('the hosts of the page', () => {
  let folder: string;
  let registers: string;
  let day: Told;
  const scripts = [scriptFile, 'docs/examples/gateways/gateway.js'];

  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'motescale-host-'));
    // the fourth day is a hot one
    const lines = `walked = '';
      for (var i = 0; i < 144; i += 1) walked += (3 * 144 + i) * 600000 + ' ' + registersOf(3, i) + '\\n';`;
    registers = await resultOf(engineOf('Node'), gatewayProgram(lines));
    day = await runOn(engineOf('Node'), 3, 4);
    expect(day.events.length).toBeGreaterThan(1);
  }, runLimit);
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  function told(command: string, inputs: readonly string[], lines = registers): unknown[] {
    const input = `${lines.trim()}\n`;
    const printed = execFileSync(command, [...inputs, ...scripts], { input, encoding: 'utf8', stdio: 'pipe' });
    return printed
      .trim()
      .split('\n')
      .flatMap((line) => JSON.parse(line));
  }

  function inC(name: string): string {
    const built = join(folder, name);
    const source = `docs/examples/gateways/${name}.c`;
    execFileSync('cc', ['-O2', '-Wall', '-Werror', source, `-l${name}`, '-lm', '-o', built]);
    return built;
  }

  // lines that are none, frames that cannot be read, a short one, and after them a whole one
  const noise = ['nonsense', '1800000', '0 null', '600000 [0,1', '1200000 [NaN]', '1800000 [0,0,0,0,0,0,100]'];
  const rejected = ['line', 'line', 'frame', 'frame', 'frame', 'celsius', 'mlPerMin', 'kPa', 'qualities'];
  const partsOf = (events: readonly unknown[]) =>
    events.map((event) => (event as { part?: string }).part).filter((part) => part !== undefined);
  const noisy = `${noise.join('\n')}\n2400000 [0,18900,0,4020,0,330,100,410,60,32,0]\n`;

  test.runIf(all)('Duktape, in a heap of 1 MiB and in none of half as much', () => {
    const host = inC('duktape');
    expect(told(host, ['1024'])).toEqual(day.events);
    expect(() => told(host, ['512'])).toThrow();
    expect(partsOf(told(host, ['1024'], noisy))).toEqual(rejected);
    // what the page calls the least is enough
    const least = /^\| Duktape .* ([\d.]+) \|$/m.exec(readFileSync(page, 'utf8'))?.[1];
    expect(told(host, [String(Math.floor(Number(least) * 1024))])).toEqual(day.events);
  });

  test.runIf(all)('mujs', () => {
    const host = inC('mujs');
    expect(told(host, [])).toEqual(day.events);
    expect(partsOf(told(host, [], noisy))).toEqual(rejected);
  });

  test('QuickJS', () => {
    const host = ['docs/examples/gateways/quickjs.mjs'];
    expect(told(process.execPath, host)).toEqual(day.events);
    expect(partsOf(told(process.execPath, host, noisy))).toEqual(rejected);
  });
});

describe('the table of the page', () => {
  const header = [
    ...['engine', 'version', 'same bits', 'load, ms', 'a reading, ms'],
    ...['to load, MiB', 'a day, MiB', 'least heap, MiB'],
  ];
  const inMiB = (kib: number | null) => (kib === null ? '-' : (kib / 1024).toFixed(1));
  // a least is rounded up: a heap of what is shown must be enough
  const leastInMiB = (kib: number | null) => inMiB(kib === null ? null : Math.ceil((kib * 10) / 1024) * 102.4);
  const line = (cells: readonly string[]) => `| ${cells.join(' | ')} |`;

  test.skipIf(process.env.MOTESCALE_TABLE !== '1')(
    'is made',
    async () => {
      const rows: string[] = [];
      const nothing = writePrograms(`var walked = 'done';${ending}`, '');
      const loaded = writePrograms(`${readFileSync(scriptFile, 'utf8')}\nvar walked = 'done';${ending}`, '');
      const gateway = writePrograms(gatewayProgram(`runDays(0, 1); walked = 'done';`), '');
      for (const engine of running) {
        const measured: Measured = JSON.parse(await resultOf(engine, measureProgram()));
        const same = JSON.stringify(sorted(stateIn((await runOn(engine, 0, days)).saved)));
        const equal = same === JSON.stringify(sorted(stateIn(expected.saved)));
        const empty = await memoryOf(engine, nothing);
        const above = async (programs: Programs) => {
          const held = await memoryOf(engine, programs);
          return inMiB(held === null || empty === null ? null : held - empty);
        };
        rows.push(
          line([
            ...[engine.name, engine.version(), equal ? 'yes' : 'no'],
            ...[String(measured.loadMs), measured.readingMs.toFixed(2)],
            ...[await above(loaded), await above(gateway), leastInMiB(leastHeap(engine, gateway.whole))],
          ]),
        );
      }
      for (const { folder } of [nothing, loaded, gateway]) rmSync(folder, { recursive: true, force: true });
      const made = [line(header), line(header.map(() => '---')), ...rows].join('\n');
      const whole = /(<!-- engines: made by \.ci\/run -->\n)[\s\S]*?(<!-- \/engines -->)/;
      const text = readFileSync(page, 'utf8');
      expect(text).toMatch(whole);
      writeFileSync(page, text.replace(whole, `$1\n${made}\n\n$2`));
      console.info(made);
    },
    3 * runLimit,
  );

  test('has each engine, and all give the same bits', () => {
    const cells = readFileSync(page, 'utf8')
      .split('\n')
      .filter((row) => row.startsWith('| '))
      .map((row) => row.slice(2, -2).split(' | '));
    const rows = cells.slice(cells.findIndex((row) => row.join() === header.join()) + 2);
    expect(rows.map((row) => row[0])).toEqual(running.map((engine) => engine.name));
    expect(rows.filter((row) => row[2] !== 'yes')).toEqual([]);
  });

  test.each(running)('README.md names $name', ({ name }) => {
    expect(readFileSync('README.md', 'utf8')).toContain(name.replace(/ \(.*/, ''));
  });
});

/** Members in the order of their names: engines keep their own. */
function sorted(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(sorted);
  if (typeof value !== 'object' || value === null) return value;
  const members = value as Record<string, unknown>;
  return Object.fromEntries(
    Object.keys(members)
      .sort()
      .map((name) => [name, sorted(members[name])]),
  );
}
