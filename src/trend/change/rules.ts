/** No day lies farther from day 0. */
export const farthestDay = 1000000000;

/** The rules of the change detector, tuned and measured by simulation (docs/trends.md has the rates they give). */
export const rules: {
  /** Days remembered. */
  readonly ringDays: number;
  /** The first days after a start or after work are not learned from: the oil is still being cleaned. */
  readonly settleDays: number;
  /** Values needed before the first change is told. */
  readonly learnValues: number;
  /**
   * Jumps needed before their scatter is known; days of them that are remembered, and needed before the memory counts.
   */
  readonly fewestJumps: number;
  readonly jumpsRemembered: number;
  readonly jumpsTrusted: number;
  /** A step: this many scatters, and each of its two days beyond this share of the limit. */
  readonly stepScatters: number;
  readonly stepShare: number;
  /** The further of both days counts as no more than so many scatters beyond the nearer one. */
  readonly wildScatters: number;
  /**
   * A wild day: so many limits of a step off the days before and after. Where one is remembered that was no farther off
   * than so many times a step, that step takes three days.
   */
  readonly wildRatio: number;
  /** A slow change: from this share of the smallest step on, this many standard errors, or the season and this many. */
  readonly slowLeast: number;
  readonly slowErrors: number;
  readonly seasonErrors: number;
  /** Drift: values the level is learned from, days compared with it, and as for slow changes. */
  readonly levelValues: number;
  readonly driftDays: number;
  readonly driftValues: number;
  readonly driftLeast: number;
  readonly driftErrors: number;
  /** No scatter is taken for less than this share of the smallest step, nor than this share of a whole code. */
  readonly floor: number;
  readonly roundingFloor: number;
  /** The smallest step, in whole codes where values are such. */
  readonly roundingLeast: number;
  /** Less than this share of the days with a value, over at least so many days: nothing can be judged. */
  readonly fewestShare: number;
  readonly shareDays: number;
} = {
  ringDays: 63,
  settleDays: 7,
  learnValues: 21,
  fewestJumps: 8,
  jumpsRemembered: 150,
  jumpsTrusted: 30,
  stepScatters: 3.9,
  stepShare: 0.65,
  wildScatters: 2.5,
  wildRatio: 1.5,
  slowLeast: 0.5,
  slowErrors: 6.2,
  seasonErrors: 4.4,
  levelValues: 42,
  driftDays: 28,
  driftValues: 14,
  driftLeast: 1.2,
  driftErrors: 4.6,
  floor: 0.06,
  roundingFloor: 0.35,
  roundingLeast: 1.25,
  fewestShare: 0.35,
  shareDays: 28,
};
