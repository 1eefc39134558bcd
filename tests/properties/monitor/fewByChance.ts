/** What an alarm on a code makes of so many particles, and by that what steady oil brings about: exactly, no draws. */
import { iso4406 } from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { advanceMonitor, type PreparedMonitor, prepareMonitor, startMonitor } from '../../../src/monitor/index.ts';

const minute = 60000;
/** The end of scale number 13, per mL. */
const limitPerMl = 80;

const watched: PreparedMonitor = prepareMonitor({
  codes: [{ table: iso4406 }],
  alarms: [{ id: 'dirty', type: 'high', figure: { code: 'iso4406' }, setpoint: '-/-/13' }],
});

function reading(minutes: number, particles: number, limit: number) {
  const counts = { 4: particles + 2000, 6: particles + 400, 14: particles };
  return { time: minutes * minute, counts: cumulativeCounts(counts, { volumeMl: limit / limitPerMl }) };
}

/** Whether so many particles raise an alarm whose setpoint ends at `limit` of them, and whether they clear one. */
export function answersOf(particles: number, limit: number): { raises: boolean; returns: boolean } {
  const events = (state: ReturnType<typeof startMonitor>, minutes: number) =>
    advanceMonitor(watched, state, reading(minutes, particles, limit)).events.map(({ event }) => event as string);
  const standing = advanceMonitor(watched, startMonitor(watched), reading(0, Math.ceil(9 * limit) + 20, limit)).state;
  return {
    raises: events(startMonitor(watched), 0).includes('raised'),
    returns: events(standing, 10).includes('returned'),
  };
}

/** With what chance one reading of oil in which `mean` are expected raises, and clears; and by the plain count. */
export function chancesOf(limit: number, mean: number): { raises: number; returns: number; beyond: number } {
  const sums = { raises: 0, returns: 0, beyond: 0 };
  let chance = Math.exp(-mean);
  for (let n = 0; n < 40 + 3 * mean; n += 1) {
    if (n > 0) chance *= mean / n;
    const { raises, returns } = answersOf(n, limit);
    if (raises) sums.raises += chance;
    if (returns) sums.returns += chance;
    if (n > limit) sums.beyond += chance;
  }
  return sums;
}

const inAYear = 365.25 * 144;
const twoDigits = (value: number) => (value === 0 ? '0' : value < 0.01 ? 'below 0.01' : short(value));
const short = (value: number) => `${Number(value.toPrecision(2))}`;
const readings = (chance: number) => (1 / chance).toFixed(1);

/** Readings until an alarm that stood returns; in brackets by the plain count. */
export function returnRows(): string[][] {
  return [4, 10, 20, 30, 40].map((limit) => {
    const cells = [0.9, 0.7, 0.5, 0.35].map((share) => {
      const { returns, beyond } = chancesOf(limit, share * limit);
      return `${readings(returns)} (${readings(1 - beyond)})`;
    });
    const { returns, beyond } = chancesOf(limit, 2 * limit);
    return [`${limit}`, `${(100 * returns).toFixed(1)} % (${(100 * (1 - beyond)).toFixed(1)})`, ...cells];
  });
}

/** Raises a unit-year of readings ten minutes apart, and readings until dirtier oil is raised; in brackets likewise. */
export function raiseRows(): string[][] {
  return [1.25, 2.5, 5, 10, 20, 40].map((limit) => {
    const within = [0.35, 0.5, 0.7, 0.9].map((share) => {
      const { raises, returns, beyond } = chancesOf(limit, share * limit);
      const rate = (raise: number, clear: number) => twoDigits((inAYear * raise * clear) / (raise + clear));
      return `${rate(raises, returns)} (${rate(beyond, 1 - beyond)})`;
    });
    const dirtier = [2, 4, 8].map((share) => {
      const { raises, beyond } = chancesOf(limit, share * limit);
      return `${readings(raises)} (${readings(beyond)})`;
    });
    return [`${limit}`, ...within, ...dirtier];
  });
}

/** The mean of the readings until an on-delay of so many intervals is over, and its last reading raises. */
function untilRaised({ raises, beyond }: { raises: number; beyond: number }, intervals: number): number {
  // a + b x the mean from the beginning, from the reading that may raise back to the first
  let [a, b] = [1 / (1 - beyond + raises), (1 - beyond) / (1 - beyond + raises)];
  for (let n = 0; n < intervals; n += 1) [a, b] = [1 + beyond * a, beyond * b + 1 - beyond];
  return a / (1 - b);
}

/** Readings until oil beyond its limit is raised with delays of 3, 18 and 180 intervals. */
export function delayRows(): string[][] {
  return [5, 10, 25, 50, 100].map((limit) => {
    const cells = [1.5, 2].flatMap((share) => {
      const chances = chancesOf(limit, share * limit);
      return [3, 18, 180].map((intervals) => {
        const mean = untilRaised(chances, intervals);
        return mean > 1e5 ? 'beyond 100,000' : short(mean);
      });
    });
    return [`${limit}`, ...cells];
  });
}
