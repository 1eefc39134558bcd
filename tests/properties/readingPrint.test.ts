/** Figures no monitor could keep are refused at its door, and any changed figure, size or name makes a repeated reading a contradicted one. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { iso4406 } from '../../src/codes/index.ts';
import { cumulativeCounts } from '../../src/counts/index.ts';
import {
  advanceMonitor,
  type MonitorConfig,
  type MonitorReading,
  mostStateBytes,
  startMonitor,
} from '../../src/monitor/index.ts';
import { stateBytes } from '../../src/monitor/monitorConfig.ts';

const codes = [{ table: iso4406 }];
const minute = 60000;
const counted = (perMl: Readonly<Record<number, number>>) => cumulativeCounts(perMl, { volumeMl: 1 });
const base: MonitorReading = {
  time: 0,
  counts: counted({ 4: 1000, 6: 400, 14: 50 }),
  kPa: 800,
  others: { a: 1, b: 2 },
};

function again(first: MonitorReading, second: MonitorReading): string | undefined {
  const { state } = advanceMonitor({ codes }, startMonitor({ codes }), first);
  return advanceMonitor({ codes }, state, second).events[0]?.event;
}

describe('repeated or contradicted', () => {
  test('changes whose sums cancel, other sizes and other names contradict', () => {
    expect(again(base, { ...base })).toBe('repeated');
    expect(again(base, { ...base, counts: counted({ 4: 1001, 6: 398, 14: 51 }) })).toBe('contradicted');
    expect(again(base, { ...base, counts: counted({ 4: 1000, 6: 400, 21: 50 }) })).toBe('contradicted');
    expect(again(base, { ...base, others: { a: 1, c: 2 } })).toBe('contradicted');
    expect(again(base, { ...base, others: { a: 2, b: 1 } })).toBe('contradicted');
    expect(again(base, { ...base, others: { b: 2, a: 1 } })).toBe('repeated');
  });

  test('small whole changes of any counts contradict', () => {
    const change = fc.integer({ min: -20, max: 20 });
    fc.assert(
      fc.property(change, change, change, (a, b, c) => {
        const other = { ...base, counts: counted({ 4: 1000 + a, 6: 400 + b, 14: 50 + c }) };
        expect(again(base, other)).toBe(a === 0 && b === 0 && c === 0 ? 'repeated' : 'contradicted');
      }),
      { numRuns: 1000 },
    );
  });

  test('any other figure or name contradicts, to the last bit', () => {
    const figure = fc.oneof(
      fc.double({ min: -1e12, max: 1e12, noNaN: true }),
      fc.constantFrom(1, 1 + 2 ** -52, 2 ** 32, 2 ** 32 + 1, 5e-324, 1e-300, 0, -1),
    );
    fc.assert(
      fc.property(figure, figure, fc.string({ maxLength: 8 }), fc.string({ maxLength: 8 }), (x, y, n, m) => {
        const event = again({ ...base, others: { [`o${n}`]: x } }, { ...base, others: { [`o${m}`]: y } });
        expect(event).toBe(n === m && x === y ? 'repeated' : 'contradicted');
      }),
      { numRuns: 1000 },
    );
  });
});

describe('the door', () => {
  const config: MonitorConfig = {
    codes,
    follow: [{ id: 'p', figure: { quantity: 'kPa' }, blockMs: minute, blocks: 8, learn: 5 }],
  };

  test('a quantity beyond 1e12 is refused by name, and the state goes on', () => {
    for (const name of ['kPa', 'mm2PerS', 'mlPerMin', 'celsius'] as const) {
      for (const figure of [1.7e308, 1e61, 1.001e12]) {
        const state = startMonitor(config);
        const expected = expect.objectContaining({ code: 'out_of_range', parameter: `reading.${name}` });
        expect(() => advanceMonitor(config, state, { ...base, [name]: figure })).toThrow(expected);
        expect(advanceMonitor(config, state, base).verdict?.arrival).toBe('in order');
      }
    }
  });

  test('blocks of small negative figures keep within their bytes', () => {
    const one = (blocks: number): MonitorConfig => ({
      codes,
      follow: [{ id: 'p', figure: { other: 'x' }, blockMs: minute, blocks, learn: 5 }],
    });
    const bytesOf = (of: MonitorConfig) => {
      let state = startMonitor(of);
      for (let i = 0; i < 70; i += 1) {
        const counts = counted({ 4: 1000 + i, 6: 400, 14: 50 });
        const x = -(1.234561 + i / 1e5) / 1e6;
        state = advanceMonitor(of, state, { ...base, time: 1.8e12 + i * minute, counts, others: { x } }).state;
      }
      expect(state.followed[0]?.means).toHaveLength(of.follow?.[0]?.blocks as number);
      return JSON.stringify(state.followed[0]?.means).length;
    };
    // what 50 more blocks take, no more than the budget says of them
    expect(bytesOf(one(60)) - bytesOf(one(10))).toBeLessThanOrEqual(stateBytes(one(60)) - stateBytes(one(10)));
    expect(stateBytes(one(60))).toBeLessThanOrEqual(mostStateBytes);
  });
});
