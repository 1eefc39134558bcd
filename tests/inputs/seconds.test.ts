/** A time in seconds beside a host's clock in milliseconds is refused by name; without that clock nothing is known. */
import { describe, expect, test } from 'vitest';
import { problemsOf } from '../../src/errors.ts';
import { advanceMonitor, prepareMonitor, startMonitor } from '../../src/monitor/index.ts';
import { assessReading } from '../../src/reading/index.ts';
import { isInSeconds, looksLikeSeconds } from '../../src/reading/seconds.ts';
import { parseMonitorReading } from '../../src/schema/index.ts';

const prepared = prepareMonitor({
  codes: [],
  alarms: [{ id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 65 }],
});
const take = (reading: object) => advanceMonitor(prepared, startMonitor(prepared), reading as never);
const seconds = 1795852800;

describe('a time in seconds', () => {
  test.each([seconds * 1000, seconds * 1009, seconds * 991])('beside receivedAt %d is refused', (receivedAt) => {
    const refusal = {
      code: 'out_of_range',
      parameter: 'input.time',
      expected: expect.stringContaining('looks like seconds'),
    };
    expect(() => take({ time: seconds, receivedAt, celsius: 40 })).toThrowError(expect.objectContaining(refusal));
  });

  test('is told in the words of parseMonitorReading, beside other mistakes', () => {
    const expectedOf = (call: () => unknown) => {
      try {
        call();
      } catch (error) {
        return problemsOf(error).map(({ path, expected }) => [path.join('.'), expected]);
      }
      return [];
    };
    const reading = { time: seconds, receivedAt: seconds * 1000, celsius: 4000 };
    const told = expectedOf(() => take(reading));
    expect(told.map(([path]) => path)).toEqual(['celsius', 'time']);
    expect(told).toEqual(expectedOf(() => parseMonitorReading(reading)));
    expect(expectedOf(() => assessReading(reading as never))).toEqual(told);
  });

  test('is taken where the host tells no time, or another one', () => {
    for (const beside of [{}, { receivedAt: seconds * 1011 }, { receivedAt: seconds * 989 }, { receivedAt: seconds }])
      expect(take({ time: seconds, celsius: 40, ...beside }).verdict?.time).toBe(seconds);
    expect(take({ time: 60000, receivedAt: 60000000, celsius: 40 }).verdict?.time).toBe(60000);
  });
});

test('the bounds of what looks like seconds', () => {
  expect([99999999, 1e8].map(looksLikeSeconds)).toEqual([false, true]);
  const of = (time: unknown, receivedAt: unknown) => isInSeconds({ time, receivedAt });
  expect(of(1e8, 1e11)).toBe(true);
  expect(of(99999999, 99999999000)).toBe(false);
  expect(of(99999999999, 99999999999000)).toBe(true);
  expect(of(1e11, 1e14)).toBe(false);
  expect([989, 990, 1010, 1011].map((times) => of(1e9, 1e9 * times))).toEqual([false, true, true, false]);
  expect([of('1e9', 1e12), of(1e9, '1e12'), of(undefined, 1e12), of(1e9, undefined)]).toEqual(Array(4).fill(false));
  expect([isInSeconds(null), isInSeconds(7), isInSeconds([])]).toEqual([false, false, false]);
});
