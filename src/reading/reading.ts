/**
 * What a reading is: one visit of the instrument. Only the counts are required; each further figure lets one more thing be checked.
 */
import type { CumulativeCounts } from '../counts/index.ts';

/** One reading, as plain data. A figure that is not measured is left out or undefined, never set to 0. */
export interface Reading {
  /** Particles of a size and larger per mL. With `counted` and `volumeMl` (raw counts), the reading can say how sure it is. */
  readonly counts: CumulativeCounts;
  /** When the measurement ended, in ms since 1970-01-01T00:00:00Z. */
  readonly time?: number | undefined;
  /** Flow through the sensor, mL/min. */
  readonly mlPerMin?: number | undefined;
  /** How long particles were counted, s. */
  readonly measuringSeconds?: number | undefined;
  /** Gauge pressure in the sensor, kPa. */
  readonly kPa?: number | undefined;
  /** Oil temperature at the sensor, °C. */
  readonly celsius?: number | undefined;
  /** Kinematic viscosity at that temperature, mm²/s. */
  readonly mm2PerS?: number | undefined;
  /** Relative saturation with water at that temperature, a share from 0 to 2: 0 dry, 1 saturated, above 1 with free water. 0.45 for 45 %. */
  readonly waterSaturation?: number | undefined;
  /** The coldest the oil has been since the last reading, in the tank or in the sampling line, °C. */
  readonly coldestCelsius?: number | undefined;
  /** Oil passed through the sampling line since it was opened, mL. */
  readonly flushedMl?: number | undefined;
}

/** A reading with its time, and figures from elsewhere under names of one's own. Counts, flow, pressure and viscosity end at 1e12. */
export interface TimedReading extends Reading {
  /** When the measurement ended: whole milliseconds since 1970-01-01 UTC. */
  readonly time: number;
  /** Each from -1e12 to 1e12. */
  readonly others?: Readonly<Record<string, number>>;
}

/** How many readings running have had the same counts, and the fingerprint of those: enough to find counts that are stuck. */
export interface RepeatedCounts {
  readonly print: number;
  readonly count: number;
}

/** How far a value can be relied on, in the words of OPC UA (IEC 62541-8): usable, of less than normal quality, not usable. */
export type Quality = 'good' | 'uncertain' | 'bad';

/** What can be found wrong with a reading. */
export type FindingCode =
  | 'no_flow'
  | 'flow_low'
  | 'flow_high'
  | 'pressure_low'
  | 'viscosity_high'
  | 'temperature_low'
  | 'temperature_high'
  | 'few_particles'
  | 'counts_rise_with_size'
  | 'above_coincidence_limit'
  | 'free_water_likely'
  | 'cooled_below_saturation'
  | 'air_or_droplets_likely'
  | 'values_stuck'
  | 'line_not_flushed'
  | 'clock_backwards';

/** One thing found wrong with a reading. */
export interface Finding {
  readonly code: FindingCode;
  /** What this finding alone makes of the reading. */
  readonly quality: Quality;
  /** The figure found, in the unit of the reading. */
  readonly figure: number;
  /** The limit it was held against. */
  readonly limit: number;
  /** Plain words for a technician: figure, limit and what to do. Where someone may touch the line, safety comes first. */
  readonly text: string;
}

/** How far a reading can be relied on, and why. */
export interface Assessment {
  /** The worst quality of the findings; `good` where there are none. */
  readonly quality: Quality;
  readonly findings: readonly Finding[];
  /** What could not be checked, since the reading lacks the figure or no limit is set. `good` says nothing of these. */
  readonly unchecked: readonly FindingCode[];
}
