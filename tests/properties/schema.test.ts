/**
 * Laws of data from outside: what is accepted can be used, what is refused could not, and JSON Schema says the same as
 * the shapes.
 */
import { Ajv2020 } from 'ajv/dist/2020.js';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import * as z from 'zod/mini';
import { advanceAcceptance, prepareAcceptance, startAcceptance } from '../../src/acceptance/index.ts';
import { acceptanceReadingRule } from '../../src/acceptance/readingRule.ts';
import * as codes from '../../src/codes/index.ts';
import { noteUnsound } from '../../src/codes/ownTable/noteUnsound.ts';
import { tableProblems } from '../../src/codes/ownTable/tableProblems.ts';
import { tableRule } from '../../src/codes/ownTable/tableRule.ts';
import { cumulativeCounts } from '../../src/counts/index.ts';
import { isMotescaleError, type MotescaleError, type Problem, parameterAt, problemsOf } from '../../src/errors.ts';
import type { MonitorConfig } from '../../src/monitor/index.ts';
import { assessReading } from '../../src/reading/index.ts';
import { readingRule, timedReadingRule } from '../../src/reading/rules.ts';
import { checkRule } from '../../src/rules/check.ts';
import { holds as keeps } from '../../src/rules/holds.ts';
import { acceptanceConfigRule, monitorConfigRule } from '../../src/schema/configuration.ts';
import { shapeOfRule } from '../../src/schema/fromRule.ts';
import {
  jsonSchemas,
  parseAcceptanceConfig,
  parseAcceptanceReading,
  parseClassTable,
  parseMonitorConfig,
  parseMonitorReading,
  parseReading,
} from '../../src/schema/index.ts';
import { some } from '../volume.ts';
import { broken, type Json } from './brokenData.ts';
import { tables } from './samples.ts';
import { advanceMonitor, startMonitor } from './watched.ts';

const plain = (data: unknown) => JSON.parse(JSON.stringify(data)) as Json;
const figure = fc.double({ min: 1, max: 400, noNaN: true });

const counts = fc
  .uniqueArray(fc.integer({ min: 1, max: 100 }), { minLength: 1, maxLength: 5 })
  .chain((sizes) => {
    const each = { minLength: sizes.length, maxLength: sizes.length };
    return fc.record(
      {
        sizing: fc.constantFrom('iso11171', 'iso11171b', 'iso4402', 'microscope'),
        sizes: fc.constant(sizes.sort((a, b) => a - b)),
        perMl: fc.array(fc.double({ min: 0, max: 1e6, noNaN: true }), each),
        counted: fc.array(fc.nat(), each),
        volumeMl: figure,
        dilution: figure,
      },
      { requiredKeys: ['sizing', 'sizes', 'perMl'] },
    );
  })
  .map(agreeing);

interface Raw {
  readonly counted?: readonly number[];
  readonly volumeMl?: number;
  readonly dilution?: number;
}

/** Raw counts need their volume, and decide the counts per mL. */
function agreeing<Counts extends Raw>(one: Counts): Counts {
  const { counted, volumeMl = 10, dilution = 1 } = one;
  if (counted === undefined) return one;
  return { ...one, volumeMl, perMl: counted.map((count) => (count * dilution) / volumeMl) };
}

const figures = ['time', 'mlPerMin', 'measuringSeconds', 'kPa', 'celsius', 'mm2PerS', 'waterSaturation'] as const;
const share = fc.double({ min: 0, max: 2, noNaN: true });
const reading = fc
  .record(
    {
      counts,
      ...Object.fromEntries([...figures, 'coldestCelsius', 'flushedMl'].map((name) => [name, figure])),
      waterSaturation: share,
      time: fc.integer({ min: 1e12, max: 2e12 }),
    },
    { requiredKeys: ['counts'] },
  )
  .map(plain);

const moment = fc.integer({ min: 1e12, max: 2e12 });
const name = fc.string({ minLength: 1, maxLength: 64 }).filter((text) => text !== '__proto__');
const monitorReading = fc.tuple(reading, moment, fc.dictionary(name, figure)).map(([one, time, others]) => {
  return plain({ ...(one as object), time, others });
});

const table = fc.constantFrom(...tables.map(([known]) => known)).map((known) => {
  const { source, notes, ...rest } = known;
  return plain(known.classes.length > 8 && known.notation === 'single' ? rest : known);
});

const own = {
  id: 'own',
  title: 'Own',
  counting: 'cumulative',
  perVolumeMl: 1,
  columns: [
    { label: '4', from: { iso11171: 4 } },
    { label: '6', from: { iso11171: 6 } },
  ],
  classes: ['A', 'B', 'C'],
};

/** Few columns, so that a break often meets a limit or an end. */
const smallTables: readonly Json[] = [
  {
    ...own,
    limits: [
      [100, 10],
      [1000, 50],
      [10000, 500],
    ],
  },
  {
    ...own,
    counting: 'differential',
    columns: [
      { label: 'A', from: { iso11171: 4 }, to: { iso11171: 6 } },
      { label: 'B', from: { iso11171: 6 }, to: { iso11171: 14 } },
      { label: 'C', from: { iso11171: 14 } },
    ],
    classes: ['1', '2'],
    notation: 'lettered',
    limits: [
      [100, 10, 1],
      [200, 20, 2],
    ],
  },
  {
    ...own,
    columns: [
      { label: 'mass', from: {} },
      { label: '6', from: { iso11171: 6 } },
    ],
    limits: [
      [9, 1],
      [5, 2],
      [7, null],
    ],
  },
];

const alarm = fc.constantFrom<Json>(
  { id: 'dirt', type: 'high', setpoint: '18/16/13', figure: { code: 'iso4406' }, deadband: 1, onDelayMs: 60000 },
  { id: 'rising', type: 'rise', setpoint: 2, withinMs: 86400000, figure: { continuousScaleNumberAt: 4 }, deadband: 1 },
  { id: 'wet', type: 'high', setpoint: 0.8, figure: { quantity: 'waterSaturation' }, latching: true },
  { id: 'level', type: 'low', setpoint: 300, figure: { other: 'litres' }, chattering: { raises: 4, withinMs: 60000 } },
);
const config = fc
  .record(
    {
      codes: fc.constant([{ table: codes.iso4406, target: '18/16/13' }, { table: codes.nas1638 }]),
      limits: fc.constantFrom(
        { leastKPa: null, celsius: { low: 10, high: 80 }, qualities: { flow_low: 'bad' } },
        { mlPerMin: { low: 20, high: 40 }, particleSizes: [4, 6], stuckChance: 1e-6, solubility: { b: 1670 } },
      ),
      alarms: fc.uniqueArray(alarm, { selector: (one) => (one as { id: string }).id }),
      follow: fc.constant([{ id: 'slow', figure: { perMlAt: 4 }, blocks: 20 }]),
      staleAfterMs: fc.constant(600000),
    },
    { requiredKeys: ['codes'] },
  )
  .map(plain);

const acceptanceReading = fc.tuple(monitorReading, fc.option(figure, { nil: undefined })).map(([one, litres]) => {
  return plain({ ...(one as object), litres });
});
const acceptanceConfig = fc
  .record(
    {
      table: fc.constantFrom(codes.iso4406, codes.nas1638),
      readings: fc.integer({ min: 2, max: 10000 }),
      leastMs: fc.nat(),
      leastLitres: figure,
      maxGapMs: fc.integer({ min: 1, max: 86400000 }),
      limits: fc.constantFrom({ particles: null }, { solubility: { a: 7.1, b: 1567 }, flushMl: 200 }),
    },
    { requiredKeys: ['table', 'readings'] },
  )
  .map((one) => {
    const single = one.table === codes.nas1638;
    return plain({ ...one, target: single ? '6' : '18/16/13', ...(single ? { columns: ['5-15', '15-25'] } : {}) });
  });

/** What a function throws, which must be an error of the library; null where it returns. */
function errorOf(run: () => unknown): MotescaleError | null {
  try {
    run();
    return null;
  } catch (error) {
    if (!isMotescaleError(error)) throw error;
    return error;
  }
}

/** Runs a law on broken data, and sees that both outcomes came up often enough to mean something. */
function holds(data: fc.Arbitrary<Json>, runs: number, law: (value: Json) => boolean): void {
  const tries = some(runs, runs / 10);
  const came = { accepted: 0, refused: 0 };
  fc.assert(
    fc.property(data, (value) => {
      came[law(value) ? 'accepted' : 'refused'] += 1;
    }),
    { numRuns: tries },
  );
  expect(Math.min(came.accepted, came.refused)).toBeGreaterThan(tries / 20);
}

/** There are problems, each told once at its place; they are then given back. */
function soundProblems(error: MotescaleError): readonly Problem[] {
  const problems = problemsOf(error);
  expect(problems.length, error.message).toBeGreaterThan(0);
  const lines = problems.map(({ path, expected }) => JSON.stringify([path, expected]));
  expect(new Set(lines).size).toBe(lines.length);
  return problems;
}

/** Times that look like seconds, or like a clock that was not set, only the parse functions refuse. */
const noTime = (expected: string) => expected.includes('this looks like');
const unknownMember = (expected: string) => expected.startsWith('one of the members');

describe('readings', () => {
  test('what is accepted can be assessed; what is refused could not, but for members of another name', () => {
    holds(broken(reading), 3000, (value) => {
      const refused = errorOf(() => parseReading(value));
      if (refused === null) expect(errorOf(() => assessReading(parseReading(value)))).toBeNull();
      else if (!soundProblems(refused).every(({ expected }) => unknownMember(expected) || noTime(expected)))
        expect(errorOf(() => assessReading(value as never))).not.toBeNull();
      return refused === null;
    });
  });
});

describe('readings for a monitor', () => {
  const watched: MonitorConfig = {
    codes: [{ table: codes.iso4406, target: '18/16/13' }, { table: codes.nas1638 }],
    limits: { celsius: { low: 5, high: 80 }, flushMl: 200 },
    alarms: [
      { id: 'dirt', type: 'high', setpoint: '18/16/13', figure: { code: 'iso4406' }, deadband: 1, onDelayMs: 5 },
      { id: 'class', type: 'high', setpoint: '6', figure: { code: 'nas1638' }, latching: true },
      { id: 'rise', type: 'rise', setpoint: 2, withinMs: 1000, figure: { continuousScaleNumberAt: 4 } },
      { id: 'number', type: 'high', setpoint: 15, figure: { scaleNumberAt: 6 } },
      { id: 'count', type: 'low', setpoint: 2, figure: { perMlAt: 4 }, staleAfterMs: 100 },
      { id: 'wet', type: 'high', setpoint: 0.8, figure: { quantity: 'waterSaturation' } },
      { id: 'level', type: 'low', setpoint: 300, figure: { other: 'litres' } },
    ],
    follow: [
      { id: 'number', figure: { continuousScaleNumberAt: 6 }, blockMs: 60000, blocks: 8 },
      { id: 'level', figure: { other: 'litres' }, blockMs: 60000, blocks: 8 },
    ],
    staleAfterMs: 1000,
  };
  /** The states after no reading, after one, and after so many that trends and changes are told. */
  const states = [0, 1, 30].map((length) => {
    let state = startMonitor(watched);
    for (let i = 0; i < length; i += 1) {
      const counts = cumulativeCounts({ 4: 1000 + (i % 5), 6: 300, 14: 20 });
      state = advanceMonitor(watched, state, { time: i * 60000, counts, kPa: i, others: { litres: 400 } }).state;
    }
    return state;
  });
  const later = { time: 1e12, counts: cumulativeCounts({ 4: 1000, 6: 300, 14: 20 }), others: { litres: 400 } };

  test('what is accepted, a monitor takes and goes on from; what is refused it could not', () => {
    holds(broken(monitorReading), 2000, (value) => {
      const refused = errorOf(() => parseMonitorReading(value));
      const found = refused === null ? [] : soundProblems(refused);
      const noReading = found.some(
        ({ path }) => path.length === 0 || (path.length === 1 && /counts|others/.test(`${path[0]}`)),
      );
      if (noReading || found.some(({ expected }) => unknownMember(expected) || noTime(expected))) return false;
      for (const state of states) {
        const unusable = errorOf(() => {
          const given = refused === null ? parseMonitorReading(value) : value;
          const { state: next } = advanceMonitor(watched, state, given as never);
          const again = JSON.parse(JSON.stringify(next)) as typeof next;
          return advanceMonitor(watched, again, later);
        });
        if (refused === null) expect(unusable).toBeNull();
        else expect(unusable).not.toBeNull();
      }
      return refused === null;
    });
  });
});

describe('class tables', () => {
  test('accepted just where classTable accepts, with the same result or the same problems', () => {
    holds(broken(table), 2000, (value) => {
      const refused = errorOf(() => parseClassTable(value));
      const unusable = errorOf(() => codes.classTable(value as never));
      if (refused === null) {
        expect(unusable).toBeNull();
        expect(parseClassTable(value)).toEqual(codes.classTable(value as never));
      } else {
        expect(soundProblems(refused)).toEqual(problemsOf(unusable));
        expect(unusable?.code).toBe(refused.code);
      }
      return refused === null;
    });
  });
});

/** What a table says for people decides no class: the preparing functions let it pass. */
const letPass = (problems: readonly Problem[]) =>
  problems.every(({ path }) => {
    const at = path.indexOf('table');
    return at >= 0 && ['source', 'wording', 'notes'].includes(`${path[at + 1]}`);
  });

describe('class tables that are handed in as objects', () => {
  test('are refused just where classTable refuses what decides a class, and at one of its places', () => {
    const given = broken(fc.oneof(table, fc.constantFrom(...smallTables)));
    const placesOf = (problems: readonly Problem[]) => problems.map(({ path }) => path.join('.'));
    holds(given, 4000, (value) => {
      const wanted = tableProblems(value).filter(({ path }) => !['wording', 'notes'].includes(`${path[0]}`));
      const found: Problem[] = [];
      expect(noteUnsound(value, [], found)).toBe(wanted.length === 0);
      const [kinds, at] = [placesOf(wanted).map((place) => place.split('.')[0]), placesOf(found)];
      expect(kinds).toEqual(expect.arrayContaining(at.map((place) => place.split('.')[0])));
      return wanted.length === 0;
    });
  });
});

describe('configurations of a monitor', () => {
  test('accepted just where startMonitor accepts, but for what the plain checks let pass', () => {
    holds(broken(config, 2), 2000, (value) => {
      const refused = errorOf(() => parseMonitorConfig(value));
      if (refused === null) expect(errorOf(() => startMonitor(parseMonitorConfig(value)))).toBeNull();
      else {
        if (!letPass(soundProblems(refused)))
          expect(
            errorOf(() => startMonitor(value as never)),
            refused.message,
          ).not.toBeNull();
      }
      return refused === null;
    });
  });
});

describe('readings for a proof', () => {
  test('what is accepted, a proof takes', () => {
    const wanted = prepareAcceptance({ table: codes.iso4406, target: '18/16/13', readings: 2 });
    const started = startAcceptance(wanted);
    holds(broken(acceptanceReading), 1500, (value) => {
      const refused = errorOf(() => parseAcceptanceReading(value));
      if (refused !== null) soundProblems(refused);
      else expect(errorOf(() => advanceAcceptance(wanted, started, parseAcceptanceReading(value)))).toBeNull();
      return refused === null;
    });
  });
});

describe('configurations of a proof', () => {
  test('accepted just where prepareAcceptance accepts, but for what the plain checks let pass', () => {
    holds(broken(acceptanceConfig, 2), 1500, (value) => {
      const refused = errorOf(() => parseAcceptanceConfig(value));
      // a table that is only named is found among those handed to prepareAcceptance
      const named = typeof (value as { table?: unknown } | null)?.table === 'string';
      if (refused === null && named) return true;
      if (refused === null) expect(errorOf(() => prepareAcceptance(parseAcceptanceConfig(value)))).toBeNull();
      else {
        if (!letPass(soundProblems(refused)))
          expect(
            errorOf(() => prepareAcceptance(value as never)),
            refused.message,
          ).not.toBeNull();
      }
      return refused === null;
    });
  });
});

test('JSON Schema counts the members of a record too', () => {
  const valid = new Ajv2020().compile(jsonSchemas.reading);
  const others = (length: number) => Object.fromEntries(Array.from({ length }, (_x, i) => [`n${i}`, i]));
  for (const length of [64, 65]) {
    const kept = keeps(readingRule, { others: others(length) });
    expect(kept).toBe(length === 64);
    expect(valid({ others: others(length) })).toBe(kept);
  }
});

describe.each([
  ['reading', reading, readingRule, parseReading],
  ['monitorReading', monitorReading, timedReadingRule, parseMonitorReading],
  ['monitorConfig', config, monitorConfigRule(), parseMonitorConfig],
  ['acceptanceReading', acceptanceReading, acceptanceReadingRule, parseAcceptanceReading],
  ['acceptanceConfig', acceptanceConfig, acceptanceConfigRule(), parseAcceptanceConfig],
  ['classTable', table, tableRule, parseClassTable],
] as const)('%s', (name, good, rule, parse) => {
  const shape = shapeOfRule(rule);
  const valid = new Ajv2020({ allErrors: true }).compile(jsonSchemas[name]);

  test('the shape accepts exactly what the rule accepts', () => {
    holds(broken(good), 1500, (value) => {
      const problems: Problem[] = [];
      const kept = checkRule(rule, value, [], problems);
      expect(problems.length === 0).toBe(kept);
      expect(keeps(rule, value)).toBe(kept);
      expect(z.safeParse(shape, value).success, problems.map(({ path }) => parameterAt(name, path)).join()).toBe(kept);
      return kept;
    });
  });

  test('JSON Schema says the same as the shape', () => {
    holds(broken(good), 1500, (value) => {
      const fits = z.safeParse(shape, value).success;
      expect(valid(value)).toBe(fits);
      return fits;
    });
  });

  test('JSON there and back changes nothing', () => {
    fc.assert(
      fc.property(good, (value) => {
        const parsed = parse(value);
        expect(parse(JSON.parse(JSON.stringify(parsed)))).toStrictEqual(parsed);
        expect(valid(parsed)).toBe(true);
      }),
      { numRuns: some(300) },
    );
  });

  test('any value at all is accepted or refused by the error of the library', () => {
    fc.assert(
      fc.property(fc.anything(), (value) => {
        const refused = errorOf(() => parse(value));
        if (refused !== null) soundProblems(refused);
      }),
      { numRuns: some(1500) },
    );
  });
});
