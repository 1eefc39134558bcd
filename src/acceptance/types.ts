/** What the proof of a flush or a fill is made of, what it remembers, and what it reports. */
import type { ClassTable, TargetOutcome } from '../codes/index.ts';
import type { CodePlan } from '../judging/codePlan.ts';
import type {
  Finding,
  FindingCode,
  OwnReadingLimits,
  Quality,
  ReadingLimits,
  Repeats,
  TimedReading,
} from '../reading/index.ts';
import type { Prepared } from '../state/prepared.ts';
import type { eventWords, notCountedWords, restartWords, unprovedWords } from './rules.ts';

/** What has to be shown. */
export interface AcceptanceConfig {
  /** The table, or its id: then it is looked for in `tables` and in those handed to `prepareAcceptance`. */
  readonly table: string | ClassTable;
  readonly tables?: readonly ClassTable[] | undefined;
  /**
   * The code or class to be met, in the notation of the table; one that no sample can have is refused, as 13/16/18 is,
   * which is 18/16/13 typed backwards.
   */
  readonly target: string;
  /** Labels of the columns to judge; all where left out. The record then shows no more than these. */
  readonly columns?: readonly string[] | undefined;
  /** How many consecutive good readings must meet it, 2 to 10000. */
  readonly readings: number;
  /** The least time that good readings must cover, ms. 0 where left out. */
  readonly leastMs?: number | undefined;
  /**
   * The least volume that must have passed between neighbouring good readings, by the volume counter `litres` of the
   * readings: what passed beside a reading that did not count, or over more than three usual intervals, is not proved.
   * The first three intervals of a proof are held against each other.
   */
  readonly leastLitres?: number | undefined;
  /**
   * The most that the flushing pump can deliver, L/min: more than that between two readings is a leap of the counter
   * and no volume. Without it every rise is believed, that of a counter replaced or read wrongly too.
   */
  readonly mostLitresPerMin?: number | undefined;
  /**
   * The longest time between two of them, ms: a longer one ends the run. Where left out no gap ends the run, but time
   * counts only over gaps of at most twice `leastMs` / (`readings` - 1), or an hour if that is more, and of at most
   * three usual intervals.
   */
  readonly maxGapMs?: number | undefined;
  /** What readings are held against; the defaults of `assessReading` where left out. */
  readonly limits?: OwnReadingLimits | undefined;
}

/** What has to be shown, checked, with all that follows from it. */
export interface PreparedAcceptance extends Prepared<'acceptance'> {
  /** What is proved, in words: a state belongs to it. */
  readonly of: string;
  /** A fingerprint of table, target, rule and limits. */
  readonly print: number;
  /** What the fingerprint is of; the limits by themselves, since a state of 0.1.0 may have named them otherwise. */
  readonly asked: readonly [before: string, limits: string, behind: string];
  readonly code: CodePlan & { readonly target: string };
  /** The ids that codes of a reading may stand under: of the tables at hand and of the standards. */
  readonly tableIds: readonly string[];
  readonly readings: number;
  readonly leastMs: number;
  readonly leastLitres: number;
  /** Null where none is set. */
  readonly mostLitresPerMin: number | null;
  /** The longest gap that time counts over, and whether a longer one ends the run. */
  readonly gap: { readonly mostMs: number; readonly ends: boolean };
  /** By column judged, how much oil a reading of counts must be of. */
  readonly volumes: readonly AcceptanceVolume[];
  readonly limits: ReadingLimits;
}

/**
 * A reading, with the volume counter of the oil flushed or filled. `mlPerMin` is the flow through the sensor as in
 * every reading, not that of the flushing pump.
 */
export interface AcceptanceReading extends TimedReading {
  /**
   * The volume counter in the flushing or filling line, L: it may start anywhere and never falls. Not the content of
   * the tank, which has this name in motescale/filtration.
   */
  readonly litres?: number | undefined;
}

/** The consecutive readings at present, all good and at or better than target. */
export interface AcceptanceRun {
  readonly readings: number;
  /**
   * How many of them counted few particles, and met the target even at the upper limit of the counting statistics
   * (`codeInterval`).
   */
  readonly fewParticles: number;
  /** How many of them came as a code alone, of which no counting statistics are known. Left out where none did. */
  readonly withoutCounts?: number;
  /** The same of counts per mL of which nobody knows how many particles they are. */
  readonly withoutVolume?: number;
  /** How many readings handed in since it began did not count. Left out where each did. */
  readonly notCounted?: number;
  /** How many of these had the counts of the reading before. Left out where none had. */
  readonly sameAsLast?: number;
  readonly from: number;
  readonly to: number;
  /**
   * The time proved: the sum of the times between neighbouring good readings, without longer gaps and what lies between
   * others, and without those in which the volume counter stood.
   */
  readonly ms: number;
  /** When the last of `readings` came; left out where it came at `to`. */
  readonly countedAt?: number;
  /** For how long the volume counter has stood, ms: proved if it soon moves. Left out where it moves. */
  readonly stoodMs?: number;
  /**
   * What the first gaps have proved, each with its length, ms: taken back if it turns out longer than three usual ones.
   * Left out once three intervals are known, and with `maxGapMs`.
   */
  readonly early?: readonly { readonly gap: number; readonly ms: number; readonly litres: number }[];
  /**
   * The volume proved, L, of that from `fromLitres` to `toLitres`: what passed between neighbouring good readings, but
   * over more than three usual intervals. 0 without a volume counter.
   */
  readonly litres: number;
  readonly fromLitres: number | null;
  readonly toLitres: number | null;
  /** Whether the counts of all its readings are equal, as those of a frozen counter; left out of codes alone. */
  readonly counts?: 'equal' | 'changed';
  /**
   * The least margin at each size over all of them, in classes; of one that counted few particles, that of the upper
   * limit.
   */
  readonly margins: readonly { readonly column: string; readonly classes: number }[];
  /**
   * What was not looked at in one of them or more, since the reading lacks the figure or the limits do not ask.
   * `volume_stood`: without `litres` nothing shows that the oil flushed moves.
   */
  readonly unchecked: readonly (FindingCode | 'volume_stood')[];
}

/** Why a run ended before it proved anything. */
export interface AcceptanceRestart {
  readonly time: number;
  readonly why: (typeof restartWords)[number];
  /** The code read then. */
  readonly text: string | null;
}

/**
 * The record of a proof. It shows that the oil sampled met the target; whether the machine may run is decided by those
 * who answer for it.
 */
export interface AcceptanceRecord {
  /** The id of the table, its title, and the editions it was taken from; null where it names none. */
  readonly table: string;
  readonly title: string;
  readonly edition: string | null;
  readonly target: string;
  /** Columns of the table that were not judged; those that were stand in `run.margins`. */
  readonly leftOut: readonly string[];
  readonly run: AcceptanceRun;
  /**
   * The worst class of the run at each column judged, as a code: no one reading need have had it. Of a reading of few
   * particles it is that of the upper limit.
   */
  readonly worst: string;
  /** The code of the last reading. */
  readonly text: string;
  readonly required: { readonly readings: number; readonly ms: number; readonly litres: number };
  /** All readings since the start, and the time of the first of them; null where version 0.1 began the proof. */
  readonly readings: number | null;
  readonly began: number | null;
  /** Readings since the start that did not count, whatever for; and how often a run ended. */
  readonly notCounted: number;
  readonly restarts: number;
  readonly lastRestart: AcceptanceRestart | null;
  /** The first reading of within the run that came after the acceptance and was worse; left out where none did. */
  readonly contradicted?: { readonly time: number; readonly text: string };
}

/** The least volume of oil in one reading that can prove a column, if none of its particles is counted. */
export interface AcceptanceVolume {
  readonly column: string;
  /** mL; null where no volume can: the limit is 0, or the column is none that a particle counter tells. */
  readonly leastMl: number | null;
}

/**
 * Plain JSON of at most 6144 bytes (a table that could need more is refused): to be saved and restored between any two
 * readings.
 */
export interface AcceptanceState {
  readonly version: number;
  /** What it proves, and the fingerprint of it: under another configuration the state is refused. */
  readonly of: string;
  readonly print: number;
  /** The time of the last reading in order, and when it came in, where the host says so. */
  readonly time?: number;
  readonly receivedAt?: number;
  /** The last five times between two readings in order, ms. */
  readonly gaps?: readonly number[];
  /** Readings in a row older than `time`, each newer than the one before: three of them show a clock set back. */
  readonly older?: { readonly count: number; readonly time: number };
  /** The latest time of a reading worse than the target: what is dated before proves nothing. */
  readonly worseAt?: number;
  /** The volume counter at the last reading in order. */
  readonly litres?: number;
  readonly repeats?: Repeats;
  /** By what the last 32 readings are known again: five characters each. */
  readonly seen?: string;
  /** Left out before the first, after a restart, and once accepted: the record has it then. */
  readonly run?: AcceptanceRun;
  /**
   * All readings since the start, and the time of the first. Left out where version 0.1 began the proof, and once
   * accepted: the record has them then.
   */
  readonly readings?: number;
  readonly began?: number;
  readonly notCounted: number;
  readonly restarts: number;
  readonly lastRestart?: AcceptanceRestart;
  /** The record once the proof is there; it then stands, but for what contradicts it. */
  readonly accepted?: AcceptanceRecord;
}

/** What a proof still wants: readings, time and volume. All 0 once it is there. */
export interface AcceptanceWanting {
  /** At least: where `maxGapMs` is set, as many as the time wanting takes. */
  readonly readings: number;
  readonly ms: number;
  readonly litres: number;
}

/**
 * What a reading did: exactly one event for each reading, and `restarted` before it where a run ended. `acceptanceText`
 * says it in words.
 */
export interface AcceptanceEvent {
  readonly time: number;
  readonly event: (typeof eventWords)[number];
  readonly text: string | null;
  /** That of the counts, or of the code where there are none. */
  readonly quality: Quality;
  readonly outcome: TargetOutcome | null;
  /** On `restarted` and `not_counted`. */
  readonly why?: (typeof restartWords)[number] | (typeof notCountedWords)[number];
  /** On `not_counted` for `bad` and `uncertain`: what was found. */
  readonly findings?: readonly Finding[];
  /** On `not_counted` for `not_known` and `few_counted`: the sizes; for `no_code`: why there is none. */
  readonly missing?: readonly string[];
  readonly reason?: string;
  /**
   * On `not_counted` for `uncertain`, `few_counted` and `not_known`: columns that no reading of this volume can prove,
   * not even one that counts none of their particles, and what volume could.
   */
  readonly unprovable?: readonly AcceptanceVolume[];
  /** On `counted`, and on `not_counted` for `overlapping` and `same_as_last`: what is still wanting. */
  readonly wanting?: AcceptanceWanting;
  /** On the same and `accepted`: why time or volume since the reading before is not proved. */
  readonly unproved?: (typeof unprovedWords)[number];
  /** On `accepted`. */
  readonly record?: AcceptanceRecord;
}
