/**
 * What a reading is held against. Every limit is here, with its default and where that comes from; each can be
 * overridden, and `null` switches its check off. What only the data sheet of an instrument, or the sampling line, can
 * say has no default: until it is set, the assessment lists its check under `unchecked`. `countedShare` and `settleMs`
 * have no default either, but what a reading shows without them is found where they are left out.
 */
import { leastGaugeKPa, leastOilCelsius, leastOilMm2PerS, mostOilCelsius } from '../rules/bounds.ts';
import type { ViscosityLine } from '../viscosity/line/viscosityLine.ts';
import { findingCodes } from './findingKinds.ts';
import type { FindingCode, Quality } from './reading.ts';

/** The limits of `assessReading`. */
export interface ReadingLimits {
  /** Flow the sensor is made for, mL/min. Default null: from the data sheet of the instrument. */
  readonly mlPerMin: { readonly low: number; readonly high: number } | null;
  /**
   * The least gauge pressure in the sensor, kPa, above -101.325, where no pressure is left. Default null: from the data
   * sheet of the instrument.
   *
   * Oil that is saturated with air at tank pressure gives off none above that pressure. It does below it: in a suction
   * line, or behind a narrow place. Pressure in the sensor shrinks bubbles that the oil already carries, and dissolves
   * them in time. It does not stop an air leak, and it removes no water droplets.
   */
  readonly leastKPa: number | null;
  /**
   * The highest viscosity the sensor or its pump can take, mm²/s. Default null: from the data sheet of the instrument.
   * Where a reading has none, or a bad one, the viscosity is worked out from its temperature by `viscosityLine`; colder
   * than that line goes it is 20,000,000 mm²/s or more. Where both are known and contradict each other
   * (`viscosity_off_line`), the greater counts.
   */
  readonly mostMm2PerS: number | null;
  /** Oil temperatures the sensor is made for, °C. Default null: from the data sheet of the instrument. */
  readonly celsius: { readonly low: number; readonly high: number } | null;
  /**
   * The fewest particles counted at a size. Default 20 (ISO 4406, clause on raw counts). A code without counts whose
   * number is marked `>=` has fewer than 20: below 20 that proves nothing.
   */
  readonly particles: number | null;
  /**
   * The sizes that must have them, µm in the sizing of the counts. Default null: those of ISO 4406 (4, 6, 14; or 5,
   * 15), else all.
   */
  readonly particleSizes: readonly number[] | null;
  /**
   * The coincidence limit of the counter, particles per mL at its smallest size. Default null: from its data sheet. A
   * code without counts is beyond it where its class is; and where it is `*`, too many to count, whatever stands here.
   */
  readonly coincidencePerMl: number | null;
  /**
   * Relative saturation from which free water is likely, a share up to 1, where a sensor ends. Default 0.95: saturation
   * less 0.05 for the error of the sensor (our choice).
   */
  readonly freeWaterSaturation: number | null;
  /**
   * The oil's solubility line for water, log10(mg/kg) = a - b/T; only the slope b, in kelvin, counts here. Default
   * null: from the oil.
   */
  readonly solubility: { readonly b: number } | null;
  /**
   * Steepness k in log10 N = c - k (log10 size)², below which no solid contaminant is known. Default 0.926
   * (MIL-STD-1246C, 1.4).
   */
  readonly flattestSteepness: number | null;
  /**
   * How seldom counts may repeat by chance before they are called stuck: a share of all runs of readings. Default 1e-8
   * (our choice): of a reading every five minutes, one false finding in some thousand years, of counts that are not
   * smoothed. How many repeats that takes follows from the particles counted and the digits shown: two of 18,903, 4,021
   * and 330 particles; of nothing but zeros no number of them. A counter that has given zeros from the start shows in a
   * low alarm of a monitor; a proof does not count its readings, unless this is null.
   */
  readonly stuckChance: number | null;
  /**
   * Oil that must have passed before the line holds new oil, mL, up to 100 L. Default null: `flush` gives it for the
   * line. It is held against `flushedMl`, and against the oil passed since flow was seen to begin: the sum of flow
   * times time, by the lesser flow of each two readings. Where nobody saw it begin, at the first reading and after more
   * than a minute and four usual intervals without a flow told, `standing_oil` is unchecked until so much has passed.
   */
  readonly flushMl: number | null;
  /** The greatest gauge pressure the sensor can take, kPa. Default null: from its data sheet. */
  readonly mostKPa: number | null;
  /**
   * How far the flow may swing from reading to reading, a share of itself, as a mean over the last eight or so, each at
   * most 15 minutes after the one before. Default 0.25 (our choice).
   */
  readonly flowSwing: number | null;
  /**
   * The share of the flow that the counter counts, from its data sheet; 1 where all of the oil is counted. Its volume
   * may be up to 1.2 times flow times time, times the share, and down to 1 / 1.2 of it (our choice). Where left out,
   * only a volume greater than 1.2 times all the oil that passed is found; null: never.
   */
  readonly countedShare?: number | null;
  /**
   * The viscosity line of the oil in the machine, as `viscosityLine` makes it. Default null: from the oil. A viscosity
   * is held against it at its temperature; one that was not measured is taken from it for `mostMm2PerS`.
   */
  readonly viscosityLine: ViscosityLine | null;
  /**
   * How far the viscosity may lie off that line, a share s: up to 1 + s times it, and down to 1 / (1 + s) of it.
   * Default 0.25: 10 % of the grade (ISO 3448), the rest for sensor and wear.
   */
  readonly viscosityShare: number | null;
  /**
   * How long the oil takes to settle after the flow has begun, ms: from the line. Where left out, a reading is at
   * start-up where its measurement began before the flow was seen, so far as it tells `measuringSeconds`; null: never.
   * Unchecked, as for `flushMl`, until flow whose beginning nobody saw has been told for so long; eleven days at most.
   */
  readonly settleMs?: number | null;
  /** How long a calibration holds, ms. Default null: from the data sheet or the house's rule. */
  readonly calibrationMs: number | null;
  /** How far the reading's clock may be ahead of the host's, ms. Default 300,000, five minutes (our choice). */
  readonly clockAheadMs: number | null;
  /**
   * What can be the temperature of an oil, °C: beyond, the thermometer has failed, and no other check looks at it.
   * Default -80 to 250 (our choice).
   */
  readonly plausibleCelsius: { readonly low: number; readonly high: number } | null;
  /**
   * The same for the gauge pressure, kPa. Default -101.325, where no pressure is left at all below the standard
   * atmosphere (ISO 2533), to 1,000,000 (our choice).
   */
  readonly plausibleKPa: { readonly low: number; readonly high: number } | null;
  /** The same for the kinematic viscosity, mm²/s. Default 0.2 to 20,000,000, the chart of ASTM D341. */
  readonly plausibleMm2PerS: { readonly low: number; readonly high: number } | null;
  /** What each finding makes of the figures it touches. `good` lists the finding and leaves their quality alone. */
  readonly qualities: Readonly<Record<FindingCode, Quality>>;
}

/** Limits of one's own: those left out keep their default. */
export type OwnReadingLimits = {
  readonly [name in Exclude<keyof ReadingLimits, 'qualities'>]?: ReadingLimits[name] | undefined;
} & {
  readonly qualities?: { readonly [code in FindingCode]?: Quality | undefined } | undefined;
};

/** How far a clock may be ahead of the host's where nothing is said. */
export const usualAheadMs = 300000;

/** How seldom counts may repeat by chance where nothing is said. */
export const usualStuckChance = 1e-8;

/** What spoils a figure where nothing is said; any other finding leaves it uncertain. */
const spoiling: readonly FindingCode[] = [
  ...(['no_flow', 'counts_rise_with_size', 'values_stuck', 'channels_stuck', 'line_not_flushed'] as const),
  ...(['flagged_by_instrument', 'channels_equal', 'code_unreadable', 'code_rises_with_size'] as const),
  ...(['no_particles', 'channel_empty', 'figure_implausible'] as const),
];

function usualQualities(): ReadingLimits['qualities'] {
  const qualities = {} as Record<FindingCode, Quality>;
  for (const code of findingCodes) qualities[code] = spoiling.indexOf(code) >= 0 ? 'bad' : 'uncertain';
  return qualities;
}

/** The defaults, all of them. */
export const defaultReadingLimits: ReadingLimits = {
  mlPerMin: null,
  leastKPa: null,
  mostMm2PerS: null,
  celsius: null,
  particles: 20,
  particleSizes: null,
  coincidencePerMl: null,
  freeWaterSaturation: 0.95,
  solubility: null,
  flattestSteepness: 0.926,
  stuckChance: usualStuckChance,
  flushMl: null,
  mostKPa: null,
  flowSwing: 0.25,
  viscosityLine: null,
  viscosityShare: 0.25,
  calibrationMs: null,
  clockAheadMs: usualAheadMs,
  plausibleCelsius: { low: leastOilCelsius, high: mostOilCelsius },
  plausibleKPa: { low: leastGaugeKPa, high: 1000000 },
  plausibleMm2PerS: { low: leastOilMm2PerS, high: 20000000 },
  qualities: /* @__PURE__ */ usualQualities(),
};
