/**
 * The ES5 scripts as pages, servers, workers and small engines load them: one global, and nothing changed for the
 * script after it.
 */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, statSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createContext, runInContext, runInNewContext } from 'node:vm';
import { Worker } from 'node:worker_threads';
import { afterAll, describe, expect, test } from 'vitest';
import pkg from '../../package.json' with { type: 'json' };
import { all } from '../engines/engines.ts';
import left from '../reference/states/0.1.0.json' with { type: 'json' };
import { loadScript, scripts, unitRun } from './scripts.ts';

const load = createRequire(import.meta.url);

const code = 'motescale.classify(motescale.iso4406, motescale.cumulativeCounts({ 4: 1890, 6: 402, 14: 33 })).text';

describe.each(scripts)('%s', (file) => {
  const path = `dist/scripts/${file}`;
  const script = readFileSync(path, 'utf8');

  test('is found by its name', () => {
    expect((pkg.exports as Record<string, unknown>)[`./${file}`]).toMatchObject({ default: `./${path}` });
  });

  test('says its version and licence first', () => {
    expect(script.slice(0, 200)).toMatch(new RegExp(`^/\\*!\\s+\\* motescale ${pkg.version}: .*MIT licence`));
  });

  test('has a readable twin that holds the same, and a map that leads to it', () => {
    const twin = path.replace(/js$/, 'readable.js');
    const [small, readable] = [loadScript(path), loadScript(twin)];
    expect(Object.keys(readable)).toEqual(Object.keys(small));
    const map = JSON.parse(readFileSync(`${path}.map`, 'utf8'));
    expect(map.sources).toEqual([file.replace(/js$/, 'readable.js')]);
    expect(script).toMatch(new RegExp(`//# sourceMappingURL=${file}\\.map\\s*$`));
  });

  test('leaves one global', () => {
    const page = createContext({});
    runInContext(script, page);
    expect(Object.keys(page)).toEqual(['motescale']);
    expect(runInContext(code, page)).toBe('18/16/12');
  });

  test('a script joined to it is not made strict', () => {
    const page = createContext({});
    runInContext(`${script}strict = (function () { return this === undefined; })();`, page);
    expect(page.strict).toBe(false);
  });

  test('runs in strict mode', () => {
    expect(runInNewContext(`'use strict';\n${script}\n${code}`)).toBe('18/16/12');
  });

  test('is what require gives', () => {
    const members = load(join(process.cwd(), path));
    expect(members.classify(members.iso4406, members.cumulativeCounts({ 4: 1890, 6: 402, 14: 33 })).text).toBe(
      '18/16/12',
    );
    expect(members.version).toBe(pkg.version);
  });

  test('is what require gives by the name of the package', () => {
    const print = `console.log(Object.keys(require('motescale/${file}')).length)`;
    const count = execFileSync(process.execPath, ['-e', print], { encoding: 'utf8' });
    expect(Number(count)).toBe(Object.keys(loadScript(path)).length);
  });

  test('runs in a worker', async () => {
    const worker = new Worker(`${script}\nrequire('node:worker_threads').parentPort.postMessage(${code});`, {
      eval: true,
    });
    expect(await new Promise((told) => worker.once('message', told))).toBe('18/16/12');
  });

  test('runs inside a function, in a sandbox that has nothing but the language, its objects frozen', () => {
    const sandbox = createContext(Object.create(null), { codeGeneration: { strings: true, wasm: false } });
    runInContext(
      'delete globalThis.console; [Object, Array, String, Number, Math, Error].forEach(function (each) {' +
        ' Object.freeze(each); if (each.prototype) Object.freeze(each.prototype); });' +
        ' Object.freeze(Function.prototype);',
      sandbox,
    );
    const decode = `(function () {\n${script}\nreturn ${code};\n})()`;
    expect(runInContext(decode, sandbox)).toBe('18/16/12');
    expect(Object.keys(sandbox)).toEqual([]);
  });

  test('declares what it holds', () => {
    const declared = readFileSync(path.replace(/js$/, 'd.ts'), 'utf8');
    const names = [...declared.matchAll(/export \{ (.*) \} from/g)].flatMap(([, some = '']) => some.split(', '));
    expect(names.sort()).toEqual(Object.keys(loadScript(path)).sort());
  });
});

test('scaleNumbers says what an engine without typed arrays lacks', () => {
  const engine = createContext({});
  runInContext(`Float64Array = undefined;\n${readFileSync('dist/scripts/motescale.global.js', 'utf8')}`, engine);
  const found = runInContext('try { motescale.scaleNumbers([1]); } catch (error) { error.message; }', engine);
  expect(found).toContain('an engine with typed arrays; scaleNumber works on all');
});

describe('the unit script', () => {
  const whole = loadScript('dist/scripts/motescale.global.js');
  const unit = loadScript('dist/scripts/motescale.unit.global.js');

  test('gives the states, verdicts and events of the whole library', () => {
    const expected = unitRun(whole);
    expect(expected.events.length).toBeGreaterThan(2);
    expect(unitRun(unit)).toEqual(expected);
  });

  test('goes on from a state of the whole library, and tells what it does not follow', () => {
    const follow = [{ id: 'six', figure: { continuousScaleNumberAt: 6 } }];
    const config = { codes: [{ table: whole.iso4406 }], follow };
    const followed = whole.prepareMonitor(config);
    let state = whole.startMonitor(followed);
    for (let day = 0; day < 12; day += 1) {
      const counts = whole.cumulativeCounts({ 4: 1890 + day, 6: 402 + day, 14: 33 });
      state = whole.advanceMonitor(followed, state, { time: day * 86400000, counts }).state;
    }
    expect(Object.keys(state.followed[0]).sort()).toEqual(['change', 'id', 'of', 'open', 'trend']);
    const prepared = unit.prepareMonitor({ codes: [{ table: unit.iso4406 }] });
    const resumed = unit.resumeMonitor(prepared, JSON.parse(JSON.stringify(state)));
    expect([resumed.dropped, resumed.state.followed]).toEqual([['six'], []]);
    expect(unit.advanceMonitor(prepared, resumed.state, { time: 12 * 86400000, celsius: 41 }).verdict.trends).toEqual(
      [],
    );
  });

  test('refuses to follow a figure, and says which script can', () => {
    const follow = [{ id: 'six', figure: { continuousScaleNumberAt: 6 } }];
    expect(() => unit.prepareMonitor({ codes: [{ table: unit.iso4406 }], follow })).toThrow(
      /config\.follow\[0\]: .*motescale\.global\.js does/,
    );
    expect(unit.prepareMonitor({ codes: [], follow: [] }).follow).toEqual([]);
  });

  test('takes and refuses the readings that the whole library does', () => {
    const answer = (
      { advanceMonitor, prepareMonitor, startMonitor, iso4406 }: ReturnType<typeof loadScript>,
      reading: object,
    ) => {
      const prepared = prepareMonitor({ codes: [{ table: iso4406 }] });
      try {
        return advanceMonitor(prepared, startMonitor(prepared), reading).verdict;
      } catch (error) {
        const { code, parameter, received } = error as Record<string, unknown>;
        return { code, parameter, received };
      }
    };
    const taken = whole.cumulativeCounts({ 4: 1890, 6: 402, 14: 33 }, { volumeMl: 10 });
    const odd = [undefined, null, 0, -1, 0.5, 5e-324, 1e300, Number.NaN, Infinity, '7', '', 'x', [], [1], {}, true];
    const names = ['time', 'receivedAt', 'celsius', 'waterSaturation', 'mlPerMin', 'mode', 'others', 'codes', 'counts'];
    const readings = odd.flatMap((value) => [
      ...names.map((name) => ({ time: 0, counts: taken, [name]: value })),
      ...['sizes', 'perMl', 'counted', 'volumeMl', 'sizing'].map((name) => ({
        time: 0,
        counts: { ...taken, [name]: value },
      })),
      { time: 0, others: { tank: value, lid: { value, quality: 'bad' } } },
      { time: 0, celsius: 41, psi: value },
    ]);
    const answers = readings.map((reading) => answer(whole, reading));
    expect(answers.filter((one) => 'arrival' in one).length).toBeGreaterThan(20);
    expect(answers.filter((one) => 'code' in one).length).toBeGreaterThan(150);
    expect(readings.map((reading) => answer(unit, reading))).toEqual(answers);
  });

  test('refuses the errors of a count, and says which script can', () => {
    const code = { table: unit.iso4406, target: '18/16/13', errors: { volume: 0.02 } };
    expect(() => unit.prepareMonitor({ codes: [code] })).toThrow(
      /config\.codes\[0\]\.errors: .*motescale\.global\.js does/,
    );
  });

  test('refuses the states of 0.1.0, and says which script reads them', () => {
    const message = /state\.version: received 1, expected 3: .*motescale\.global\.js does/;
    const prepared = unit.prepareMonitor({ codes: [] });
    expect(unit.startMonitor(prepared).version).toBe(3);
    expect(() => unit.resumeMonitor(prepared, left.monitors.full.state)).toThrow(message);
    const alarm = unit.prepareAlarm({ id: 'hot', type: 'high', setpoint: 65 });
    expect(() => unit.resumeAlarm(alarm, left.alarms.active.state)).toThrow(message);
  });
});

describe('docs/scripts.md', () => {
  const page = readFileSync('docs/scripts.md', 'utf8');
  const blocks = [...page.matchAll(/```js\n([\s\S]*?)```/g)].map(([, block]) => block as string);
  const script = readFileSync('dist/scripts/motescale.codes.global.js', 'utf8');

  test.each(blocks)('%s', (block) => {
    const [, call, expected] = /^(\w.*); \/\/ => (.*)$/m.exec(block) as RegExpExecArray;
    const found = runInNewContext(`${script}\n${block}\nJSON.stringify([${call}, ${expected}])`);
    const [actual, wanted] = JSON.parse(found);
    expect(actual).toEqual(wanted);
  });
});

describe('the command that makes a script of one’s own', () => {
  const folder = mkdtempSync(join(tmpdir(), 'motescale-own-'));
  afterAll(() => rmSync(folder, { recursive: true }));

  function command(...inputs: string[]): string {
    const options = { encoding: 'utf8', stdio: ['ignore', 'pipe', 'pipe'] as ['ignore', 'pipe', 'pipe'] };
    return execFileSync(process.execPath, ['dist/scripts/command.mjs', ...inputs], { ...options, encoding: 'utf8' });
  }

  test('holds what was named and nothing else', () => {
    command('classify', 'cumulativeCounts', 'gost17216', '--out', join(folder, 'own.js'), '--global', 'own');
    const own = loadScript(join(folder, 'own.js'), 'own');
    expect(Object.keys(own).sort()).toEqual(['classify', 'cumulativeCounts', 'gost17216']);
    const counts = own.cumulativeCounts({ 5: 1000, 10: 120, 25: 10, 50: 2, 100: 0 }, { sizing: 'microscope' });
    expect(own.classify(own.gost17216, counts).text).toMatch(/^\d+$/);
    expect(readFileSync(join(folder, 'own.js'), 'utf8')).not.toContain('NAS 1638');
  });

  test('tells how it is called', () => {
    expect(command('--help')).toContain('motescale-script NAME...');
  });

  // each makes a script, for seconds
  test.runIf(all)('tells the bytes of the script, and no folder that was there', () => {
    const place = join(folder, 'units.js');
    const told = command('sampleSheet', '--out', place);
    const bytes = statSync(place).size;
    // a character that takes two
    expect(readFileSync(place, 'utf8').length).toBeLessThan(bytes);
    expect(told).toBe(`${place}: ${bytes} bytes\n`);
  });

  test.runIf(all)('makes the folder it writes to, and says so; its tables serve the unit script', () => {
    const told = command('nas1638', '--out', join(folder, 'new/tables.js'));
    expect(told.split('\n')[0]).toBe(`${join(folder, 'new')}: a new folder`);
    const { nas1638 } = loadScript(join(folder, 'new/tables.js'));
    const unit = loadScript('dist/scripts/motescale.unit.global.js');
    const prepared = unit.prepareMonitor({ codes: [{ table: nas1638, target: '7' }] });
    const counts = unit.cumulativeCounts({ 4: 1308, 6: 434, 14: 43, 21: 12.5, 38: 1.1, 70: 0.3 });
    const { verdict } = unit.advanceMonitor(prepared, unit.startMonitor(prepared), { time: 0, counts });
    expect(verdict.codes[0].text).toBe('8');
  });

  const refused: [string, string[], string][] = [
    ['an unknown name', ['clasify'], "motescale has no clasify, but 'classify'. It has: "],
    ['a name that nothing is like', ['filterHouse'], 'motescale has no filterHouse. It has: '],
    ['no name', [], 'motescale-script NAME...'],
    ['a global that is no name', ['classify', '--global', '1x'], 'is no name of a variable'],
    ...['class', 'let', 'static', 'eval'].map((name): [string, string[], string] => [
      `a global that is a word of the language, ${name}`,
      ['classify', '--global', name],
      `--global: ${name} is no name of a variable\n`,
    ]),
    ...['undefined', 'NaN', 'Infinity', 'Array', 'Object', 'toString', 'document', 'module'].map(
      (name): [string, string[], string] => [
        `a global that is there already, ${name}`,
        ['classify', '--global', name],
        `--global: ${name} is there already in pages or engines; take another name\n`,
      ],
    ),
    ['an option that is none', ['classify', '--globl', 'a'], "Unknown option '--globl'"],
    ['an option without its value', ['classify', '--out'], 'motescale-script NAME...'],
    ['a file that is no script', ['classify', '--out', 'a.txt'], 'does not end in .js'],
  ];
  test.each(refused.filter((_row, i) => all || i % 6 === 0))('refuses %s', (_what, inputs, message) => {
    expect(() => command(...inputs)).toThrow(message);
  });
});
