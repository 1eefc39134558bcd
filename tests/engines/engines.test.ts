/** Same input, same bits, on every engine. */
import { rmSync } from 'node:fs';
import { createContext, runInContext } from 'node:vm';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { full } from '../volume.ts';
import { engines, onPath, type Programs, runLimit, writePrograms } from './engines.ts';
import { casesScript, walkProgram } from './program.ts';

/** In CI an engine that is not there is a failure. */
const all = process.env.MOTESCALE_ALL_ENGINES === '1';
const missing = engines.filter((engine) => engine.command !== null && onPath(engine.command) === null);

/** Calls that end in another error than the library's own. Each is a fault: a cured one leaves the list. */
const knownStrays: readonly string[] = [];

let programs: Programs;
let library: string;
let whole: string;
let expected: Map<string, string>;

beforeAll(async () => {
  whole = await walkProgram();
  const cases = await casesScript();
  library = whole.slice(0, -cases.length);
  programs = writePrograms(whole, cases);
  expected = linesOf(inThisEngine(whole));
  if (missing.length > 0 && !all) {
    console.info(`not on the PATH, skipped: ${missing.map((engine) => engine.name).join(', ')}`);
  }
});

afterAll(() => rmSync(programs.folder, { recursive: true, force: true }));

/** Lines by name; strays, several to a name, are kept apart. */
function linesOf(report: string): Map<string, string> {
  const lines = new Map<string, string>();
  for (const line of report.split('\n')) {
    const [name = '', rest = ''] = line.split(/ (.*)/);
    lines.set(name === 'stray' ? line : name, rest);
  }
  return lines;
}

function inThisEngine(program: string): string {
  const context = createContext({});
  runInContext(program, context);
  return context.walked;
}

function callsOf(name: string): number {
  return Number(expected.get(name)?.split(' ')[0]);
}

describe('the walk', () => {
  test('has at least 5,000 calls', () => {
    expect(callsOf('whole')).toBeGreaterThanOrEqual(5000);
  });

  test('calls every function of the script file', () => {
    const context = createContext({});
    const members: object = runInContext(`${library}\nmotescale`, context);
    const functions = Object.entries(members).flatMap(([name, member]) => (typeof member === 'function' ? [name] : []));
    expect(functions.filter((name) => !(callsOf(name) > 1))).toEqual([]);
  });

  test('ends in no other errors than the known ones', () => {
    const strays = [...expected.keys()].flatMap((line) => (line.startsWith('stray ') ? [line.split(' ')[1]] : []));
    expect([...new Set(strays)].sort()).toEqual(knownStrays);
  });
});

describe('the digest tells apart', () => {
  // the functions spoilt below are walked in these files; with MOTESCALE_FULL in all of them
  let cases: string;
  let unspoilt: Map<string, string>;

  beforeAll(async () => {
    cases = await casesScript(full ? undefined : ['codes.ts', 'counts.ts', 'sampling.ts']);
    unspoilt = linesOf(inThisEngine(library + cases));
  });

  test.each([
    ['one bit of one number', 'countAt', 'result', 'result.perMl *= 1 + 1 / 67108864 / 67108864'],
    ['zero and negative zero', 'countBounds', 'result.above === 0', 'result.above = -0'],
    ['a number and its text', 'scaleNumber', 'result > 0', "result = '' + result"],
    ['null and absent', 'cc1246Level', 'result === null', 'result = undefined'],
    ['one letter', 'classify', 'result', "result.text += ' '"],
    ['one member more', 'lineFlow', 'result', 'result.more = 1'],
    ['an answer and an error', 'convertSizing', 'result', "throw { code: 'out_of_range', parameter: 'size' }"],
  ])('%s', (_what, name, where, change) => {
    const spoilOnce = `(function (real) {
      var done = false;
      motescale.${name} = function () {
        var result = real.apply(null, arguments);
        if (!done && (${where})) { done = true; ${change}; }
        return result;
      };
    })(motescale.${name});`;
    const changed = linesOf(inThisEngine(`${library}${spoilOnce}\n${cases}`));
    const names = [...unspoilt.keys()].filter((key) => changed.get(key) !== unspoilt.get(key));
    expect(names).toEqual([name, 'whole']);
  });
});

describe.each(engines)('$name', (engine) => {
  const absent = missing.includes(engine);

  test.skipIf(absent && !all)(
    'gives the same bits',
    async () => {
      expect(absent, `${engine.command} is not on the PATH`).toBe(false);
      const lines = linesOf(await engine.run(programs));
      const differs = Object.keys(engine.differs ?? {});
      for (const name of engine.lacks ?? []) expect(lines.get(name), name).toBe('absent');
      for (const name of differs) expect(lines.get(name), `${name} differs no longer`).not.toBe(expected.get(name));
      const apart = [...differs, ...(engine.lacks ?? []), ...(differs.length > 0 ? ['whole'] : [])];
      const alike = (all: Map<string, string>) =>
        Object.fromEntries(
          [...all].filter(([line]) => !apart.includes(line.split(' ')[line.startsWith('stray ') ? 1 : 0] ?? '')),
        );
      expect(alike(lines)).toEqual(alike(expected));
    },
    runLimit,
  );
});
