/** The saturation of the oil carried to one temperature, as a figure of alarms and trends. */
import { describe, expect, test } from 'vitest';
import { problemsOf } from '../../../src/errors.ts';
import {
  advanceMonitor,
  type MonitorConfig,
  type MonitorEvent,
  prepareMonitor,
  startMonitor,
} from '../../../src/monitor/index.ts';
import type { TimedReading } from '../../../src/reading/index.ts';
import { saturationAfterCooling, solubilityAt, solubilityLine } from '../../../src/water/index.ts';
import { shares } from '../../chance.ts';

const hour = 3600000;
const solubility = solubilityLine([
  { celsius: 20, mgPerKg: 190 },
  { celsius: 60, mgPerKg: 720 },
]);
const figure = { waterSaturationAt: 5 } as const;
const wet = { id: 'wet', type: 'high', figure, setpoint: 0.5, deadband: 0.025 } as const;

function run(config: Omit<MonitorConfig, 'codes'>, readings: readonly Partial<TimedReading>[]) {
  const prepared = prepareMonitor({ codes: [], ...config });
  let state = startMonitor(prepared);
  const events: MonitorEvent[] = [];
  const judged: boolean[] = [];
  readings.forEach((reading, i) => {
    const step = advanceMonitor(prepared, state, { time: i * hour, ...reading });
    state = step.state;
    events.push(...step.events);
    judged.push(step.verdict?.alarms[0]?.judged ?? false);
  });
  return { state, events, judged, names: events.map(({ event }) => event) };
}

function mistakesOf(config: object): string[] {
  try {
    prepareMonitor({ codes: [], ...config });
  } catch (error) {
    return problemsOf(error).map(({ path, expected }) => `${path.join('.')}: ${expected}`);
  }
  return [];
}

describe('the figure', () => {
  test('is what saturationAfterCooling says, and may be above 1', () => {
    for (const [waterSaturation, celsius, at] of [
      [0.4, 48, 5],
      [0.94, 12, 60],
      [0, 50, -20],
    ] as const) {
      const { state } = run({ limits: { solubility }, follow: [{ id: 'w', figure: { waterSaturationAt: at } }] }, [
        { waterSaturation, celsius },
      ]);
      const carried = saturationAfterCooling(solubility, {
        saturation: waterSaturation,
        fromCelsius: celsius,
        toCelsius: at,
      });
      expect(state.followed[0]?.open?.mean).toBe(carried);
    }
  });

  test('is named in events by its temperature', () => {
    const { events } = run({ limits: { solubility }, alarms: [wet] }, [{ waterSaturation: 0.4, celsius: 48 }]);
    expect(events).toEqual([expect.objectContaining({ event: 'raised', figure: 'waterSaturationAt 5' })]);
  });

  test('is there with both figures, of the worse quality of the two', () => {
    const both = { waterSaturation: 0.4, celsius: 48 };
    const judgedOf = (reading: Partial<TimedReading>, limits = {}) =>
      run({ limits: { solubility, ...limits }, alarms: [wet] }, [reading]).judged[0];
    expect(judgedOf(both)).toBe(true);
    expect(judgedOf({ celsius: 48 })).toBe(false);
    expect(judgedOf({ waterSaturation: 0.4 })).toBe(false);
    expect(judgedOf({ ...both, qualities: { celsius: 'bad' } })).toBe(false);
    expect(judgedOf({ ...both, qualities: { waterSaturation: 'bad' } })).toBe(false);
    expect(judgedOf({ ...both, qualities: { celsius: 'uncertain', kPa: 'bad' } })).toBe(true);
    expect(judgedOf({ ...both, celsius: 260 })).toBe(false);
  });

  test('is a number at the ends of what a reading can be', () => {
    for (const celsius of [-273.15, -273.149, 1000])
      for (const waterSaturation of [0, 1e-300, 0.9]) {
        const { state } = run(
          { limits: { solubility: { b: 3000 }, plausibleCelsius: null }, follow: [{ id: 'w', figure }] },
          [{ waterSaturation, celsius }],
        );
        expect(state.followed[0]?.open?.mean).toBeLessThan(1e12);
      }
  });
});

describe('a sensor in full oil shows a least', () => {
  const alarms = [wet];
  // 200 mg/kg: 1.78 at 5 °C, and at -10 °C the sensor shows 1, which by itself would be 0.5 at 5 °C
  const full = { waterSaturation: 1, celsius: -20 };
  test('that raises what it proves', () => {
    expect(run({ limits: { solubility }, alarms }, [{ waterSaturation: 1, celsius: 10 }]).names).toEqual(['raised']);
  });

  test('and clears nothing, and is not followed', () => {
    expect(saturationAfterCooling(solubility, { saturation: 1, fromCelsius: -20, toCelsius: 5 })).toBeLessThan(0.475);
    const { names, judged, state } = run({ limits: { solubility }, alarms, follow: [{ id: 'w', figure }] }, [
      { waterSaturation: 0.4, celsius: 48 },
      full,
      { ...full, waterSaturation: 0.95 },
    ]);
    expect([names, judged]).toEqual([['raised'], [true, false, false]]);
    expect(state.followed[0]?.open?.count).toBe(1);
  });

  test('from freeWaterSaturation on, or 1', () => {
    const namesBy = (freeWaterSaturation: number | null) =>
      run({ limits: { solubility, freeWaterSaturation }, alarms }, [
        { waterSaturation: 0.4, celsius: 48 },
        { ...full, waterSaturation: 0.97 },
      ]).names;
    expect(namesBy(null)).toEqual(['raised', 'returned']);
    expect(namesBy(0.98)).toEqual(['raised', 'returned']);
    expect(namesBy(0.97)).toEqual(['raised']);
  });
});

describe('a configuration', () => {
  test('without the slope of the oil is refused', () => {
    const expected = ['limits.solubility: a solubility line, which the figure waterSaturationAt needs'];
    expect(mistakesOf({ alarms: [wet] })).toEqual(expected);
    expect(mistakesOf({ limits: { solubility: null }, alarms: [wet] })).toEqual(expected);
    expect(mistakesOf({ follow: [{ id: 'w', figure }] })).toEqual(expected);
    expect(mistakesOf({ limits: { solubility }, alarms: [wet], follow: [{ id: 'w', figure }] })).toEqual([]);
  });

  test('with a setpoint in percent, or beyond where a line may be asked', () => {
    const by = (more: object) => mistakesOf({ limits: { solubility }, alarms: [{ ...wet, ...more }] });
    expect(by({ setpoint: 50 })).toEqual(['alarms.0.setpoint: a share, 0.45 for 45 %']);
    expect(by({ setpoint: 1.5 })).toEqual([]);
    expect(by({ figure: { waterSaturationAt: 278.15 } })).toEqual([
      'alarms.0.figure.waterSaturationAt: a temperature in °C from -50 to 150',
    ]);
    expect(by({ setpoint: 0 })).toEqual([expect.stringContaining('a setpoint above 0 and below 2')]);
  });
});

/**
 * Simulated, three winter months of four units, a reading an hour round the clock: the oil is warm on weekdays from 6
 * to 18 h and cools to the air between, the sensor shows hundredths, 0.004 off.
 */
describe('oil that warms and cools', () => {
  const alarms = (plain: number) => [
    { ...wet, id: 'plain', figure: { quantity: 'waterSaturation' }, setpoint: plain, deadband: plain / 20 } as const,
    wet,
  ];
  const raisesOf = (mgPerKg: number, plain: number) => {
    const raised = { plain: 0, wet: 0, returned: 0 };
    for (let unit = 0; unit < 4; unit += 1) {
      const random = shares(41 + unit);
      let celsius = 10;
      const readings = Array.from({ length: 24 * 90 }, (_, h) => {
        const air = 3 + 6 * random() - 3 + 3 * Math.cos((2 * Math.PI * ((h % 24) - 15)) / 24);
        const works = Math.floor(h / 24) % 7 < 5 && h % 24 >= 6 && h % 24 < 18;
        celsius += ((works ? 0.4 * air + 42 : air) - celsius) * (works ? 0.7 : 0.22);
        const shown = mgPerKg / solubilityAt(solubility, celsius) + 0.008 * (random() - 0.5);
        return { celsius, waterSaturation: Math.round(100 * Math.min(1, Math.max(0, shown))) / 100 };
      });
      for (const one of run({ limits: { solubility }, alarms: alarms(plain) }, readings).events) {
        if (one.event === 'raised' && 'alarm' in one) raised[one.alarm as 'plain' | 'wet'] += 1;
        if (one.event === 'returned' && 'alarm' in one && one.alarm === 'wet') raised.returned += 1;
      }
    }
    return raised;
  };

  test('sound: 25 mg/kg is beyond a plain 0.10 each night, and never beyond half of saturation at 5 °C', () => {
    const { plain, wet: at5 } = raisesOf(25, 0.1);
    expect(plain).toBeGreaterThan(200);
    expect(at5).toBe(0);
  });

  test('wet: 200 mg/kg comes and goes at a plain limit of 0.8, and is raised once and for all at 5 °C', () => {
    const { plain, wet: at5, returned } = raisesOf(200, 0.8);
    expect(plain).toBeGreaterThan(200);
    expect([at5, returned]).toEqual([4, 0]);
  });
});
