/** A day of readings a minute apart, of which something comes and goes, and the events that a monitor tells of it. */
import { iso4406 } from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import {
  advanceMonitor,
  type MonitorConfig,
  prepareMonitor,
  type ReadingInput,
  startMonitor,
} from '../../../src/monitor/index.ts';
import { poissonOf, shares } from '../../chance.ts';

const minute = 60000;
const inADay = 1440;
const begin = 1.8e12;

const watched: MonitorConfig = {
  codes: [{ table: iso4406, target: '18/16/13' }],
  alarms: [
    { id: 'dirty', type: 'high', figure: { code: 'iso4406' }, setpoint: '20/18/15' },
    { id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 65, deadband: 3 },
  ],
};

type Readings = readonly ReadingInput[];

const noFlow = (reading: ReadingInput): ReadingInput => ({ ...reading, mlPerMin: 0 });
const dryWater = (reading: ReadingInput): ReadingInput => ({ ...reading, qualities: { waterSaturation: 'bad' } });
const later = (reading: ReadingInput, ms: number): ReadingInput => ({ ...reading, time: reading.time + ms });

function byChance(seed: number, share: number, change: (reading: ReadingInput) => ReadingInput) {
  return (readings: Readings) => {
    const chance = shares(seed);
    return readings.map((reading) => (chance() < share ? change(reading) : reading));
  };
}

/** What becomes of the readings of a day. */
export const faults: Readonly<Record<string, (readings: Readings) => Readings>> = {
  'nothing is wrong': (readings) => readings,
  'no flow in every other reading': (readings) => readings.map((one, n) => (n % 2 === 1 ? noFlow(one) : one)),
  'no flow in 5 % of them, by chance': byChance(11, 0.05, noFlow),
  'no flow in 30 % of them, by chance': byChance(12, 0.3, noFlow),
  'the water sensor is bad for 3 of 10 readings': (readings) =>
    readings.map((one, n) => (n % 10 < 3 ? dryWater(one) : one)),
  'readings come up to 2 minutes late, by chance': (readings) => {
    const chance = shares(13);
    const came = readings.map((reading) => ({ reading, at: reading.time + 2 * minute * chance() }));
    return came.sort((a, b) => a.at - b.at).map(({ reading }) => reading);
  },
  'every other reading has the time of the one before it': (readings) =>
    readings.map((one, n) => (n % 2 === 1 ? later(one, -minute) : one)),
  // after an hour, which shows how far apart readings are
  'the clock is a week ahead in every other reading': (readings) =>
    readings.map((one, n) => (n >= 60 && n % 2 === 1 ? later(one, 7 * inADay * minute) : one)),
  'every other reading has a code that nothing reads': (readings) =>
    readings.map(({ counts: _counts, ...rest }, n) => ({
      ...rest,
      codes: n % 2 === 1 ? { iso4406: '18/16/13', nas1638: '7' } : { iso4406: '18/16/13' },
    })),
};

/** Figures scatter, counts as Poisson makes them. */
const aDay: Readings = usualDay(shares(7));

function usualDay(share: () => number): Readings {
  return Array.from({ length: inADay }, (_, n) => {
    const [small, middle, large] = [poissonOf(9000, share), poissonOf(2500, share), poissonOf(200, share)];
    return {
      time: begin + n * minute,
      counts: cumulativeCounts({ 4: small + middle + large, 6: middle + large, 14: large }, { volumeMl: 10 }),
      mlPerMin: 58 + Math.round(40 * share()) / 10,
      celsius: 48 + Math.round(40 * share()) / 10,
      waterSaturation: Math.round(300 + 100 * share()) / 1000,
    };
  });
}

/** How many events of each kind are told in a day. */
export function eventsOf(name: string, restoredAfter?: number): Readonly<Record<string, number>> {
  const prepared = prepareMonitor({ ...watched, restoredAfter });
  const told: Record<string, number> = {};
  let state = startMonitor(prepared);
  for (const reading of (faults[name] as (readings: Readings) => Readings)(aDay)) {
    const step = advanceMonitor(prepared, state, reading);
    state = step.state;
    for (const { event } of step.events) told[event] = (told[event] ?? 0) + 1;
  }
  return told;
}
