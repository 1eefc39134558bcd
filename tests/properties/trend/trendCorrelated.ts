/** Series with memory, for tests and bench: the same on every run. */
import { shares } from '../../chance.ts';

/** Even shares and normal values from a seed (polar method of Marsaglia). */
export function draws(seed: number): { share: () => number; normal: () => number } {
  let spare: number | null = null;
  const share = shares(seed);
  const normal = (): number => {
    if (spare !== null) {
      const kept = spare;
      spare = null;
      return kept;
    }
    for (;;) {
      const x = 2 * share() - 1;
      const y = 2 * share() - 1;
      const r = x * x + y * y;
      if (r >= 1 || r === 0) continue;
      const f = Math.sqrt((-2 * Math.log(r)) / r);
      spare = y * f;
      return x * f;
    }
  };
  return { share, normal };
}

/** A series of standard deviation 1 in which neighbours have this correlation. */
export function withMemory(normal: () => number, n: number, correlation: number): number[] {
  const fresh = Math.sqrt(1 - correlation * correlation);
  const values = [normal()];
  while (values.length < n) values.push(correlation * (values[values.length - 1] as number) + fresh * normal());
  return values;
}

/** What a machine does over its days. Days count from 0; all in the unit of the figure. */
export interface MachineDays {
  readonly scatter: number;
  /** Days after which a deviation has faded to 1/e. */
  readonly memory: number;
  /** Half-swing over the year, at an unknown time of it. */
  readonly year?: number;
  /** How far the two last days of each week lie below the others. */
  readonly week?: number;
  readonly added?: (day: number) => number;
}

/** Daily means of readings every two hours, about 17. */
export function machineDays({ normal, share }: ReturnType<typeof draws>, days: number, machine: MachineDays): number[] {
  const perDay = 12;
  const kept = Math.exp(-1 / (perDay * machine.memory));
  const fresh = Math.sqrt(1 - kept * kept);
  const phase = 2 * Math.PI * share();
  const weekday = Math.floor(7 * share());
  let wander = normal();
  return Array.from({ length: days }, (_x, day) => {
    let sum = 0;
    for (let i = 0; i < perDay; i += 1) {
      wander = kept * wander + fresh * normal();
      sum += machine.scatter * wander + 0.05 * normal();
    }
    const year = (machine.year ?? 0) * Math.sin((2 * Math.PI * day) / 365.25 + phase);
    const week = (day + weekday) % 7 > 4 ? (machine.week ?? 0) : 0;
    return 17 + sum / perDay + year - week + (machine.added?.(day) ?? 0);
  });
}
