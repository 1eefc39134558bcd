/**
 * Readings of which something comes and goes, and how many events a monitor tells of them, by what its configuration
 * says of chattering.
 */
import { iso4406 } from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import {
  advanceMonitor,
  type MonitorConfig,
  type MonitorEvent,
  prepareMonitor,
  type ReadingInput,
  startMonitor,
} from '../../../src/monitor/index.ts';
import { poissonOf, shares } from '../../chance.ts';

const minute = 60000;
const day = 1440 * minute;
const begin = 1.8e12;

export const watched: MonitorConfig = {
  codes: [{ table: iso4406, target: '18/16/13' }],
  alarms: [
    { id: 'dirty', type: 'high', figure: { code: 'iso4406' }, setpoint: '20/18/15' },
    { id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 65, deadband: 3 },
  ],
};

/** What a reading is turned into; `n` is its number, `every` how far apart they are, `of` how many there are. */
type Fault = (reading: ReadingInput, n: number, share: () => number, every: number, of: number) => ReadingInput;

const noFlow = (reading: ReadingInput): ReadingInput => ({ ...reading, mlPerMin: 0 });
const bad = { counts: 'bad', mlPerMin: 'bad', celsius: 'bad', waterSaturation: 'bad' } as const;

export const faults: Readonly<Record<string, Fault>> = {
  'nothing is wrong': (reading) => reading,
  'flow drops out, every other reading': (reading, n) => (n % 2 === 1 ? noFlow(reading) : reading),
  'flow drops out, 5 % of readings': (reading, _n, share) => (share() < 0.05 ? noFlow(reading) : reading),
  'flow drops out, 30 % of readings': (reading, _n, share) => (share() < 0.3 ? noFlow(reading) : reading),
  'the sensor dies in summer': (reading, n, _share, _every, of) =>
    2 * n > of ? { ...reading, qualities: bad } : reading,
  'the water sensor is bad, every other reading': (reading, n) =>
    n % 2 === 1 ? { ...reading, qualities: { waterSaturation: 'bad' } } : reading,
  // each third one comes after the next: it is held back by one and a half intervals
  'late, one of three': (reading, n, _share, every) =>
    n % 3 === 0
      ? { ...reading, time: reading.time + every }
      : n % 3 === 1
        ? { ...reading, time: reading.time - every }
        : reading,
  'two figures for one time, every other reading': (reading, n, _share, every) =>
    n % 2 === 1 ? { ...reading, time: reading.time - every } : reading,
  'the clock is a week ahead, every other reading': (reading, n) =>
    n % 2 === 1 && reading.time > begin + day ? { ...reading, time: reading.time + 7 * day } : reading,
};

/** Counts as Poisson scatter makes them, many enough to follow each other over and over. */
const pool = Array.from({ length: 1024 }, (_, i) => {
  const share = shares(i);
  const [small, middle, large] = [poissonOf(9000, share), poissonOf(2500, share), poissonOf(200, share)];
  return cumulativeCounts({ 4: small + middle + large, 6: middle + large, 14: large }, { volumeMl: 10 });
});

/** Readings of so many days. */
export function* readings(fault: Fault, everyMinutes: number, days: number): Generator<ReadingInput> {
  const share = shares(11);
  const every = everyMinutes * minute;
  const of = Math.floor((days * day) / every);
  for (let n = 0; n < of; n += 1) {
    const counts = pool[n % pool.length] as (typeof pool)[number];
    const celsius = 48 + Math.round(40 * share()) / 10;
    const waterSaturation = Math.round(300 + 100 * share()) / 1000;
    const mlPerMin = 58 + Math.round(40 * share()) / 10;
    yield fault({ time: begin + n * every, counts, mlPerMin, celsius, waterSaturation }, n, share, every, of);
  }
}

/** How many events of each kind are told in so many days. */
export function eventsOf(
  fault: Fault,
  everyMinutes: number,
  days: number,
  chattering: MonitorConfig['chattering'],
): Map<MonitorEvent['event'], number> {
  const prepared = prepareMonitor({ ...watched, chattering });
  const told = new Map<MonitorEvent['event'], number>();
  let state = startMonitor(prepared);
  for (const reading of readings(fault, everyMinutes, days)) {
    const step = advanceMonitor(prepared, state, reading);
    state = step.state;
    for (const { event } of step.events) told.set(event, (told.get(event) ?? 0) + 1);
  }
  return told;
}
