/** No day lies farther from day 0. */
export const farthestDay = 1000000000;

/** The rules of the change detector, tuned and measured by simulation (docs/rates.md has the rates they give). */
export const rules = {
  /** Days remembered. */
  ringDays: 63,
  /** The first days after a start or after work are not learned from: the oil is still being cleaned. */
  settleDays: 7,
  /** Values needed before the first change is told. */
  learnValues: 21,
  /**
   * Jumps needed before their scatter is known; days of them that are remembered, and needed before the memory counts.
   */
  fewestJumps: 8,
  jumpsRemembered: 150,
  jumpsTrusted: 30,
  /** Of a young level the last days, whose scatter alone counts where it is less and those before went one way. */
  calmDays: 24,
  /** A step: this many scatters, and each of its two days beyond this share of the limit. */
  stepScatters: 3.9,
  stepShare: 0.65,
  /** The further of both days counts as no more than so many scatters beyond the nearer one. */
  wildScatters: 2.5,
  /**
   * A wild day: so many limits of a step off the days before and after. Where one is remembered that was no farther off
   * than so many times a step, that step takes three days.
   */
  wildRatio: 1.5,
  /** A slow change: from this share of the smallest step on, this many standard errors, or the season and this many. */
  slowLeast: 0.5,
  slowErrors: 6.2,
  seasonErrors: 4.4,
  /** Drift: values the level is learned from, days compared with it, and as for slow changes. */
  levelValues: 42,
  driftDays: 28,
  driftValues: 12,
  driftLeast: 1.2,
  driftErrors: 4.6,
  /** No scatter is taken for less than this share of the smallest step, nor than this share of a whole code. */
  floor: 0.06,
  roundingFloor: 0.35,
  /** The smallest step, in whole codes where values are such. */
  roundingLeast: 1.25,
  /** Less than this share of the days with a value, over at least so many days: nothing can be judged. */
  fewestShare: 0.35,
  shareDays: 28,
} as const;
