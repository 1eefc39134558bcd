/** A flow meter whose zero error is above zero: at standstill it shows a little flow. */
import { describe, expect, test } from 'vitest';
import { iso4406 } from '../../../src/codes/index.ts';
import { advanceMonitor, prepareMonitor, startMonitor } from '../../../src/monitor/index.ts';
import { assessReading, type OwnReadingLimits, type Reading } from '../../../src/reading/index.ts';

const counts = { sizing: 'iso11171' as const, sizes: [4, 6, 14], perMl: [1890, 402, 33] };
const band = { mlPerMin: { low: 30, high: 90 } };
const of = (mlPerMin: number, limits: OwnReadingLimits = {}, before: readonly number[] = []) => {
  const flows = before.map((flow, i) => ({ mlPerMin: flow, time: i }));
  const { findings, unchecked, figureQualities } = assessReading({ counts, mlPerMin }, limits, flows);
  const found = findings.filter(({ code }) => code === 'no_flow' || code === 'flow_low');
  return { found: found.map(({ code, value, limit }) => [code, value, limit]), unchecked, figureQualities };
};

describe('is no flow', () => {
  test('up to a twentieth of the least flow of the sensor', () => {
    expect(of(1.5, band).found).toEqual([['no_flow', 1.5, 1.5]]);
    expect(of(1.5, band).figureQualities).toEqual({ counts: 'bad', mlPerMin: 'good' });
    expect(of(1.51, band).found).toEqual([['flow_low', 1.51, 30]]);
    expect(of(0, band).found).toEqual([['no_flow', 0, 0]]);
    // what the unit had says nothing where the limits do
    expect(of(2, { mlPerMin: { low: 2, high: 90 } }, [60]).found).toEqual([]);
  });

  test("without limits, up to a twentieth of the unit's own flow and to 1 mL/min, however long it stands", () => {
    expect(of(1, {}, [60, 60]).found).toEqual([['no_flow', 1, 1]]);
    expect(of(1.01, {}, [60, 60]).found).toEqual([]);
    expect(of(0.5, {}, [10, 10]).found).toEqual([['no_flow', 0.5, 0.5]]);
    expect(of(0.51, {}, [10, 10]).found).toEqual([]);
    expect(of(0.3, {}, [60, 0, 0.2, 0.3]).found).toHaveLength(1);
    // a single reading may be a spike, and a slow flow that follows is no standstill
    expect(of(0.3, {}, [60]).found).toEqual([]);
    expect(of(0.3, {}, [60]).unchecked).toContain('no_flow');
    expect(of(0.3, {}, [0, 0.3]).found).toEqual([]);
  });

  test('little flow of which nothing tells is unchecked', () => {
    expect(of(0.3).unchecked).toContain('no_flow');
    expect(of(1.01).unchecked).not.toContain('no_flow');
    expect(of(0.3, { mlPerMin: { low: 0.1, high: 9 } }).unchecked).not.toContain('no_flow');
  });
});

test('the flow is seen to begin after it: the oil that stood and has not settled is told', () => {
  const at = (time: number, mlPerMin: number): Reading => ({ counts, time, mlPerMin, measuringSeconds: 60 });
  for (const zero of [0, 0.3]) {
    const before = [at(0, 60), at(300000, 60), at(600000, zero), at(1200000, zero)];
    const { findings } = assessReading(at(1200000 + 1000, 60), { flushMl: 100 }, before);
    expect(findings.map(({ code }) => code)).toEqual(['start_up', 'standing_oil']);
  }
});

test('no alarm returns by oil that settles in the sensor, whatever the limits', () => {
  const alarm = { id: 'dirt', type: 'high', figure: { perMlAt: 4 }, setpoint: 5000 } as const;
  for (const limits of [{}, band])
    for (const zero of [0, 0.1, 0.3, 1]) {
      const prepared = prepareMonitor({ codes: [{ table: iso4406 }], limits, alarms: [alarm] });
      let state = startMonitor(prepared);
      const told: string[] = [];
      for (let i = 0; i < 40; i += 1) {
        const stands = i >= 20;
        const perMl = [8000, 1700, 140].map((n) => (stands ? n / 2 ** (i - 19) : n + i));
        const reading = { time: i * 1200000, mlPerMin: stands ? zero : 60, counts: { ...counts, perMl } };
        const step = advanceMonitor(prepared, state, reading);
        state = step.state;
        for (const { event } of step.events) told.push(event);
      }
      expect(told).toEqual(['raised', 'quality_bad']);
    }
});
