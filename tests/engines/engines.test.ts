/** Same input, same bits, on every engine. */
import { rmSync } from 'node:fs';
import { createContext, runInContext } from 'node:vm';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { full } from '../volume.ts';
import { all, engines, isRun, onPath, type Programs, runLimit, writePrograms } from './engines.ts';
import { casesScript, walkProgram } from './program.ts';

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
  if (!all) console.info('MOTESCALE_ALL_ENGINES is not set, skipped: the engines that npm does not bring');
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

describe.runIf(all || full)('the digest tells apart', () => {
  const walked = new Map<string, { cases: string; unspoilt: Map<string, string> }>();

  /** One file of cases, with MOTESCALE_FULL all of them, and what they leave of the library as it is. */
  async function walkOf(file: string) {
    const known = walked.get(file);
    if (known !== undefined) return known;
    const cases = await casesScript(full ? undefined : [file]);
    const walk = { cases, unspoilt: linesOf(inThisEngine(library + cases)) };
    walked.set(file, walk);
    return walk;
  }

  test.each([
    ['one bit of one number', 'counts.ts', 'countAt', 'result', 'result.perMl *= 1 + 1 / 67108864 / 67108864'],
    ['zero and negative zero', 'counts.ts', 'countBounds', 'result.above === 0', 'result.above = -0'],
    ['a number and its text', 'codes.ts', 'scaleNumber', 'result > 0', "result = '' + result"],
    ['null and absent', 'codes.ts', 'cc1246Level', 'result === null', 'result = undefined'],
    ['one letter', 'codes.ts', 'classify', 'result', "result.text += ' '"],
    ['one member more', 'sampling.ts', 'lineFlow', 'result', 'result.more = 1'],
    [
      'an answer and an error',
      'counts.ts',
      'convertSizing',
      'result',
      "throw { code: 'out_of_range', parameter: 'size' }",
    ],
  ])('%s', async (_what, file, name, where, change) => {
    const { cases, unspoilt } = await walkOf(file);
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

/** What the walk in this process and the ES modules show already. */
const shown = ['Node', 'Node, CommonJS'];

describe.each(engines)('$name', (engine) => {
  test.runIf(all || (isRun(engine) && !shown.includes(engine.name)))(
    'gives the same bits',
    async () => {
      if (engine.command !== null)
        expect(onPath(engine.command), `${engine.command} is not on the PATH`).not.toBe(null);
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
