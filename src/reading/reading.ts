/**
 * What a reading is: one visit of the instruments, and whatever they gave. Nothing is required; each figure lets one
 * more thing be known.
 */
import type { CumulativeCounts, Sizing } from '../counts/index.ts';
import type { findingCodes } from './findingKinds.ts';

/**
 * How far a value can be relied on, in the words of OPC UA (IEC 62541-8): usable, of less than normal quality, not
 * usable.
 */
export type Quality = 'good' | 'uncertain' | 'bad';

/**
 * The figures that can be trusted or not, each by itself. `counts` stands for the counts, and for a code given without
 * them.
 */
export type FigureName = 'counts' | 'mlPerMin' | 'kPa' | 'celsius' | 'mm2PerS' | 'waterSaturation';

/** A figure from elsewhere, with its own quality where its source tells one. */
export type OtherFigure = number | { readonly value: number; readonly quality: Quality };

/**
 * One reading, as plain data. A figure that is not measured is left out or undefined, never set to 0. Flow, pressure
 * and viscosity end at 1e12.
 */
export interface Reading {
  /** When the measurement ended: whole milliseconds since 1970-01-01T00:00:00Z. */
  readonly time?: number | undefined;
  /** When the reading came in, by the clock of the host. */
  readonly receivedAt?: number | undefined;
  /**
   * Particles of a size and larger per mL, at up to 32 sizes. With `counted` and `volumeMl` (raw counts), the reading
   * can say how sure it is.
   */
  readonly counts?: CumulativeCounts | undefined;
  /**
   * Codes by the id of their table, as an instrument without counts gives them: `{ iso4406: '18/16/13' }`. Where there
   * are counts, they decide.
   */
  readonly codes?: Readonly<Record<string, string>> | undefined;
  /** Flow through the sensor, mL/min. What a meter at rest shows below 0 is none. */
  readonly mlPerMin?: number | undefined;
  /** How long particles were counted, s. */
  readonly measuringSeconds?: number | undefined;
  /** Gauge pressure in the sensor, kPa. */
  readonly kPa?: number | undefined;
  /** Oil temperature at the sensor, °C. */
  readonly celsius?: number | undefined;
  /** Kinematic viscosity at that temperature, mm²/s. */
  readonly mm2PerS?: number | undefined;
  /**
   * Relative saturation with water at that temperature, a share from 0 to 2: 0 dry, 1 saturated, above 1 with free
   * water. 0.45 for 45 %.
   */
  readonly waterSaturation?: number | undefined;
  /** The coldest the oil has been since the last reading, in the tank or in the sampling line, °C. */
  readonly coldestCelsius?: number | undefined;
  /** Oil passed through the sampling line since it was opened, mL. */
  readonly flushedMl?: number | undefined;
  /** When the counter was last calibrated, ms since 1970. After the reading itself it says nothing. */
  readonly calibratedAt?: number | undefined;
  /** What the machine was doing, in a word of one's own: `lifting`, `standby`. */
  readonly mode?: string | undefined;
  /**
   * What the instrument itself says of a figure, where it flags one: `{ counts: 'bad' }`. One that it calls bad and
   * does not send is a figure that should have come.
   */
  readonly qualities?: Readonly<Partial<Record<FigureName, Quality>>> | undefined;
  /** Up to 64 figures from elsewhere under names of one's own, each from -1e12 to 1e12. */
  readonly others?: Readonly<Record<string, OtherFigure>> | undefined;
}

/** A reading with its time, as monitor, acceptance, roll-up and report take it. */
export interface TimedReading extends Reading {
  readonly time: number;
}

/** What can be found wrong with a reading. */
export type FindingCode = (typeof findingCodes)[number];

/** One thing found wrong with a reading, and which figures it touches; `findingText` writes it out. */
export interface Finding {
  readonly code: FindingCode;
  /** What this finding alone makes of the figures it touches. */
  readonly quality: Quality;
  /** The figures it touches. Those of other names are as good as before. */
  readonly affects: readonly FigureName[];
  /**
   * The figure found, in the unit of the reading. Of a code without counts (`received`): for `few_particles` the most
   * that its `>=` allows, 19; for `above_coincidence_limit` the fewest per mL by its class, and for `*` the limit
   * itself, 0 where none is set; for `flat_size_distribution` the steepest slope that its classes allow.
   */
  readonly value: number;
  /** The limit it was held against. */
  readonly limit: number;
  /** The sizes it is about, in µm, and how they were measured; only on findings about some of the sizes. */
  readonly sizes?: readonly number[];
  readonly sizing?: Sizing;
  /** The code as it came; only on findings about a code without counts. */
  readonly received?: string;
  /** The figure is between `value` and this; only on `start_up`, where it is known when no flow was last told. */
  readonly most?: number;
}

/** How far each figure of a reading can be relied on, and why. */
export interface Assessment {
  /**
   * The quality of the counts, or of the code where there are none: the worst of the findings that touch them, `good`
   * without any. Of a reading with neither, `bad` where it calls its counts so, else the worst of its figures.
   */
  readonly quality: Quality;
  /** Of each figure that the reading has, or calls bad without it: the worst finding that touches it. */
  readonly figureQualities: Readonly<Partial<Record<FigureName, Quality>>>;
  readonly findings: readonly Finding[];
  /**
   * What could not be checked, since the reading lacks the figure or has a bad one, or no limit is set. `good` says
   * nothing of these.
   */
  readonly unchecked: readonly FindingCode[];
}
