/**
 * A code under a misspelt id is refused by what has the tables, and told by what has not.
 */
import { describe, expect, test } from 'vitest';
import { advanceAcceptance, prepareAcceptance, startAcceptance } from '../../src/acceptance/index.ts';
import { classTable, iso4406, standardTables } from '../../src/codes/index.ts';
import { problemsOf } from '../../src/errors.ts';
import { advanceMonitor, prepareMonitor, startMonitor } from '../../src/monitor/index.ts';
import { standardIds } from '../../src/reading/tableIds.ts';
import { type Problem, parseMonitorReading } from '../../src/schema/index.ts';

const own = classTable({ ...iso4406, id: 'lockGates', title: 'Lock gates' });
const monitor = prepareMonitor({ codes: [{ table: iso4406, target: '18/16/13' }] }, { tables: [own] });
const proof = prepareAcceptance({ table: iso4406, target: '18/16/13', readings: 2 });
const read = (codes: Record<string, string>) =>
  advanceMonitor(monitor, startMonitor(monitor), { time: 1e12, codes, celsius: 41 });

test('the ids known by name are those of the standard tables', () => {
  expect(standardIds).toEqual(standardTables.map(({ id }) => id));
});

describe('a code under an id', () => {
  test('of no table is refused, and the ids are named', () => {
    let error: unknown;
    try {
      read({ iso4460: '22/21/20' });
    } catch (thrown) {
      error = thrown;
    }
    expect(error).toMatchObject({ code: 'unknown_option', parameter: 'input.codes.iso4460' });
    expect((error as Error).message).toContain("'iso4406'");
    expect((error as Error).message).toContain("'lockGates'");
    expect(problemsOf(error)).toMatchObject([{ path: ['codes', 'iso4460'] }]);
    const proved = () =>
      advanceAcceptance(proof, startAcceptance(proof), { time: 1e12, codes: { lockGates: '9/8/7' } });
    expect(proved).toThrow('reading.codes.lockGates');
  });

  test('of a standard or of a table handed in is taken', () => {
    expect(read({ nas1638: '7' }).verdict).not.toBeNull();
    expect(read({ lockGates: '18/16/13', iso4406: '18/16/13' }).verdict?.codes[0]?.text).toBe('18/16/13');
  });

  test('that no standard has is kept and told where no tables are known', () => {
    const told: Problem[] = [];
    const codes = { iso4406: '18/16/13', lockGates: '18/16/13' };
    expect(parseMonitorReading({ time: 1e12, codes }, told)).toEqual({ time: 1e12, codes });
    expect(told).toMatchObject([{ code: 'unknown_option', path: ['codes', 'lockGates'] }]);
  });

  test('that names a standard is refused with the id that is meant', () => {
    for (const name of ['ISO 4406', 'ISO 4406:2021', 'iso-4406'])
      expect(() => read({ [name]: '22/21/20' })).toThrow(
        `input.codes.${name}: received '${name}', expected 'iso4406', one`,
      );
    expect(() => read({ GOST: '9' })).toThrow("expected one of 'iso4406'");
  });
});

describe('a code under the name of a standard, as readings of a report have it', () => {
  const keeps = { keepReadable: true };
  const parsedAs = (codes: object, options: object = keeps) => {
    const told: Problem[] = [];
    const { codes: found, qualities } = parseMonitorReading({ time: 1e12, celsius: 41, codes }, told, options);
    return { found, qualities, told: told.map(({ path, expected }) => `${path.join('.')} ${expected.split(':')[0]}`) };
  };

  test.each<[string, string, string, string]>([
    ['ISO 4406', '22/20/17', 'iso4406', '22/20/17'],
    ['ISO 4406:2021', '-/16/13', 'iso4406', '-/16/13'],
    ['iso', '15/12', 'iso4406Microscope', '15/12'],
    ['NAS 1638', '8', 'nas1638', '8'],
    ['GOST 17216', '9', 'gost17216', '9'],
    ['SAE AS4059 Table 1', '7', 'as4059Differential', '7'],
    ['SAE AS4059 Table 2', '7B/6C/5D', 'as4059Cumulative', '7B/6C/5D'],
    ['IEST-STD-CC1246 particle levels', '300', 'cc1246', '300'],
    ['Gates', '9/8/7', 'lockGates', '9/8/7'],
  ])('%s %s is read as %s, and told', (name, code, id, found) => {
    const tables = [{ ...own, standard: 'Gates' }];
    for (const options of [{ tables }, { tables, ...keeps }])
      expect(parsedAs({ [name]: code }, options)).toEqual({
        found: { [id]: found },
        qualities: undefined,
        told: [`codes.${name} read as ${id}`],
      });
  });

  test('a monitor judges it', () => {
    const alarms = [{ id: 'dirty', type: 'high', figure: { code: 'iso4406' }, setpoint: '18/16/13' }] as const;
    const prepared = prepareMonitor({ codes: [{ table: iso4406 }], alarms });
    const reading = parseMonitorReading({ time: 1e12, codes: { 'ISO 4406': 'ISO 22/20/17' } }, [], keeps);
    expect(advanceMonitor(prepared, startMonitor(prepared), reading).events).toMatchObject([{ event: 'raised' }]);
  });

  test('the id itself goes before it', () => {
    const { found, qualities } = parsedAs({ 'ISO 4406': '22/20/17', iso4406: '18/16/13' });
    expect([found, qualities]).toEqual([{ iso4406: '18/16/13' }, undefined]);
  });

  test.each([
    // what no table reads, a name that two standards have, and one that nobody knows
    { 'ISO 4406': 'ERR' },
    { 'SAE AS4059': '7' },
    { colour: 'brown' },
  ])('one that cannot be read is bad, and not lost in silence: %j', (codes) => {
    const { found, qualities, told } = parsedAs(codes);
    expect([found, qualities]).toEqual([undefined, { counts: 'bad' }]);
    expect(told[told.length - 1]).toBe('qualities.counts read as bad');
  });
});
