/** An alarm of a monitor that could never be raised, or never return, is refused; nothing else is. */
import { describe, expect, test } from 'vitest';
import { type ClassTable, iso4406, nas1638 } from '../../../src/codes/index.ts';
import { problemsOf } from '../../../src/errors.ts';
import { advanceMonitor, type FigureAlarm, prepareMonitor, startMonitor } from '../../../src/monitor/index.ts';
import type { OwnReadingLimits, TimedReading } from '../../../src/reading/index.ts';

type Asked = readonly [type: FigureAlarm['type'], figure: FigureAlarm['figure'], setpoint: number, deadband?: number];

const quantity = (name: 'mlPerMin' | 'kPa' | 'celsius' | 'mm2PerS' | 'waterSaturation') => ({ quantity: name });

function mistakesOf([type, figure, setpoint, deadband = 0]: Asked, limits: OwnReadingLimits = {}): string[] {
  const change = type === 'rise' || type === 'fall' ? { withinMs: 3600000 } : {};
  try {
    prepareMonitor({ codes: [], limits, alarms: [{ id: 'a', type, figure, setpoint, deadband, ...change }] });
  } catch (error) {
    return problemsOf(error).map(({ path, expected }) => `${path.slice(2).join('.')}: ${expected}`);
  }
  return [];
}

describe('refused', () => {
  test.each<[Asked, string]>([
    [['low', quantity('mlPerMin'), 0], 'setpoint: a setpoint above 0 and below 1000000000000'],
    [['low', quantity('mlPerMin'), -5], 'setpoint: a setpoint above 0'],
    [['high', quantity('mlPerMin'), 0], 'setpoint: a setpoint above 0'],
    ...[1, 1.5, 2].map((setpoint): [Asked, string] => [
      ['high', quantity('waterSaturation'), setpoint],
      'setpoint: a setpoint above 0 and below 1, within what the figure can be',
    ]),
    [['low', quantity('waterSaturation'), 1], 'setpoint: a setpoint above 0 and below 1'],
    [['rise', quantity('waterSaturation'), 1.1], 'setpoint: an amount up to 1, as far as the figure can change'],
    [['high', quantity('waterSaturation'), 80], 'setpoint: a share, 0.45 for 45 %'],
    [['low', quantity('waterSaturation'), 0.1, 0.9], 'deadband: a deadband below 0.9, so that the alarm can return'],
    [['high', quantity('celsius'), 338.15], 'setpoint: a setpoint above -80 and below 250'],
    [['high', quantity('celsius'), 1500], 'setpoint: a setpoint above -80 and below 250'],
    [['high', quantity('celsius'), 250], 'setpoint: a setpoint above -80 and below 250'],
    [['low', quantity('celsius'), -300], 'setpoint: a setpoint above -80 and below 250'],
    [['low', quantity('celsius'), -80], 'setpoint: a setpoint above -80 and below 250'],
    [['high', quantity('celsius'), 65, 145], 'deadband: a deadband below 145, so that the alarm can return'],
    [['rise', quantity('celsius'), 331], 'setpoint: an amount up to 330, as far as the figure can change'],
    [['low', quantity('kPa'), -101.325], 'setpoint: a setpoint above -101.325 and below 1000000'],
    [['high', quantity('mm2PerS'), 400, 500], 'deadband: a deadband below 399.8, so that the alarm can return'],
    [['high', quantity('mm2PerS'), 0.2], 'setpoint: a setpoint above 0.2 and below 20000000'],
    [['high', { perMlAt: 6 }, 0], 'setpoint: a setpoint above 0 and below 1000000000000'],
    [['low', { perMlAt: 6 }, 0], 'setpoint: a setpoint above 0'],
    [['low', { scaleNumberAt: 6 }, 0], 'setpoint: a setpoint above 0 and below 29'],
    [['high', { scaleNumberAt: 6 }, 29], 'setpoint: a setpoint above 0 and below 29'],
    [['high', { scaleNumberAt: 6 }, 16, 17], 'deadband: a deadband below 16.5'],
    [['low', { continuousScaleNumberAt: 6 }, -1], 'setpoint: a setpoint above -1 and below 48'],
    [['high', { other: 'x' }, 1e12], 'setpoint: a setpoint above -1000000000000 and below 1000000000000'],
  ])('%j', (asked, expected) => {
    expect(mistakesOf(asked)).toEqual([expect.stringContaining(expected)]);
  });

  test('as out of range', () => {
    const hot = { id: 'a', figure: quantity('celsius') };
    for (const alarm of [
      { ...hot, type: 'high' as const, setpoint: 250 },
      { ...hot, type: 'high' as const, setpoint: 65, deadband: 145 },
      { ...hot, type: 'rise' as const, setpoint: 331, withinMs: 3600000 },
    ])
      expect(() => prepareMonitor({ codes: [], alarms: [alarm] })).toThrow(
        expect.objectContaining({ problems: [expect.objectContaining({ code: 'out_of_range' })] }),
      );
  });

  test('with the path to it, as a mistake of the configuration', () => {
    const alarm = { id: 'hot', type: 'high', figure: quantity('celsius'), setpoint: 338.15 } as const;
    expect(() => prepareMonitor({ codes: [], alarms: [{ ...alarm, setpoint: 65, id: 'b' }, alarm] })).toThrow(
      expect.objectContaining({
        code: 'bad_configuration',
        message: expect.stringContaining('config.alarms[1].setpoint'),
      }),
    );
  });
});

describe('taken, raised and returned', () => {
  const read = (figure: FigureAlarm['figure'], value: number): Partial<TimedReading> => {
    if ('quantity' in figure) return { [figure.quantity]: value };
    if ('other' in figure) return { others: { [figure.other]: value } };
    return {};
  };
  test.each<[Asked, OwnReadingLimits, number, number]>([
    [['low', quantity('mlPerMin'), 0.001], {}, 0, 1],
    [['high', quantity('mlPerMin'), 0.001], {}, 0.002, 0],
    [['high', quantity('waterSaturation'), 0.99], {}, 1, 0],
    [['high', quantity('waterSaturation'), 0.99], {}, 2, 0],
    [['low', quantity('waterSaturation'), 0.1, 0.89], {}, 0, 1],
    [['high', quantity('celsius'), 249, 300], {}, 249.5, -80],
    [['low', quantity('celsius'), -79], {}, -80, -78],
    [['high', quantity('celsius'), 338.15], { plausibleCelsius: { low: 0, high: 400 } }, 339, 338],
    [['high', quantity('celsius'), 999], { plausibleCelsius: null }, 1000, 998],
    [['low', quantity('kPa'), -101], {}, -101.325, 0],
    [['low', quantity('kPa'), -500], { plausibleKPa: null }, -501, 0],
    [['high', quantity('mm2PerS'), 400, 399.7], {}, 401, 0.2],
    [['high', { other: 'x' }, -5, 1e11], {}, 0, -1e12],
  ])('%j', (asked, limits, beyond, back) => {
    const [type, figure, setpoint, deadband = 0] = asked;
    const prepared = prepareMonitor({ codes: [], limits, alarms: [{ id: 'a', type, figure, setpoint, deadband }] });
    const first = advanceMonitor(prepared, startMonitor(prepared), { time: 0, ...read(figure, beyond) });
    expect(first.events.map(({ event }) => event)).toContain('raised');
    const second = advanceMonitor(prepared, first.state, { time: 60000, ...read(figure, back) });
    expect(second.events.map(({ event }) => event)).toContain('returned');
  });

  test('scale numbers from end to end', () => {
    for (const figure of [{ scaleNumberAt: 6 }, { continuousScaleNumberAt: 6 }] as const) {
      for (let setpoint = 1; setpoint < 29; setpoint += 1)
        for (const type of ['high', 'low'] as const) expect(mistakesOf([type, figure, setpoint, 0.5])).toEqual([]);
      expect(mistakesOf(['high', figure, 0])).toEqual([]);
    }
    expect(mistakesOf(['low', { scaleNumberAt: 6 }, 29])).toEqual([]);
    expect(mistakesOf(['rise', { scaleNumberAt: 6 }, 29])).toEqual([]);
    // from -80 to 250 °C
    expect(mistakesOf(['rise', quantity('celsius'), 330])).toEqual([]);
    expect(mistakesOf(['fall', quantity('celsius'), 330])).toEqual([]);
  });
});

/**
 * Derivation: the value is the greatest of class less class wanted, at least that of the cleanest class, and returns
 * below the deadband with its sign turned: no further than the smallest of the classes wanted lies above the cleanest.
 */
describe('an alarm on a code', () => {
  const codeAlarm = (table: ClassTable, setpoint: string, deadband: number) =>
    prepareMonitor({
      codes: [{ table }],
      alarms: [{ id: 'd', type: 'high', figure: { code: table.id }, setpoint, deadband }],
    });

  test.each([
    [nas1638, '00', 0],
    [nas1638, '2', 3],
    [iso4406, '0/0/0', 0],
    [iso4406, '5/5/5', 5],
    [iso4406, '18/16/13', 13],
    [iso4406, '-/16/13', 13],
    [iso4406, '18/16/-', 16],
  ])('$0.id with setpoint $1 returns with a deadband up to $2', (table, setpoint, most) => {
    const prepared = codeAlarm(table, setpoint, most);
    const [dirtiest, cleanest] = table === nas1638 ? ['12', '00'] : ['28/28/28', '0/0/0'];
    let state = startMonitor(prepared);
    const told: string[] = [];
    for (const [time, code] of [dirtiest, cleanest].entries()) {
      const step = advanceMonitor(prepared, state, { time, codes: { [table.id]: code } });
      state = step.state;
      told.push(...step.events.map(({ event }) => event));
    }
    expect(told).toEqual(['raised', 'returned']);
    const expected = `a deadband below ${most + 0.5}, so that the alarm can return`;
    let found: unknown;
    try {
      codeAlarm(table, setpoint, most + 1);
    } catch (error) {
      found = problemsOf(error).map((one) => [one.path.join('.'), one.code, one.expected]);
    }
    expect(found).toEqual([['alarms.0.deadband', 'out_of_range', expected]]);
  });
});
