/** What is said of a configuration, a state and an input that cannot be taken: each mistake, in its own words. */
import { describe, expect, test } from 'vitest';
import { iso4406, nas1638 } from '../../../src/codes/index.ts';
import { problemsOf } from '../../../src/errors.ts';
import { advanceMonitor, prepareMonitor, resumeMonitor, startMonitor, startUnit } from '../../../src/monitor/index.ts';
import { expectRefused } from '../../inputs/refused.ts';

const hot = { id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 65 } as const;
const code = { id: 'code', type: 'high', figure: { code: 'iso4406' }, setpoint: '18/16/13' } as const;

function problems(config: object): string[] {
  try {
    prepareMonitor({ codes: [], ...config } as never);
  } catch (error) {
    return problemsOf(error).map((one) => `${one.code} ${one.path.join('.')}: ${one.expected}`);
  }
  return [];
}

describe('of a configuration', () => {
  test.each<[string, object, string[]]>([
    ['no alarm', { alarms: [5] }, ['wrong_type alarms.0: an alarm { id, figure, type, setpoint }']],
    ['a figure that is none', { alarms: [{ ...hot, figure: 5 }] }, ['wrong_type alarms.0.figure: a figure']],
    [
      'two of them',
      { alarms: [{ ...hot, figure: { quantity: 'kPa', other: 'x' } }] },
      ['unknown_option alarms.0.figure'],
    ],
    [
      'a code of another type',
      { codes: [{ table: iso4406 }], alarms: [{ ...code, type: 'low' }] },
      ["unknown_option alarms.0.type: 'high' (for a code)"],
    ],
    [
      'a code that is no name',
      { codes: [{ table: iso4406 }], alarms: [{ ...code, figure: { code: 5 } }] },
      ['wrong_type alarms.0.figure.code: the id of a table in config.codes'],
    ],
    [
      'a setpoint that is no code',
      { codes: [{ table: iso4406 }], alarms: [{ ...code, setpoint: 5 }] },
      ['wrong_type alarms.0.setpoint: a code of the table'],
    ],
    ['tables that are no list', { tables: 5 }, ['wrong_type tables: class tables']],
    [
      'an amount that is none',
      { follow: [{ id: 'x', figure: { other: 'x' }, least: 'much' }] },
      ['wrong_type follow.0.least: an amount in the unit of the figure'],
    ],
    [
      'ids that are missing',
      {
        alarms: [
          { ...hot, id: undefined },
          { ...hot, id: undefined },
        ],
      },
      ['wrong_type alarms.0.id', 'wrong_type alarms.1.id'],
    ],
    [
      'limits that contradict each other, beside a target that cannot be read',
      { codes: [{ table: iso4406, target: 'x' }], limits: { celsius: { low: 9, high: 3 } } },
      ['bad_code codes.0.target', 'out_of_range limits.celsius'],
    ],
    [
      'too much for its space',
      { alarms: [hot], maxStateBytes: 9 },
      ['out_of_range : alarms and followed figures whose state fits 9 bytes'],
    ],
  ])('%s', (_what, config, expected) => {
    const found = problems(config);
    expect(found).toHaveLength(expected.length);
    found.forEach((one, i) => {
      expect(one.startsWith(expected[i] as string), `${one}, not ${expected[i]}`).toBe(true);
    });
  });

  test('a size that two alarms need is needed once', () => {
    const alarm = (id: string, size: number) => ({ ...hot, id, figure: { perMlAt: size } }) as const;
    const alarms = [alarm('a', 4), alarm('b', 4), alarm('c', 6), alarm('d', 4)];
    expect(prepareMonitor({ codes: [], alarms }).needed).toEqual([4, 6]);
  });
});

describe('of a unit', () => {
  const prepared = prepareMonitor({ codes: [] }, { configuration: 'first' });

  test('what is missing or misspelt is named', () => {
    expectRefused('unknown_option', 'unit.units', "'unit', 'configuration'", () =>
      startUnit(prepared, { unit: 'gate', units: 1 } as never),
    );
    expectRefused('wrong_type', 'unit.configuration', 'a name', () =>
      startUnit(prepared, { unit: 'gate', configuration: 7 } as never),
    );
  });
});

describe('of a state', () => {
  const prepared = prepareMonitor({ codes: [], follow: [{ id: 'kept', figure: { other: 'x' } }] });
  const { state } = advanceMonitor(prepared, startMonitor(prepared), { time: 0, others: { x: 1 } });

  test('a figure under another name begins anew, and the old one is named', () => {
    const renamed = prepareMonitor({ codes: [], follow: [{ id: 'new', figure: { other: 'x' } }] });
    expect(resumeMonitor(renamed, state)).toMatchObject({ kept: [], dropped: ['kept'], added: ['new'] });
  });

  test('a lag that is none', () => {
    expectRefused('bad_state', 'state.lagMs', 'whole milliseconds', () =>
      resumeMonitor(prepared, { ...state, lagMs: 'late' }),
    );
  });
});

describe('of a reading', () => {
  test('one that says that it is a reading is one', () => {
    const prepared = prepareMonitor({ codes: [{ table: nas1638 }], alarms: [hot] });
    const { verdict, events } = advanceMonitor(prepared, startMonitor(prepared), {
      kind: 'reading',
      time: 0,
      celsius: 70,
    });
    expect([verdict?.arrival, events.map(({ event }) => event)]).toEqual(['in_order', ['raised']]);
  });

  test('of a figure that turns bad an uncertain finding is not named', () => {
    const prepared = prepareMonitor({ codes: [], limits: { mlPerMin: { low: 50, high: 150 } } });
    const counts = { sizing: 'iso11171', sizes: [4, 6], perMl: [90, 40] } as const;
    const reading = { time: 0, counts, mlPerMin: 0, qualities: { counts: 'uncertain' } } as const;
    const { events, verdict } = advanceMonitor(prepared, startMonitor(prepared), reading);
    expect(verdict?.findings.map((one) => one.code)).toEqual(
      expect.arrayContaining(['no_flow', 'flagged_by_instrument']),
    );
    expect(events.filter(({ event }) => event === 'quality_bad')).toMatchObject([{ findings: ['no_flow'] }]);
  });
});
