/**
 * What a monitor is told about a machine, what it remembers, and what it answers.
 */

import type { AlarmCommand, AlarmConfig, AlarmEvent, AlarmState, AlarmStateName } from '../alarm/types.ts';
import type { CodeVerdict, MonitorFigure, WatchedTable } from '../judging/types.ts';
import type { Assessment, FindingCode, Quality, TimedReading } from '../reading/reading.ts';
import type { OwnReadingLimits } from '../reading/readingLimits.ts';
import type { Repeats } from '../reading/repeats.ts';

/** An alarm on a figure. */
export interface FigureAlarm extends AlarmConfig {
  readonly figure: MonitorFigure;
}

/**
 * An alarm on a code or class: the setpoint is a code of the table, and the figure is by how many classes the worst of its sizes is dirtier.
 * So `18/16/13` raises as soon as one size is one class above it, and returns at 18/16/13, or as many classes below as the deadband. A size that the setpoint asks for and the
 * reading lacks can neither raise nor clear: the alarm stays as it is, unless another size is beyond.
 */
export interface CodeAlarm extends Omit<AlarmConfig, 'type' | 'setpoint' | 'withinMs'> {
  readonly type: 'high';
  readonly figure: { readonly code: string };
  readonly setpoint: string;
}

/** An alarm on a figure, or on a code. */
export type MonitorAlarm = FigureAlarm | CodeAlarm;

/** A figure followed over weeks: means of equal blocks of time, a rolling trend over them, and changes of their level found. */
export interface FollowedFigure {
  readonly id: string;
  readonly figure: MonitorFigure;
  /** Length of a block: 12 hours where left out, at least a minute. */
  readonly blockMs?: number;
  /** How many blocks the trend looks back over: 40 where left out, 8 to 60. */
  readonly blocks?: number;
  /** How many blocks the usual level and its spread are learned from: 30 where left out, 5 to 1000. */
  readonly learn?: number;
  /** CUSUM, in standard deviations of the blocks: slack k (0.75 where left out) and decision h (8 where left out). */
  readonly slack?: number;
  readonly decision?: number;
}

/** What to do with the readings of one machine. */
export interface MonitorConfig {
  /** The tables to write codes in, each with a target or without. A table stands once. */
  readonly codes: readonly WatchedTable[];
  /** What readings are held against; the defaults of `assessReading` where left out. */
  readonly limits?: OwnReadingLimits;
  readonly alarms?: readonly MonitorAlarm[];
  readonly follow?: readonly FollowedFigure[];
  /** Reports when the last usable reading is older than this. Never where left out. */
  readonly staleAfterMs?: number;
}

/** A reading, a command to one alarm, or only the time. */
export type MonitorInput = TimedReading | (AlarmCommand & { readonly alarm: string }) | { readonly time: number };

/** A trend over the closed blocks. */
export interface RollingTrend {
  readonly from: number;
  readonly to: number;
  /** Blocks with a reading in them. */
  readonly blocks: number;
  /** Sen's slope per day, and its limits at 95 %; null where the blocks are too few to give one. */
  readonly perDay: number;
  readonly low: number | null;
  readonly high: number | null;
  /** Mann-Kendall, two-sided. */
  readonly p: number;
  /** `not distinguishable` from no trend where p is 0.05 or more. */
  readonly direction: 'rising' | 'falling' | 'not distinguishable';
}

/** What one reading says. It supports the decision whether a machine may run, and never takes it. */
export interface Verdict {
  readonly time: number;
  /** `late`: older than the last; `repeated`: its time was there already; `too late`: so old that this cannot be told. */
  readonly arrival: 'in order' | 'late' | 'repeated' | 'too late';
  /** That of the counts or the code; each figure has its own in `figureQualities`. */
  readonly quality: Quality;
  readonly figureQualities: Assessment['figureQualities'];
  readonly findings: Assessment['findings'];
  readonly unchecked: readonly FindingCode[];
  readonly codes: readonly CodeVerdict[];
  /** True: all targets met; false: one is not; null: no target, a bad reading, or a size of the target not known. */
  readonly inTarget: boolean | null;
  /**
   * `judged`: this reading moved the alarm on. False where its figure is bad, it is out of order, lacks the figure, or lacks a size that could be beyond
   * the setpoint; the state is then that of before.
   */
  readonly alarms: readonly { readonly id: string; readonly state: AlarmStateName; readonly judged: boolean }[];
  /** Null until eight blocks have closed. */
  readonly trends: readonly { readonly id: string; readonly trend: RollingTrend | null }[];
}

/** What happened in the coming in of readings. */
export interface ArrivalEvent {
  readonly time: number;
  readonly event: 'late' | 'too_late' | 'repeated' | 'contradicted' | 'readings_stale' | 'readings_restored';
  /** Time of the reading it is about. */
  readonly reading?: number;
  /** On `late`: alarms of type high and low whose setpoint it lies beyond; and the followed figures whose open block it still entered. */
  readonly beyond?: readonly string[];
  readonly followed?: readonly string[];
}

/** The level of a followed figure has changed. */
export interface ChangeEvent {
  /** End of the block that decided. */
  readonly time: number;
  readonly event: 'change_found';
  readonly followed: string;
  readonly direction: 'up' | 'down';
  /** Start of the first block that counted towards it: about when the change came. */
  readonly since: number;
  /** The usual level before, and an estimate of the new one. */
  readonly before: number;
  readonly after: number;
}

/** What an input to the monitor brought about: at an alarm, in the order of readings, or as a change found. */
export type MonitorEvent = AlarmEvent | ArrivalEvent | ChangeEvent;

/** What a monitor remembers of a followed figure. */
export interface FollowedState {
  readonly id: string;
  /** Fingerprint of the figure, the length and the number of blocks: what the means below are means of. */
  readonly print: number;
  /** Number of the open block since 1970, mean and number of readings. */
  readonly open: { readonly block: number; readonly mean: number; readonly count: number } | null;
  /** Means of the blocks before it, null where there was no reading; the last one is block `last`. */
  readonly last: number;
  readonly means: readonly (number | null)[];
  /** The usual level, while and after it is learned. */
  readonly level: { readonly count: number; readonly mean: number; readonly squares: number };
  /** The two sums of the CUSUM, in standard deviations, and the blocks and number of values since each was zero. */
  readonly up: { readonly sum: number; readonly since: number; readonly count: number };
  readonly down: { readonly sum: number; readonly since: number; readonly count: number };
  readonly trend: RollingTrend | null;
}

/** What a monitor remembers of a machine: plain JSON, at most 9984 bytes however long it runs. */
export interface MonitorState {
  readonly version: 1;
  /** The latest time of an input, null before the first. */
  readonly time: number | null;
  /** The last readings: time and a fingerprint of the figures, oldest first. */
  readonly recent: readonly (readonly [number, number])[];
  /** What is remembered of the readings before: their counts, and how often they came again. */
  readonly repeats: Repeats;
  /** How many readings have come, of each kind; `bad` of those in order. */
  readonly counted: {
    readonly inOrder: number;
    readonly bad: number;
    readonly late: number;
    readonly tooLate: number;
    readonly repeated: number;
  };
  readonly heard: number | null;
  readonly stale: boolean;
  /** With a fingerprint of type, figure and `withinMs`: what the figures of the state are figures of. */
  readonly alarms: readonly { readonly id: string; readonly print: number; readonly state: AlarmState }[];
  readonly followed: readonly FollowedState[];
}
