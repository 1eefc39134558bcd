/** The gateway of docs/gateways.md that watches the oil and keeps the flow: a day of it, with what may go wrong. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import * as motescale from '../../src/index.ts';

type Told = { readonly event: string; readonly alarm?: string }[];
interface Plant {
  flow(seconds: number, mlPerMin: number | null, operator?: string, ready?: boolean): { percent: number; events: Told };
  reading(time: number, counts: object, celsius: number, mlPerMin: number | null): Told;
  tick(time: number): Told;
  command(time: number, given: object): Told;
  save(): string;
  restore(text: string): void;
}

const code = readFileSync('docs/examples/gateways/plant.js', 'utf8');
const begin = (): Plant => new Function('motescale', `${code}; return plant;`)(motescale);
const now = 1796100000000;
const minute = 60000;

test('a day: an unset clock is told, a stop is kept, a broken meter is bad, and standing is no alarm', () => {
  let plant = begin();
  const words = (told: Told) => told.map(({ event }) => event);
  const counts = (i: number) =>
    motescale.cumulativeCounts({ 4: 19000 + i, 6: 3000 + i, 14: 300 + (i % 7) }, { volumeMl: 10 });
  expect(words(plant.tick(5000))).toEqual(['clock_unset']);
  let flow = 0;
  let percent = 0;
  const told: string[] = [];
  const run = (from: number, to: number, shown: (flow: number) => number, operator = '') => {
    for (let i = from; i < to; i += 1) {
      for (let k = 0; k < 60; k += 1) {
        flow += (1 - Math.exp(-1 / 12)) * (1.9 * percent - flow);
        const step = plant.flow(1, shown(flow), i === from && k === 0 ? operator : '');
        percent = step.percent;
        told.push(...words(step.events));
      }
      told.push(...words(plant.reading(now + i * minute, counts(i), 45, shown(flow))));
      told.push(...words(plant.tick(now + i * minute + minute / 2)));
    }
    return told.splice(0);
  };
  const real = (one: number) => Math.round(one * 100) / 100;
  expect(run(0, 30, real)).toEqual(['started']);
  expect(flow).toBeCloseTo(60, 0);
  expect(words(plant.command(now + 29 * minute, { command: 'shelve', alarm: 'dirty', forMs: minute }))).toEqual([
    'shelved',
  ]);
  expect(run(30, 60, real, 'stop')).toEqual([
    // the counts of oil that stands are bad
    ...['stopped', 'to_manual', 'unshelved', 'suppressed', 'quality_bad'],
  ]);
  // the power fails: the stop is kept
  const saved = plant.save();
  plant = begin();
  plant.restore(saved);
  expect(run(60, 70, real)).toEqual([]);
  expect(percent).toBe(0);
  expect(run(70, 90, real, 'start')).toEqual(['started', 'to_automatic', 'unsuppressed', 'quality_restored']);
  expect(run(90, 95, () => -25)).toEqual([...['signal_lost', 'quality_bad', 'quality_bad']]);
  // one that stands still is bad, though it shows a flow that looks good
  expect(run(95, 125, () => 57)).toContain('quality_bad');
});

test('a stop is kept where the meter fails, and no flow that is none makes standing oil good', () => {
  const counts = (i: number) =>
    motescale.cumulativeCounts({ 4: 19000 + i, 6: 3000 + i, 14: 300 + (i % 7) }, { volumeMl: 10 });
  for (const shown of [0, -0.2, -25, null, Number.NaN]) {
    const plant = begin();
    plant.flow(1, 60, 'start');
    for (let i = 0; i < 5; i += 1) plant.flow(1, 60);
    expect(plant.flow(1, shown, 'stop').percent).toBe(0);
    expect(plant.flow(1, 60).percent).toBe(0);
    const told = [0, 1, 2].flatMap((i) => plant.reading(now + i * minute, counts(i), 45, shown));
    expect(told.map(({ event }) => event)).toContain('quality_bad');
  }
});

test('a drive that is not ready: the pump does not start by itself when it is reset', () => {
  const plant = begin();
  plant.flow(1, 60, 'start');
  for (let i = 0; i < 60; i += 1) plant.flow(1, 0, '', false);
  for (let i = 0; i < 9; i += 1) expect(plant.flow(1, 0, '', true).percent).toBe(0);
  expect(plant.flow(1, 0, 'start', true).percent).toBe(10);
});
