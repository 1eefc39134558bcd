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
});
