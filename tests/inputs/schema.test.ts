/**
 * Bad data from outside: every problem with its code, place, what came and what would be right; and no code made from
 * texts.
 */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { buildSync } from 'esbuild';
import { describe, expect, test } from 'vitest';
import * as z from 'zod/mini';
import { classTable, iso4406, nas1638 } from '../../src/codes/index.ts';
import { tableProblems } from '../../src/codes/ownTable/tableProblems.ts';
import { parameterAt } from '../../src/errors.ts';
import * as schema from '../../src/schema/index.ts';
import { mineralInsulatingOil, solubilityLine } from '../../src/water/index.ts';
import { advanceMonitor, startMonitor } from '../properties/watched.ts';
import { ownTable as own } from './ownTable.ts';

const counts = { sizing: 'iso11171', sizes: [4, 6, 14], perMl: [1890, 402, 33] };
const codes = [{ table: iso4406, target: '18/16/13' }];
const lettered = { notation: 'lettered', classes: ['1', '2'] };
const columnA = { label: 'A', from: { iso11171: 14 } };
const alarm = { id: 'dirt', type: 'high', setpoint: 1000, figure: { perMlAt: 4 } };

const inCounts = (change: object) => () => schema.parseReading({ counts: { ...counts, ...change } });
const inReading = (change: object) => () => schema.parseReading({ counts, ...change });
const inTable = (change: object) => () => schema.parseClassTable({ ...own, ...change });
const inConfig = (change: object) => () => schema.parseMonitorConfig({ codes, ...change });
const inProof = (change: object) => () =>
  schema.parseAcceptanceConfig({ table: iso4406, target: '18/16/13', readings: 3, ...change });
const inAlarm = (change: object) => inConfig({ alarms: [{ ...alarm, ...change }] });

function problemsOf(run: () => unknown): readonly schema.Problem[] {
  try {
    run();
  } catch (error) {
    const problems = schema.problemsOf(error);
    if (problems.length > 0) return problems;
    throw error;
  }
  throw new Error('accepted');
}

const cases: readonly [string, string, () => unknown][] = [
  ['wrong_type', 'reading', () => schema.parseReading('reading')],
  ['wrong_type', 'reading.counts', () => schema.parseReading({ counts: 5 })],
  ['wrong_type', 'reading.kPa', inReading({ kPa: 'high' })],
  ['wrong_type', 'reading.celsius', inReading({ celsius: true })],
  ['not_a_number', 'reading.celsius', inReading({ celsius: Number.NaN })],
  ['infinite', 'reading.time', inReading({ time: -Infinity })],
  ['negative', 'reading.flushedMl', inReading({ flushedMl: -1 })],
  ['out_of_range', 'reading.mm2PerS', inReading({ mm2PerS: 0 })],
  ['out_of_range', 'reading.celsius', inReading({ celsius: -300 })],
  ['out_of_range', 'reading.coldestCelsius', inReading({ coldestCelsius: 1001 })],
  ['unknown_option', 'reading.celcius', inReading({ celcius: 41 })],
  ['unknown_option', 'reading.oil temperature', inReading({ 'oil temperature': 41 })],
  ['unknown_option', 'reading.counts.sizing', inCounts({ sizing: 'iso1171' })],
  ['wrong_type', 'reading.counts.sizing', inCounts({ sizing: 4406 })],
  ['empty', 'reading.counts.sizes', inCounts({ sizes: [] })],
  ['not_an_integer', 'reading.counts.counted[1]', inCounts({ counted: [3, 2.5, 1] })],
  ['sizes_out_of_order', 'reading.counts.sizes[2]', inCounts({ sizes: [4, 14, 6] })],
  ['length_mismatch', 'reading.counts.perMl', inCounts({ perMl: [1890, 402] })],
  ['length_mismatch', 'reading.counts.counted', inCounts({ counted: [1890] })],
  ['wrong_type', 'reading.time', () => schema.parseMonitorReading({ counts })],
  ['not_an_integer', 'reading.time', () => schema.parseMonitorReading({ counts, time: 1772323200000.5 })],
  [
    'out_of_range',
    'reading.others.litres',
    () => schema.parseMonitorReading({ counts, time: 1772323200000, others: { litres: 1e13 } }),
  ],
  ['wrong_type', 'table', () => schema.parseClassTable([])],
  ['empty', 'table.id', inTable({ id: '' })],
  ['unknown_option', 'table.perVolumeMl', inTable({ perVolumeMl: 10 })],
  ['bad_table', 'table.classes[1]', inTable({ classes: ['a', 'a'] })],
  ['bad_table', 'table.columns[1].label', inTable({ columns: [own.columns[0], { ...own.columns[1], label: '6' }] })],
  ['bad_table', 'table.columns[0].label', inTable({ ...lettered, columns: [own.columns[0], columnA] })],
  [
    'bad_table',
    'table.columns[0].to',
    inTable({ columns: [{ ...own.columns[0], to: { iso11171: 14 } }, own.columns[1]] }),
  ],
  ['bad_table', 'table.classes[0]', inTable({ classes: ['a/b', 'b'] })],
  ['bad_table', 'table.limits[1][0]', inTable({ limits: [[10, 1], [9, 2]] })], // biome-ignore format: as printed
  ['bad_table', 'table.limits[1][1]', inTable({ limits: [[10, null], [20, 2]] })], // biome-ignore format: as printed
  ['length_mismatch', 'table.limits', inTable({ limits: [[10, 1]] })],
  ['length_mismatch', 'table.limits[1]', inTable({ limits: [[10, 1], [20]] })],
  ['sizes_out_of_order', 'table.columns[1].from.iso11171', inTable({ columns: [...own.columns].reverse() })],
  [
    'wrong_type',
    'table.columns[1].from.iso11171',
    inTable({ columns: [own.columns[0], { label: '14', from: { iso11171: undefined, microscope: 15 } }] }),
  ],
  ['unknown_option', 'table.wording.__proto__', inTable({ wording: JSON.parse('{"a":{"6":"x"},"__proto__":{}}') })],
  ['unknown_option', 'table.wording.a.__proto__', inTable({ wording: { a: JSON.parse('{"__proto__":"x"}') } })],
  [
    'unknown_option',
    'reading.others.__proto__',
    () => schema.parseMonitorReading({ counts, time: 1772323200000, others: JSON.parse('{"litres":1,"__proto__":5}') }),
  ],
  ['out_of_range', 'config.limits.solubility.b', inConfig({ limits: { solubility: { a: 7, b: 0 } } })],
  ['wrong_type', 'config.limits.solubility.a', inConfig({ limits: { solubility: { a: '7', b: 1567 } } })],
  ['negative', 'reading.litres', () => schema.parseAcceptanceReading({ counts, time: 1772323200000, litres: -1 })],
  ['unknown_option', 'reading.liters', () => schema.parseAcceptanceReading({ counts, time: 1772323200000, liters: 1 })],
  [
    'unknown_option',
    'reading.others.__proto__',
    () => schema.parseAcceptanceReading({ counts, time: 1772323200000, others: JSON.parse('{"__proto__":5}') }),
  ],
  [
    'sizes_out_of_order',
    'reading.counts.sizes[2]',
    () => schema.parseAcceptanceReading({ counts: { ...counts, sizes: [4, 14, 6] }, time: 1772323200000 }),
  ],
  ['unknown_option', 'reading.litres', () => schema.parseMonitorReading({ counts, time: 1772323200000, litres: 1 })],
  ['wrong_type', 'config', () => schema.parseAcceptanceConfig(undefined)],
  ['wrong_type', 'config.target', inProof({ target: undefined })],
  ['out_of_range', 'config.readings', inProof({ readings: 1 })],
  ['not_an_integer', 'config.readings', inProof({ readings: 2.5 })],
  ['out_of_range', 'config.maxGapMs', inProof({ maxGapMs: 0 })],
  ['negative', 'config.leastLitres', inProof({ leastLitres: -1 })],
  ['unknown_option', 'config.leastLiters', inProof({ leastLiters: 1 })],
  ['bad_code', 'config.target', inProof({ target: '18/16' })],
  ['bad_code', 'config.target', inProof({ columns: ['4'], target: '-/16/13' })],
  ['unknown_option', 'config.columns[1]', inProof({ columns: ['4', '5'] })],
  ['out_of_range', 'config.limits.celsius.high', inProof({ limits: { celsius: { low: 80, high: 10 } } })],
  [
    'bad_table',
    'config.table.classes[1]',
    inProof({ table: { ...own, classes: ['a', 'a'] }, columns: ['6'], target: 'a' }),
  ],
  ['wrong_type', 'config', () => schema.parseMonitorConfig(undefined)],
  ['wrong_type', 'config.alarms', inConfig({ alarms: alarm })],
  ['wrong_type', 'config.alarms[0].setpoint', inAlarm({ setpoint: '1000' })],
  ['wrong_type', 'config.alarms[0].setpoint', inAlarm({ figure: { code: 'iso4406' } })],
  [
    'unknown_option',
    'config.alarms[0].type',
    inAlarm({ figure: { code: 'iso4406' }, setpoint: '18/16/13', type: 'low' }),
  ],
  ['unknown_option', 'config.alarms[0].figure', inAlarm({ figure: { perMl: 4 } })],
  ['unknown_option', 'config.alarms[0].figure.quantity', inAlarm({ figure: { quantity: 'bar' } })],
  ['out_of_range', 'config.alarms[0].id', inAlarm({ id: 'x'.repeat(65) })],
  ['out_of_range', 'config.alarms[0].chattering.raises', inAlarm({ chattering: { raises: 1, withinMs: 60000 } })],
  ['unknown_option', 'config.limits.qualities.no_flw', inConfig({ limits: { qualities: { no_flw: 'bad' } } })],
  ['unknown_option', 'config.limits.leastkPa', inConfig({ limits: { leastkPa: 400 } })],
  ['out_of_range', 'config.limits.stuckChance', inConfig({ limits: { stuckChance: 1 } })],
  ['out_of_range', 'config.limits.freeWaterSaturation', inConfig({ limits: { freeWaterSaturation: 95 } })],
  ['out_of_range', 'config.alarms[0].setpoint', inAlarm({ figure: { quantity: 'waterSaturation' }, setpoint: 80 })],
  // what no reading could exceed, nor break
  ['out_of_range', 'config.alarms[0].setpoint', inAlarm({ figure: { quantity: 'waterSaturation' }, setpoint: 1 })],
  ['out_of_range', 'config.limits.freeWaterSaturation', inConfig({ limits: { freeWaterSaturation: 1.01 } })],
  ['out_of_range', 'config.limits.leastKPa', inConfig({ limits: { leastKPa: -200 } })],
  ['out_of_range', 'reading.waterSaturation', inReading({ waterSaturation: 45 })],
  ['out_of_range', 'config.limits.celsius.high', inConfig({ limits: { celsius: { low: 80, high: 10 } } })],
  ['bad_code', 'config.codes[0].target', inConfig({ codes: [{ table: iso4406, target: '18/16' }] })],
  ['unknown_option', 'config.codes[1].table', inConfig({ codes: [...codes, ...codes] })],
  ['wrong_type', 'config.alarms[0].withinMs', inAlarm({ type: 'rise' })],
  ['unknown_option', 'config.alarms[0].figure.code', inAlarm({ figure: { code: 'nas1638' }, setpoint: '6' })],
  ['bad_table', 'config.codes[0].table.classes[1]', inConfig({ codes: [{ table: { ...own, classes: ['a', 'a'] } }] })],
];

describe('each problem has its code and its place', () => {
  test.each(cases)('%s at %s', (code, parameter, run) => {
    const [problem, ...more] = problemsOf(run);
    expect(more).toEqual([]);
    expect(problem?.code).toBe(code);
    expect(parameterAt(parameter.replace(/\W.*/, ''), problem?.path ?? [])).toBe(parameter);
    expect(problem?.expected).toMatch(/\S/);
    expect(problem?.received).toMatch(/\S/);
  });
});

describe('all problems at once', () => {
  test('of types, names and the rules between members', () => {
    const change = { sizes: [4, 6, 5], perMl: [1890, 'x'], dilution: 0.5 };
    const problems = problemsOf(() => schema.parseReading({ counts: { ...counts, ...change }, kpa: 800, kPa: [] }));
    expect(problems).toEqual([
      expect.objectContaining({ code: 'unknown_option', path: ['kpa'] }),
      {
        code: 'wrong_type',
        path: ['counts', 'perMl', 1],
        received: "'x'",
        expected: 'particles per mL from 0 to 1000000000000',
      },
      expect.objectContaining({ code: 'out_of_range', path: ['counts', 'dilution'] }),
      expect.objectContaining({ code: 'wrong_type', path: ['kPa'], received: 'an array of 0' }),
      expect.objectContaining({ code: 'sizes_out_of_order', path: ['counts', 'sizes', 2] }),
      expect.objectContaining({ code: 'length_mismatch', path: ['counts', 'perMl'] }),
    ]);
  });

  test('a time in seconds and one of a clock that was not set are refused by name; ISO 8601 needs its zone', () => {
    const timed = (time: unknown) => () => schema.parseReading({ time });
    expect(problemsOf(timed(1772323200))).toMatchObject([{ code: 'out_of_range', path: ['time'] }]);
    expect(problemsOf(timed(1772323200))[0]?.expected).toMatch(/seconds/);
    expect(problemsOf(timed(5000))[0]?.expected).toMatch(/not set/);
    expect(problemsOf(timed('2026-03-01T00:00:00'))).toMatchObject([{ code: 'wrong_type', path: ['time'] }]);
    expect(schema.parseReading({ time: '2026-03-01T01:00:00+01:00' })).toEqual({ time: 1772323200000 });
    expect(schema.parseReading({ time: '1772323200000' })).toEqual({ time: 1772323200000 });
  });

  test('a code or a figure by name that is null is left out and told, the rest is kept', () => {
    const told: schema.Problem[] = [];
    const raw = { time: 1e12, codes: { iso4406: null }, celsius: 41, others: { litres: 380, amps: null } };
    expect(schema.parseMonitorReading(raw, told)).toEqual({ time: 1e12, celsius: 41, others: { litres: 380 } });
    expect(told).toMatchObject([
      { code: 'wrong_type', path: ['codes', 'iso4406'], received: 'null', expected: 'left out' },
      { code: 'wrong_type', path: ['others', 'amps'], received: 'null', expected: 'left out' },
    ]);
    expect(schema.parseReading({ codes: { iso4406: '18/16/13', nas1638: null } })).toEqual({
      codes: { iso4406: '18/16/13' },
    });
    expect(() => schema.parseReading({ codes: { iso4406: 18, nas1638: null } })).toThrow('reading.codes.iso4406');
  });

  test('counts with holes, as text and without counts per mL are read and told', () => {
    const told: schema.Problem[] = [];
    const raw = { sizing: 'iso11171', sizes: [4, 6, 14], counted: ['18900', null, 330], volumeMl: 10 };
    expect(schema.parseReading({ counts: raw, celsius: 41 }, told)).toEqual({
      counts: { sizing: 'iso11171', sizes: [4, 14], perMl: [1890, 33], counted: [18900, 330], volumeMl: 10 },
      celsius: 41,
    });
    expect(told).toMatchObject([{ path: ['counts', 'counted', 1], received: 'null', expected: 'left out' }]);
    expect(schema.parseReading({ counts: { sizes: [4], perMl: [null] }, celsius: 41 })).toEqual({ celsius: 41 });
  });

  test('what members of counts say of each other is told beside a mistake elsewhere', () => {
    const counts = { sizing: 'iso11171', sizes: [4, 6], perMl: [9, 3], counted: [90, 40], volumeMl: 10 };
    expect(problemsOf(() => schema.parseReading({ celsius: 'hot', counts })).map(({ path }) => path[0])).toEqual([
      'celsius',
      'counts',
    ]);
    expect(problemsOf(() => schema.parseMonitorReading({ time: 1e12, others: { x: null, y: 'x' } }))).toMatchObject([
      { path: ['others', 'y'] },
    ]);
  });

  test('of counts with one text that is no number that one is named alone', () => {
    const raw = { sizing: 'iso11171', sizes: ['4', 6, 14], counted: ['3', 'n/a', '1'], volumeMl: 10 };
    expect(problemsOf(() => schema.parseReading({ counts: raw }))).toMatchObject([
      { path: ['counts', 'counted', 1], received: "'n/a'" },
    ]);
    const { counted, volumeMl: _volume, ...rest } = raw;
    expect(problemsOf(() => schema.parseReading({ counts: { ...rest, perMl: counted } }))).toMatchObject([
      { path: ['counts', 'perMl', 1], received: "'n/a'" },
    ]);
  });

  describe('with keepReadable', () => {
    const keep = (raw: object, told: schema.Problem[] = []) =>
      schema.parseMonitorReading({ time: 1e12, ...raw }, told, { keepReadable: true });
    const sound = { sizing: 'iso11171', sizes: [4, 6, 14], perMl: [1890, 402, 33] };

    test.each<[string, object, object, readonly (readonly [string, string])[]]>([
      ['nothing that is whole', { counts: sound, celsius: 41 }, { counts: sound, celsius: 41 }, []],
      ['a figure', { celsius: 41, kPa: 'err' }, { celsius: 41, qualities: { kPa: 'bad' } }, [['kPa', "'err'"]]],
      [
        'a figure out of range',
        { celsius: 5000, kPa: 8 },
        { kPa: 8, qualities: { celsius: 'bad' } },
        [['celsius', '5000']],
      ],
      [
        'a list too short',
        { counts: { ...sound, perMl: [9] }, celsius: 41 },
        { celsius: 41, qualities: { counts: 'bad' } },
        [['counts.perMl', '']],
      ],
      [
        'a count that is no number',
        { counts: { ...sound, perMl: ['1890', 'n/a', 33] } },
        { counts: { sizing: 'iso11171', sizes: [4, 14], perMl: [1890, 33] } },
        [['counts.perMl.1', "'n/a'"]],
      ],
      [
        'one of the figures by name, and of the codes',
        { others: { litres: 3, amps: 'x' }, codes: { iso4406: '18/16/13', nas1638: 13 } },
        { others: { litres: 3 }, codes: { iso4406: '18/16/13' }, qualities: { counts: 'uncertain' } },
        [
          ['codes.nas1638', '13'],
          ['others.amps', "'x'"],
        ],
      ],
      [
        'a code of a table that nobody knows',
        { codes: { ISO4460: '18/16/13', nas1638: '8' }, celsius: 95 },
        { codes: { nas1638: '8' }, celsius: 95 },
        [['codes.ISO4460', "'ISO4460'"]],
      ],
      [
        'the only code',
        { codes: { ISO4460: '18/16/13' }, celsius: 95 },
        { celsius: 95, qualities: { counts: 'bad' } },
        [['codes.ISO4460', '']],
      ],
      ['the only figure by name', { others: { amps: 'x' }, celsius: 9 }, { celsius: 9 }, [['others.amps', "'x'"]]],
      [
        'everything',
        { celsius: 'x', counts: 'y' },
        { qualities: { counts: 'bad', celsius: 'bad' } },
        [
          ['counts', "'y'"],
          ['celsius', "'x'"],
        ],
      ],
    ])('%s is left out and told', (_what, raw, wanted, left) => {
      const all: schema.Problem[] = [];
      expect(keep(raw, all)).toEqual({ time: 1e12, ...wanted });
      const told = all.filter(({ path }) => path[0] !== 'qualities');
      expect(told.map(({ path }) => path.join('.')).sort()).toEqual(left.map(([path]) => path).sort());
      for (const [path, received] of left)
        expect(told.filter((one) => one.path.join('.') === path)[0]?.received).toContain(received);
      for (const { expected } of told) expect(expected).toMatch(/left out/);
      const config = { codes: [{ table: iso4406 }, { table: nas1638 }] };
      expect(() => advanceMonitor(config, startMonitor(config), keep(raw))).not.toThrow();
    });

    test.each<[string, object, string]>([
      ['the time', { time: 'now', celsius: 41 }, 'time'],
      ['the time of the host', { receivedAt: 'x', celsius: 'hot' }, 'receivedAt'],
      ['the mode', { mode: 7, celsius: 41 }, 'mode'],
      ['a quality', { qualities: { counts: 'poor' }, celsius: 41 }, 'qualities.counts'],
      ['a name that no reading has', { celcius: 41 }, 'celcius'],
      ['seconds', { time: 1795852800 }, 'time'],
    ])('%s is refused all the same', (_what, raw, path) => {
      const problems = problemsOf(() => keep(raw));
      expect(problems.map((one) => one.path.join('.'))).toContain(path);
    });

    test('codes of tables of your own are kept where these are named', () => {
      const own = classTable({ ...nas1638, id: 'own' });
      const raw = { time: 1e12, codes: { own: '7', Own: '7' } };
      const read = (options: schema.ReadingOptions) => {
        const told: schema.Problem[] = [];
        const { codes } = schema.parseMonitorReading(raw, told, options);
        return [codes, told.map(({ path, expected }) => `${path[1]} ${expected.split(':')[0]}`)];
      };
      expect(read({ keepReadable: true })).toEqual([undefined, ['own left out', 'Own left out', 'counts read as bad']]);
      expect(read({ keepReadable: true, tables: [own] })).toEqual([{ own: '7' }, ['Own left out']]);
      expect(read({ tables: [own] })).toEqual([raw.codes, ['Own kept']]);
      expect(read({})).toEqual([raw.codes, ['own kept', 'Own kept']]);
      for (const [tables, parameter] of [
        [own, 'options.tables: received an object, expected an array of class tables'],
        [[own, {}], 'options.tables[1].id: received undefined, expected what classTable takes there'],
        [new Array(1), 'options.tables[0]: received undefined, expected a class table from classTable'],
      ] as const)
        expect(() => schema.parseMonitorReading(raw, [], { tables } as never)).toThrow(parameter);
    });

    test('without it, or with false, one mistake refuses the reading', () => {
      const raw = { time: 1e12, celsius: 41, kPa: 'err' };
      for (const options of [undefined, {}, { keepReadable: false }])
        expect(() => schema.parseMonitorReading(raw, [], options)).toThrow('reading.kPa');
      expect(() => schema.parseMonitorReading(raw, [], { keepReadable: 'yes' } as never)).toThrow(
        "options.keepReadable: received 'yes', expected true or false",
      );
      for (const told of ['x', {}, Object.freeze([])])
        expect(() => schema.parseReading({ kPa: 'err' }, told as never, { keepReadable: true })).toThrow(
          /told: received .+, expected a list that is written to/,
        );
    });
  });

  test('what is far too much is refused at once, and by name', () => {
    const others = Object.fromEntries(Array.from({ length: 100000 }, (_x, i) => [`n${i}`, i]));
    expect(problemsOf(() => schema.parseReading({ others }))).toMatchObject([
      { code: 'out_of_range', path: ['others'] },
    ]);
    const named = problemsOf(() => schema.parseReading({ others: { ['x'.repeat(1e7)]: 1 } }));
    expect(named).toMatchObject([{ code: 'unknown_option' }]);
    expect(JSON.stringify(named).length).toBeLessThan(1000);
    const sizes = Array(100000).fill('x');
    expect(problemsOf(inCounts({ sizes, perMl: sizes }))).toMatchObject([
      { path: ['counts', 'sizes'] },
      { path: ['counts', 'perMl'] },
    ]);
  });

  test('so is a table or a configuration', () => {
    const many = Array(100000).fill('x');
    expect(problemsOf(inTable({ columns: many, classes: many, limits: many }))).toMatchObject([
      { code: 'out_of_range', path: ['columns'] },
      { code: 'out_of_range', path: ['classes'] },
      { code: 'out_of_range', path: ['limits'] },
    ]);
    const entry = { table: iso4406, target: '18/16/13', columns: many };
    expect(problemsOf(inConfig({ codes: [entry], tables: many, alarms: many, follow: many }))).toMatchObject([
      { code: 'out_of_range', path: ['tables'] },
      { code: 'out_of_range', path: ['codes', 0, 'columns'] },
      { code: 'out_of_range', path: ['alarms'] },
      { code: 'out_of_range', path: ['follow'] },
    ]);
    expect(problemsOf(inConfig({ codes: many }))).toMatchObject([{ code: 'out_of_range', path: ['codes'] }]);
    expect(problemsOf(inProof({ columns: many, tables: many }))).toMatchObject([
      { code: 'out_of_range', path: ['tables'] },
      { code: 'out_of_range', path: ['columns'] },
    ]);
  });

  test('of a configuration, told once each; a table that is not sound is not held against the alarms on it', () => {
    const alarms = [{}, { ...alarm, deadband: -1 }, { ...alarm, figure: { code: 'iso4406' }, setpoint: '18/16/13' }];
    const entries = [{ table: { ...iso4406, title: 5 } }, { table: nas1638, target: '13' }];
    const problems = problemsOf(inConfig({ codes: entries, alarms, staleAfterMs: 0, limits: { celsius: { low: 1 } } }));
    expect(problems.map(({ path }) => parameterAt('config', path))).toEqual([
      'config.codes[0].table.title',
      'config.limits.celsius.high',
      'config.alarms[0].id',
      'config.alarms[0].type',
      'config.alarms[0].figure',
      'config.alarms[0].setpoint',
      'config.alarms[1].deadband',
      'config.staleAfterMs',
      'config.codes[1].target',
      'config.alarms[2].id',
    ]);
  });

  test('the error reads as one sentence for a few, and stays short for many', () => {
    expect(inReading({ kPa: 'high', measuringSeconds: -1 })).toThrowError(
      '2 mistakes: reading.measuringSeconds: received -1, expected a measuring time in s, above 0, up to ' +
        '1000000000000; ' +
        "reading.kPa: received 'high', expected a gauge pressure in kPa from -1000000000000 to 1000000000000",
    );
    const many = () => schema.parseReading(Object.fromEntries(Array.from({ length: 900 }, (_x, n) => [`m${n}`, n])));
    expect(problemsOf(many)).toHaveLength(900);
    expect(many).toThrowError(/; and 880 more$/);
  });

  test('the code of the error: the first problem of a reading or a table, bad_configuration of a configuration', () => {
    expect(inReading({ kPa: 'high', measuringSeconds: -1 })).toThrowError(
      expect.objectContaining({ code: 'negative' }),
    );
    expect(inTable({ limits: [] })).toThrowError(expect.objectContaining({ code: 'empty' }));
    expect(inConfig({ limits: 5 })).toThrowError(expect.objectContaining({ code: 'bad_configuration' }));
  });
});

describe('what is accepted', () => {
  test('is plain data: an object that is more is refused, and where it stands is said', () => {
    class Wording {
      a = { 6: 'absent' };
    }
    expect(problemsOf(inTable({ wording: new Wording() }))).toMatchObject([{ code: 'wrong_type', path: ['wording'] }]);
    expect(inTable({ wording: { a: { 6: 'absent' } } })()).toMatchObject({ wording: { a: { 6: 'absent' } } });
  });

  test('is a copy, without the members that are undefined', () => {
    const given = { counts: { ...counts, counted: undefined }, celsius: 41, kPa: undefined };
    const parsed = schema.parseReading(given);
    expect(parsed).toStrictEqual({ counts, celsius: 41 });
    expect(parsed.counts).not.toBe(given.counts);
  });

  test('a solubility line as the library gives it', () => {
    const measured = [
      { celsius: 20, mgPerKg: 190 },
      { celsius: 60, mgPerKg: 720 },
    ];
    for (const solubility of [solubilityLine(measured), mineralInsulatingOil, { b: 1567 }, null]) {
      const config = inConfig({ limits: { solubility } })();
      expect(config).toEqual({ codes, limits: { solubility } });
      expect(startMonitor(config as never)).toBeDefined();
    }
  });

  test('a table is read in time that grows as its columns do', () => {
    let read = 0;
    const columns = Array.from({ length: 2000 }, (_unused, i) => ({
      label: String(i),
      get from() {
        read += 1;
        return { iso11171: i + 1 };
      },
    }));
    expect(tableProblems({ ...own, columns, classes: ['a'], limits: [[]] })).toHaveLength(1);
    expect(read).toBeLessThan(10 * columns.length);
  });

  test('counts that rise with size, which are a finding and no mistake', () => {
    expect(inCounts({ perMl: [1, 2, 3] })()).toMatchObject({ counts: { perMl: [1, 2, 3] } });
  });

  test('tables without notation and source, which are filled in, also within a configuration', () => {
    expect(schema.parseClassTable(own)).toMatchObject({ notation: 'single', source: { document: 'Own' } });
    const config = schema.parseMonitorConfig({ codes: [{ table: own, target: 'a' }] });
    expect(config.codes[0]?.table).toMatchObject({ notation: 'single' });
    expect(inProof({ table: own, target: 'a' })()).toMatchObject({ table: { notation: 'single' }, readings: 3 });
  });

  test('gives a value to Standard Schema; what is refused gives issues with paths', () => {
    const { validate, ...about } = schema.readingSchema['~standard'];
    expect(about).toEqual({ version: 1, vendor: 'motescale' });
    expect(validate({ counts })).toEqual({ value: { counts } });
    expect(validate({ counts, kPa: 'high' })).toEqual({
      issues: [
        {
          path: ['kPa'],
          message:
            "reading.kPa: received 'high', expected a gauge pressure in kPa from -1000000000000 to 1000000000000",
        },
      ],
    });
    expect(schema.classTableSchema['~standard'].validate(5).issues).toHaveLength(1);
    expect(schema.monitorConfigSchema['~standard'].validate({ codes })).toEqual({ value: { codes } });
    const proof = { table: iso4406, target: '18/16/13', readings: 3 };
    expect(schema.acceptanceConfigSchema['~standard'].validate(proof)).toEqual({ value: proof });
    expect(schema.acceptanceConfigSchema['~standard'].validate({ ...proof, readings: 1 }).issues).toHaveLength(1);
    const reading = { time: 1772323200000, counts, litres: 5 };
    expect(schema.acceptanceReadingSchema['~standard'].validate(reading)).toEqual({ value: reading });
    expect(schema.acceptanceReadingSchema['~standard'].validate({ ...reading, litres: 'five' }).issues).toHaveLength(1);
  });
});

describe('beside other users of zod', () => {
  test('their messages do not replace ours, and their settings stay as they were', () => {
    const { customError } = z.config();
    try {
      z.config({ customError: () => 'theirs' });
      const before = { ...z.config() };
      for (const [, , run] of cases) for (const { expected } of problemsOf(run)) expect(expected).not.toBe('theirs');
      expect(z.config()).toEqual(before);
    } finally {
      z.config({ customError });
    }
  });
});

describe('under a strict content-security policy', () => {
  test('no code is made from texts, not even tried', () => {
    const folder = mkdtempSync(join(tmpdir(), 'motescale-'));
    try {
      const entryPoints = ['src/schema/index.ts'];
      buildSync({ entryPoints, bundle: true, format: 'cjs', platform: 'node', outfile: join(folder, 'schema.cjs') });
      writeFileSync(
        join(folder, 'run.cjs'),
        `let tried = 0;
        const note = (target, args) => { tried += 1; return Reflect.construct(target, args); };
        const apply = (target, _this, args) => note(target, args);
        globalThis.Function = new Proxy(Function, { construct: note, apply });
        let refused = false;
        try { new Function('return 1'); } catch { refused = true; }
        const control = tried;
        const schema = require('./schema.cjs');
        const counts = ${JSON.stringify(counts)};
        const reading = schema.parseReading({ counts });
        const config = schema.parseMonitorConfig(${JSON.stringify({ codes, alarms: [alarm] })});
        const table = schema.parseClassTable(${JSON.stringify(own)});
        let problems = 0;
        try { schema.parseReading({ counts, kPa: 'high' }); } catch (error) { problems = error.problems.length; }
        console.log(JSON.stringify({ refused, control, tried: tried - control, problems,
          zod: globalThis.__zod_globalConfig,
          same: reading.counts.sizes.length + config.alarms.length + table.classes.length }));`,
      );
      const args = ['--disallow-code-generation-from-strings', join(folder, 'run.cjs')];
      const said = JSON.parse(execFileSync(process.execPath, args, { encoding: 'utf8' }));
      expect(said).toEqual({ refused: true, control: 1, tried: 0, problems: 1, zod: {}, same: 6 });
    } finally {
      rmSync(folder, { recursive: true });
    }
  });
});
