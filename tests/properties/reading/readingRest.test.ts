/**
 * A year of a machine that stands, for nights, weekends, weeks or the whole year: its temperature stands too, and is
 * called stuck in less than half of the years, twice or, with holidays, three times at most. Readings come every minute
 * to every week, shown in steps of 0.1, 0.5 and 1 °C.
 */
import { expect, test } from 'vitest';
import { sensorStuck } from '../../../src/reading/assess/course.ts';
import { assessReading } from '../../../src/reading/index.ts';
import { wholeLimits } from '../../../src/reading/ownLimits.ts';
import { advanceRepeats, noRepeats, type Repeats } from '../../../src/reading/remembered/repeats.ts';
import { normalOf, shares } from '../../chance.ts';
import { some } from '../../volume.ts';

const minute = 60000;
const hour = 60 * minute;
const day = 24 * hour;
const year = 365 * day;
const limits = wholeLimits({});
const seed = Number(process.env.MOTESCALE_SEED ?? 4406);

const wave = (t: number, ms: number) => Math.sin((2 * Math.PI * t) / ms);

const workdays = (t: number) => Math.floor(t / day) % 7 < 5 && t % day >= 7 * hour && t % day < 16 * hour;
const hall = (t: number) => 19 + 1.5 * wave(t, day) + 3 * wave(t, year);
const cellar = (t: number) => 20 + 0.2 * wave(t, day) + 0.3 * wave(t, 90 * day);
const winter = (t: number) => 0.3 + 1.5 * wave(t, day) * wave(t, 11 * day) + 6 * wave(t, year);
const isOff = (t: number, from: number, days: number) => t > from * day && t < (from + days) * day;

/** When the machine works, and how warm it is where it stands. */
const units = {
  'round the clock, hall': [() => true, hall],
  'workdays, hall': [workdays, hall],
  'workdays, cellar': [workdays, cellar],
  'never, hall': [() => false, hall],
  'never, cellar': [() => false, cellar],
  'workdays, out of doors': [workdays, winter],
  'never, out of doors': [() => false, winter],
  'workdays after a month, cellar': [(t: number) => t > 30 * day && workdays(t), cellar],
  'workdays but for two holidays, cellar': [
    (t: number) => workdays(t) && !isOff(t, 90, 14) && !isOff(t, 280, 21),
    cellar,
  ],
  'one day a month, cellar': [(t: number) => Math.floor(t / day) % 30 === 12 && workdays(t % day), cellar],
} satisfies Record<string, [(t: number) => boolean, (t: number) => number]>;

/** How often a run of equal temperatures is called stuck. */
function episodes(
  [works, room]: readonly [(t: number) => boolean, (t: number) => number],
  every: number,
  step: number,
  noise: number,
): number {
  const next = shares(seed + every + step * 1000 + noise * 10);
  let repeats: Repeats = noRepeats;
  let [found, before, load, celsius] = [0, false, 0, 20];
  for (let i = 0; i < Math.min(year / every, some(1e6, 4000)); i += 1) {
    const t = i * every + 6 * hour;
    load = 0.9 * load + 0.3 * normalOf(next);
    const goal = works(t) ? 48 + 2 * wave(t, 19 * day) + (every < hour ? load : 0.7 * normalOf(next)) : room(t);
    celsius = goal + (celsius - goal) * Math.exp(-every / (works(t) ? 1.2 * hour : 3 * hour));
    const reading = { time: 1.8e12 + t, celsius: Math.round((celsius + noise * normalOf(next)) / step) * step };
    repeats = advanceRepeats(repeats, reading);
    const is = (sensorStuck.find({ limits, repeats, reading, tables: [], needed: [] }) ?? []).length > 0;
    if (is && !before) found += 1;
    before = is;
  }
  return found;
}

const intervals = { minute, '10 minutes': 10 * minute, hour, day, week: 7 * day };

test.each(Object.entries(intervals))('a reading every %s', { timeout: 300000 }, (_name, every) => {
  let [years, all] = [0, 0];
  for (const [name, unit] of Object.entries(units))
    for (const step of [0.1, 0.5, 1])
      for (const noise of [0.02, 0.2]) {
        const found = episodes(unit as never, every, step, noise);
        // each holiday longer than two and a half of the longest weekends is told
        const most = name.includes('holidays') ? 3 : 2;
        expect(found, `${name}, ${step} °C, ${noise}`).toBeLessThanOrEqual(most);
        years += 1;
        all += found;
      }
  expect(all / years).toBeLessThanOrEqual(0.4);
});

test('the first day of a machine that stands says nothing, a month of it does', () => {
  const after = (readings: number, every: number) => {
    const given = Array.from({ length: readings }, (_x, i) => ({ time: 1.8e12 + i * every, celsius: 20 }));
    return assessReading(given[readings - 1] ?? {}, {}, given.slice(0, -1)).findings.map(({ code }) => code);
  };
  expect(after(28, minute)).toEqual([]);
  expect(after(1440, minute)).toEqual([]);
  expect(after(24 * 31, hour)).toEqual(['values_stuck']);
});

test('a thermometer that has died at 0 or 1 °C is told as at any other value, water at 0 too and at 1 not', () => {
  const toldAfter = (figure: 'celsius' | 'waterSaturation', dead: number) => {
    const next = shares(4406);
    let repeats: Repeats = noRepeats;
    for (let i = 0; i < 24 * 90; i += 1) {
      const live = figure === 'celsius' ? 40 + 20 * next() : 0.3 + 0.1 * next();
      const value = i < 24 * 60 ? Math.round(live * 1000) / 1000 : dead;
      const reading = { time: 1.8e12 + i * hour, [figure]: value };
      repeats = advanceRepeats(repeats, reading);
      if ((sensorStuck.find({ limits, repeats, reading, tables: [], needed: [] }) ?? []).length > 0)
        return i - 24 * 60 + 1;
    }
    return null;
  };
  const usual = toldAfter('celsius', 44);
  expect(usual).toBeLessThanOrEqual(10);
  expect([0, 1].map((dead) => toldAfter('celsius', dead))).toEqual([usual, usual]);
  const ofWater = toldAfter('waterSaturation', 0.35);
  expect(ofWater).toBeLessThanOrEqual(10);
  expect([0, 1].map((dead) => toldAfter('waterSaturation', dead))).toEqual([ofWater, null]);
});
