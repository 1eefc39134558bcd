/**
 * Sound oil through a year, as docs/trends.md has it: what follows its temperature is told as a change, what is carried
 * to one temperature is not. Simulated, two units, a reading each third hour.
 */
import { describe, expect, test } from 'vitest';
import {
  advanceMonitor,
  type FollowedFigure,
  prepareMonitor,
  type ReadingInput,
  startMonitor,
} from '../../../src/monitor/index.ts';
import { lineResiduals, viscosityAt, viscosityLineOfGrade } from '../../../src/viscosity/index.ts';
import { solubilityAt, solubilityLine, waterContent } from '../../../src/water/index.ts';
import { normalOf, shares } from '../../chance.ts';

const hour = 3600000;
const oil = viscosityLineOfGrade(46, 102);
const solubility = solubilityLine([
  { celsius: 20, mgPerKg: 190 },
  { celsius: 60, mgPerKg: 720 },
]);

type World = (hours: number) => { readonly mgPerKg: number; readonly thickened: number };
const sound: World = () => ({ mgPerKg: 40, thickened: 1 });
const half = 4380;

/** When changes were told, in days since half a year, of each unit. */
function changes(follow: Omit<FollowedFigure, 'id'>, world: World): number[][] {
  const prepared = prepareMonitor({ codes: [], limits: { solubility }, follow: [{ id: 'f', ...follow }] });
  return [1, 2].map((unit) => {
    const random = shares(unit);
    let state = startMonitor(prepared);
    let oilCelsius = 15;
    let weather = 0;
    const told: number[] = [];
    for (let hours = 0; hours < 8760; hours += 1) {
      const day = hours / 24;
      weather = 0.98 * weather + 0.6 * normalOf(random);
      const air =
        10 +
        10 * Math.cos((2 * Math.PI * (day - 290)) / 365) +
        4 * Math.cos((2 * Math.PI * ((hours % 24) - 15)) / 24) +
        weather;
      const works = Math.floor(day) % 7 < 5 && hours % 24 >= 6 && hours % 24 < 18;
      oilCelsius += ((works ? 0.4 * air + 42 : air) - oilCelsius) * (1 - Math.exp(works ? -1 / 0.8 : -1 / 4));
      if (hours % 3 > 0) continue;
      const { mgPerKg, thickened } = world(hours);
      const celsius = Math.round(oilCelsius * 10) / 10;
      const content = mgPerKg / solubilityAt(solubility, oilCelsius) + 0.004 * normalOf(random);
      const waterSaturation = Math.min(1, Math.max(0, content));
      const mm2PerS = viscosityAt(oil, oilCelsius) * thickened * (1 + 0.01 * normalOf(random));
      const offLine = lineResiduals(oil, [{ celsius, mm2PerS }])[0]?.percent as number;
      const others = { offLine, mgPerKg: waterContent(solubility, waterSaturation, celsius) };
      const reading: ReadingInput = { time: 1.8e12 + hours * hour, celsius, waterSaturation, mm2PerS, others };
      const step = advanceMonitor(prepared, state, reading);
      state = step.state;
      for (const { event } of step.events) if (event === 'change_found') told.push(Math.round((hours - half) / 24));
    }
    return told;
  });
}

describe('sound oil', () => {
  test.each([
    [{ figure: { quantity: 'mm2PerS' }, least: 5 }],
    [{ figure: { quantity: 'waterSaturation' }, least: 0.1 }],
  ] as const)('by %j tells its season', (follow) => {
    expect(changes(follow, sound).flat().length).toBeGreaterThan(0);
  });

  test.each([
    [{ figure: { other: 'offLine' }, least: 3 }],
    [{ figure: { other: 'mgPerKg' }, least: 10 }],
    [{ figure: { waterSaturationAt: 5 }, least: 0.1 }],
  ] as const)('by %j tells nothing', (follow) => {
    expect(changes(follow, sound)).toEqual([[], []]);
  });
});

describe('oil that changes', () => {
  const from = (hours: number, by: number) => Math.max(0, hours - half) * by;
  test.each([
    ['off its line', 'thickens', { figure: { other: 'offLine' }, least: 3 }, 40],
    ['mg/kg', 'takes in water', { figure: { other: 'mgPerKg' }, least: 10 }, 20],
    ['saturation at 5 °C', 'takes in water', { figure: { waterSaturationAt: 5 }, least: 0.1 }, 20],
  ] as const)('is told by %s where it %s', (_name, _how, follow, within) => {
    const told = changes(follow, (hours) => ({
      mgPerKg: Math.min(90, 40 + from(hours, 1 / 28.8)),
      thickened: 1 + from(hours, 0.12 / half),
    }));
    for (const [first = Infinity] of told) {
      expect(first).toBeGreaterThan(0);
      expect(first).toBeLessThan(within);
    }
  });
});
