/** A time in seconds beside a host's clock in milliseconds is refused by name; without that clock nothing is known. */
import { describe, expect, test } from 'vitest';
import { problemsOf } from '../../src/errors.ts';
import { germanTexts } from '../../src/german/index.ts';
import {
  advanceMonitor,
  advanceUnit,
  type MonitorEvent,
  prepareMonitor,
  startMonitor,
  startUnit,
  type UnitPayload,
} from '../../src/monitor/index.ts';
import { assessReading } from '../../src/reading/index.ts';
import { isInSeconds, looksLikeSeconds } from '../../src/reading/seconds.ts';
import { messageOf } from '../../src/report/index.ts';
import { earliestWritten, latestWritten } from '../../src/rules/bounds.ts';
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
    expect(told.map(([path]) => path)).toEqual(['time', 'celsius']);
    expect(told).toEqual(expectedOf(() => parseMonitorReading(reading)));
    expect(expectedOf(() => assessReading(reading as never))).toEqual(told);
  });

  test('a clock that began at 1970 is named first where a reading is refused, and refuses none by itself', () => {
    const receivedAt = seconds * 1000;
    const raw = { time: 60000, receivedAt, counts: { sizing: 'iso11171', sizes: [4], counted: [100], volumeMl: 10 } };
    const { events } = advanceUnit(prepared, startUnit(prepared, { unit: 'gate 3' }), {
      seq: 1,
      payload: raw as never,
    });
    expect(events[0]).toMatchObject({
      event: 'rejected',
      time: receivedAt,
      parameter: 'input.time',
      received: '60000',
    });
    expect((events[0] as { expected: string }).expected).toMatch(/began at 1970; and beside it input.counts.perMl/);
    const parsed = () => parseMonitorReading({ ...raw, counts: undefined, celsius: 4000 });
    expect(parsed).toThrowError(
      expect.objectContaining({ problems: [{ path: ['time'] }, {}].map((one) => expect.objectContaining(one)) }),
    );
    expect(take({ time: 60000, receivedAt, celsius: 40 }).verdict?.time).toBe(60000);
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

describe('a time that no text can write', () => {
  const looks = expect.stringContaining('looks like microseconds');
  const range = expect.stringContaining(`from ${earliestWritten} to ${latestWritten}`);
  const refusal = (code: string, parameter: string, expected: unknown) =>
    expect.objectContaining({ code, parameter, expected });

  test.each([
    [{ time: seconds * 1e6 }, 'input.time', looks],
    [{ time: 4e14 }, 'input.time', looks],
    [{ time: -7e13 }, 'input.time', range],
    [{ time: latestWritten + 1 }, 'input.time', looks],
    [{ time: 8.64e17 }, 'input.time', range],
    [{ time: seconds * 1000, receivedAt: seconds * 1e6 }, 'input.receivedAt', looks],
    [{ kind: 'tick', time: seconds * 1e6 }, 'input.time', range],
    [{ kind: 'command', command: 'reset', alarm: 'hot', time: seconds * 1e6 }, 'input.time', range],
    [{ kind: 'relearn', time: seconds * 1e6 }, 'input.time', range],
  ])('%j is refused', (input, parameter, expected) => {
    const reading = 'kind' in input ? input : { ...input, celsius: 40 };
    expect(() => take(reading)).toThrowError(refusal('out_of_range', parameter, expected));
    if ('kind' in input) return;
    const name = parameter.slice('input.'.length);
    const problem = { path: [name], code: 'out_of_range', expected };
    expect(() => parseMonitorReading(reading)).toThrowError(
      expect.objectContaining({ problems: [expect.objectContaining(problem)] }),
    );
  });

  test('a record is not stuck: the input is rejected, and its event has words', () => {
    const payloads: UnitPayload[] = [
      { time: seconds * 1e6, celsius: 70 },
      { kind: 'configuration', configuration: 'x', time: seconds * 1e6 },
      { time: seconds * 1000, celsius: 70 },
    ];
    let record = startUnit(prepared, { unit: 'lower gate' });
    const told = payloads.map((payload, i) => {
      const step = advanceUnit(prepared, record, { seq: i + 1, payload });
      record = step.record;
      return [step.outcome, ...step.events.map((event) => messageOf(event).line)];
    });
    expect(told[0]?.[0]).toBe('rejected');
    expect(told[0]?.[1]).toContain('this looks like microseconds');
    expect(told[1]?.[0]).toBe('rejected');
    expect(told[2]).toEqual(['accepted', 'hot: alarm raised. Temperature is 70 °C, beyond 65 °C.']);
  });

  test('in a state of before, every event has words all the same', () => {
    const state = {
      ...startMonitor(prepared),
      time: seconds * 1e6,
      heard: seconds * 1e6,
      recent: [[seconds * 1e6, 1] as const],
    };
    const { events } = advanceMonitor(prepared, state, { time: seconds * 1000, celsius: 40 });
    const [late] = events as [MonitorEvent];
    const { time } = late;
    expect(time).toBe(seconds * 1e6);
    expect(messageOf(late, undefined, { utcOffsetMinutes: (at) => (at < latestWritten ? 60 : Number.NaN) })).toEqual({
      subject: 'Late reading',
      line: 'Late reading. The reading of 2026-11-28 09:00 came after a newer one.',
      paragraph: 'Late reading. The reading of 2026-11-28 09:00 came after a newer one. Time: unknown.',
    });
    expect(messageOf(late, germanTexts).paragraph).toMatch(/Zeit: unbekannt[.]$/);
    for (const no of [undefined, '0', Number.NaN])
      expect(() => messageOf({ ...late, time: no } as never)).toThrowError(
        expect.objectContaining({ parameter: 'event.time' }),
      );
  });
});
