/**
 * What the proof of a flush or a fill is made of, what it remembers, and what it reports.
 */
import type { ClassTable, TargetOutcome } from '../codes/index.ts';
import type { FindingCode, OwnReadingLimits, Quality } from '../reading/index.ts';
import type { TimedReading } from '../reading/reading.ts';
import type { Repeats } from '../reading/repeats.ts';

/** What has to be shown. */
export interface AcceptanceConfig {
  readonly table: ClassTable;
  /** The code or class to be met, in the notation of the table. */
  readonly target: string;
  /** Labels of the columns to judge; all where left out. The record then shows no more than these. */
  readonly columns?: readonly string[];
  /** How many good readings running must meet it, 2 to 10000. */
  readonly readings: number;
  /** The least time from the first of them to the last. 0 where left out. */
  readonly leastMs?: number;
  /** The least volume that must have passed from the first of them to the last, by the volume counter `litres` of the readings. */
  readonly leastLitres?: number;
  /** The longest time between two of them, beyond which they are not running. No limit where left out. */
  readonly longestGapMs?: number;
  /**
   * What readings are held against; the defaults of `assessReading` where left out. How many readings a frozen counter is found by depends on
   * the particles counted and the digits shown (`stuckChance`); the record says where those of the run were too few to tell.
   */
  readonly limits?: OwnReadingLimits;
}

/** A reading, with the volume counter of the oil flushed or filled: it may start anywhere and never falls. */
export interface AcceptanceReading extends TimedReading {
  readonly litres?: number;
}

/** The readings that run at present, all good and at or better than target. */
export interface AcceptanceRun {
  readonly readings: number;
  /** How many of them counted few particles, and met the target even at the upper limit of the counting statistics (`codeInterval`). */
  readonly fewParticles: number;
  readonly from: number;
  readonly to: number;
  readonly fromLitres: number | null;
  readonly toLitres: number | null;
  /** The least margin at each size over all of them, in classes; of one that counted few particles, that of the upper limit. */
  readonly margins: readonly { readonly column: string; readonly classes: number }[];
  /**
   * What was not looked at in one of them or more, since the reading lacks the figure or the limits do not ask; in the record `values_stuck` too
   * where they are fewer than tell a frozen counter.
   */
  readonly unchecked: readonly FindingCode[];
}

/** Why a run ended before it proved anything. */
export interface AcceptanceRestart {
  readonly time: number;
  readonly why:
    | 'worse than target'
    | 'counts stuck'
    | 'too long since the last good reading'
    | 'volume counter ran back';
  /** The code read then. */
  readonly text: string | null;
}

/** The record of a proof. It shows that the oil sampled met the target; whether the machine may run is decided by those who answer for it. */
export interface AcceptanceRecord {
  readonly table: string;
  readonly target: string;
  readonly run: AcceptanceRun;
  /** The code of the last reading. */
  readonly text: string;
  readonly required: { readonly readings: number; readonly ms: number; readonly litres: number };
  /** Readings since the start that did not count, whatever for; and how often a run ended. */
  readonly notCounted: number;
  readonly restarts: number;
  readonly lastRestart: AcceptanceRestart | null;
}

/** Plain JSON of at most 6144 bytes (a table that could need more is refused at the start): to be saved and restored between any two readings. */
export interface AcceptanceState {
  readonly version: 1;
  /** Fingerprint of the configuration: under another one the state is refused. */
  readonly print: number;
  readonly time: number | null;
  /** The volume counter at the last reading in order. */
  readonly litres: number | null;
  /** The last counts, and how often they have come again. */
  readonly repeats: Repeats;
  /** Null before the first, after a restart, and once accepted: the record has it then. */
  readonly run: AcceptanceRun | null;
  readonly notCounted: number;
  readonly restarts: number;
  readonly lastRestart: AcceptanceRestart | null;
  /** The record once the proof is there; it then stands. */
  readonly accepted: AcceptanceRecord | null;
}

/** What a reading did: exactly one event for each reading, and `restarted` before it where a run ended. */
export interface AcceptanceEvent {
  readonly time: number;
  readonly event: 'counted' | 'not_counted' | 'restarted' | 'accepted' | 'after_acceptance';
  readonly text: string | null;
  readonly quality: Quality;
  readonly outcome: TargetOutcome | null;
  /** On `restarted` and `not_counted`. */
  readonly why?: string;
  /** On `counted`: readings, time and volume still wanting. */
  readonly wanting?: { readonly readings: number; readonly ms: number; readonly litres: number };
  /** On `accepted`. */
  readonly record?: AcceptanceRecord;
}
