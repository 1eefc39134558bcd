/** What a monitor is told about a machine, what it remembers, and what it answers. */
import type {
  AlarmCommand,
  AlarmConfig,
  AlarmEvent,
  AlarmMemory,
  AlarmPlan,
  AlarmPriority,
  AlarmSettings,
  AlarmStateName,
  Tick,
} from '../alarm/types.ts';
import type { ClassTable, MeasurementErrors } from '../codes/index.ts';
import type { Wanted } from '../codes/targetOutcome.ts';
import type { CodePlan } from '../judging/codePlan.ts';
import type { CodeVerdict, MonitorFigure } from '../judging/types.ts';
import type { Needed } from '../reading/assess/check.ts';
import type { FigureName, Finding, FindingCode, Quality, TimedReading } from '../reading/reading.ts';
import type { OwnReadingLimits, ReadingLimits } from '../reading/readingLimits.ts';
import type { Repeats } from '../reading/remembered/repeats.ts';
import type { Prepared } from '../state/prepared.ts';
import type { ChangeStep, PreparedChange } from '../trend/change/types.ts';

/** An alarm on a figure. */
export interface FigureAlarm extends AlarmConfig {
  readonly figure: MonitorFigure;
}

/**
 * An alarm on a code or class: the setpoint is a code of the table, and the figure is by how many classes the worst of
 * its sizes is dirtier. So `18/16/13` raises as soon as one size is one class above it, and returns at 18/16/13, or as
 * many classes below as the deadband. A size that the setpoint asks for and the reading lacks can neither raise nor
 * clear: the alarm stays as it is, unless another size is beyond. So it is of just the class asked for by fewer than 20
 * particles (`>=13`), as `meets` has it.
 */
export interface CodeAlarm extends AlarmSettings {
  readonly type: 'high';
  readonly figure: { readonly code: string };
  readonly setpoint: string;
}

/** An alarm on a figure, or on a code. */
export type MonitorAlarm = FigureAlarm | CodeAlarm;

/**
 * A figure followed over weeks: means of equal blocks of time, a rolling trend over them, and changes of their level
 * found. The trend is looked at again and again: nine quiet years in ten show `rising` or `falling` for some days, on 3
 * to 8 % of all; under scatter of single days upon a long memory on up to 21 %, and one year in five for a month on end
 * (docs/rates.md). Of `continuousScaleNumberAt` readings should count eight particles and more, see `MonitorFigure`.
 */
export interface FollowedFigure {
  readonly id: string;
  readonly figure: MonitorFigure;
  /** Length of a block: a day where left out, at least a minute. The detector is tuned for days. */
  readonly blockMs?: number | undefined;
  /** How many blocks the trend looks back over: 40 where left out, 8 to 60. */
  readonly blocks?: number | undefined;
  /**
   * The smallest step worth telling, in the unit of the figure. Half a scale number where left out and the figure is
   * one; of other figures no change is told without it.
   */
  readonly least?: number | undefined;
  /** The half-swing over the year that is no change: 0.6 x `least` where left out. */
  readonly season?: number | undefined;
  /** The step in which values come, where they are rounded. */
  readonly resolution?: number | undefined;
}

/** A table to write codes in, by itself or by its id, with a target or without. */
export interface MonitorCode {
  readonly table: string | ClassTable;
  readonly target?: string | undefined;
  /**
   * Labels of the columns to judge, for verdict and alarms; all where left out. For a counter that lacks the sizes of
   * the others.
   */
  readonly columns?: readonly string[] | undefined;
  /**
   * What makes the counts unsure beside their number, as `targetProbability` takes it; `{}` for its defaults, which
   * are common practice and no measure of your counter. The verdict then says with what probability the target is met:
   * of several sizes a figure too low where an oil's sizes go together (`targetProbability` says how far).
   * It costs a reading 1 to 5 ms for each table, ten times what all the rest of it does, and nothing where left out.
   * Alarms do not look at it.
   */
  readonly errors?: MeasurementErrors | undefined;
}

/** What to do with the readings of one machine. */
export interface MonitorConfig {
  /** Tables of one's own that `codes` name by their ids, beside those handed to `prepareMonitor`. */
  readonly tables?: readonly ClassTable[] | undefined;
  /** The tables to write codes in, each with a target or without. A table stands once. */
  readonly codes: readonly MonitorCode[];
  /** What readings are held against; the defaults of `assessReading` where left out. */
  readonly limits?: OwnReadingLimits | undefined;
  readonly alarms?: readonly MonitorAlarm[] | undefined;
  readonly follow?: readonly FollowedFigure[] | undefined;
  /**
   * Reports when the last usable reading is older than this, when the last good figure of an alarm is that has no
   * `staleAfterMs` of its own, and when the last reading is that told how a target stands whose code no alarm looks at.
   * Where left out: older than ten of the usual intervals, and at least a day; from the second reading on. Null:
   * readings and targets are never reported so.
   */
  readonly staleAfterMs?: number | null | undefined;
  /**
   * An input so far ahead of the last is set aside until the next ones tell whether the clock has been set. Where left
   * out: ten of the usual intervals, and at least a day; from the second reading on.
   */
  readonly clockJumpMs?: number | undefined;
  /**
   * `quality_restored` tells of a figure only after it has been given and not bad in so many readings in order in a
   * row, 1 to 1000; a reading that lacks it counts neither way. 1 where left out. Alarms judge each good reading all
   * the same.
   */
  readonly restoredAfter?: number | undefined;
  /**
   * Findings that are told by events, `finding_came` and `finding_gone`, whatever quality they leave: one that makes a
   * figure no more than uncertain is in no event else. Gone is one that was looked for and not found in `restoredAfter`
   * readings in order in a row. None where left out.
   */
  readonly tell?: readonly FindingCode[] | undefined;
  /**
   * The most bytes the state may take as JSON; a configuration that could need more is refused. 8192 where left out.
   */
  readonly maxStateBytes?: number | undefined;
}

/** An alarm as a step needs it. */
export interface AlarmWatch {
  readonly figure: MonitorFigure | { readonly code: string };
  readonly plan: AlarmPlan;
  /** Of an alarm on a code: the place of its table among the codes, and the classes its setpoint asks for. */
  readonly onCode: { readonly place: number; readonly wanted: Wanted } | null;
  /**
   * Of a rise or fall of a scale number: it goes by no fewer particles than these, which chance cannot feign.
   */
  readonly fewest: number | null;
}

/** A followed figure as a step needs it. */
export interface FollowPlan {
  readonly id: string;
  readonly figure: MonitorFigure;
  readonly blockMs: number;
  readonly blocks: number;
  readonly detector: PreparedChange;
  /** What the kept figures are figures of, in words. */
  readonly of: string;
}

/**
 * What `prepareMonitor` returns: the configuration checked, and all that follows from it. Plain data, which survives
 * JSON.
 */
export interface PreparedMonitor extends Prepared<'monitor'> {
  /** The name of this version of the configuration: the caller's, or a fingerprint of it. */
  readonly configuration: string;
  /** The fingerprint of the configuration. */
  readonly print: number;
  readonly codes: readonly CodePlan[];
  /** The ids that codes of a reading may stand under: of the tables at hand and of the standards. */
  readonly tableIds: readonly string[];
  readonly limits: ReadingLimits;
  /** The sizes that targets, alarms and followed figures need. */
  readonly needed: readonly Needed[];
  readonly alarms: readonly AlarmWatch[];
  readonly follow: readonly FollowPlan[];
  /** The places of the codes with a target on which no alarm stands. */
  readonly targets: readonly number[];
  readonly staleAfterMs: number | 'usual' | null;
  readonly clockJumpMs: number | 'usual';
  /** Left out where it is 1. */
  readonly restoredAfter?: number;
  /** Left out where there is none. */
  readonly tell?: readonly FindingCode[];
  readonly maxStateBytes: number;
  /** What the state takes at most as JSON, however long it runs. */
  readonly stateBytes: number;
}

/** A reading; `kind` may be left out. */
export interface ReadingInput extends TimedReading {
  readonly kind?: 'reading';
}

/** A command to one alarm. */
export type MonitorCommand = AlarmCommand & { readonly alarm: string };

/**
 * Begins to learn anew what is usual for a followed figure, or for all: after an oil change, a repair. What comes in
 * the four weeks from `time` on is learned as normal, a change too.
 */
export interface Relearn {
  readonly kind: 'relearn';
  readonly time: number;
  readonly followed?: string;
}

/** A reading where `kind` is left out; a command to one alarm, the passing of time, or the order to learn anew. */
export type MonitorInput = ReadingInput | MonitorCommand | Tick | Relearn;

/** A trend over the closed blocks. */
export interface RollingTrend {
  readonly from: number;
  /** End of the last block with a value: it may lie 28 blocks back, or as many as the trend looks over. */
  readonly to: number;
  /** Blocks with a reading in them. */
  readonly blocks: number;
  /** Sen's slope per day, and its limits at 95 %; null where the blocks are too few to give one. */
  readonly perDay: number;
  readonly low: number | null;
  readonly high: number | null;
  /**
   * The chance of a slope so far from 0, either way; null where the blocks are too few to tell how alike neighbours
   * are.
   */
  readonly p: number | null;
  /** `not_distinguishable` from no trend where p is 0.05 or more. */
  readonly direction: 'rising' | 'falling' | 'not_distinguishable';
}

/**
 * How a reading came. `late`: older than the last; `repeated`: its time was there already, with a figure of the same
 * kind; `too_late`: so old that this cannot be told; `set_aside`: so far ahead that the clock is doubted.
 */
export type Arrival = 'in_order' | 'late' | 'repeated' | 'too_late' | 'set_aside';

/** What one reading says. It supports the decision whether a machine may run, and never takes it. */
export interface Verdict {
  readonly time: number;
  readonly arrival: Arrival;
  /** Of the counts or the code; of a reading with neither, the worst of its figures. */
  readonly quality: Quality;
  /** Of each figure the reading has, or calls bad without having it, by its own findings. */
  readonly figureQualities: Readonly<Partial<Record<FigureName, Quality>>>;
  readonly findings: readonly Finding[];
  readonly unchecked: readonly FindingCode[];
  readonly codes: readonly CodeVerdict[];
  /** True: all targets met; false: one is not; null: no target, bad counts, or a size of the target not known. */
  readonly inTarget: boolean | null;
  /**
   * `state`: after the step. `judged`: this reading moved the alarm on. False where its figure is bad, the reading is
   * out of order, lacks the figure, lacks a size that could be beyond the setpoint, or has just its class by few
   * particles: time alone may then have moved it.
   */
  readonly alarms: readonly { readonly id: string; readonly state: AlarmStateName; readonly judged: boolean }[];
  /**
   * Null until eight blocks have closed, and where the last 28 of them have no value, or as many as the trend looks
   * over where these are fewer.
   */
  readonly trends: readonly { readonly id: string; readonly trend: RollingTrend | null }[];
}

/** What stands, by a state alone. */
export interface AlarmSummary {
  /** Of the last input; null before the first. */
  readonly time: number | null;
  /** No reading has come for too long. */
  readonly stale: boolean;
  /** The figures told bad and not yet restored, in words. */
  readonly bad: readonly string[];
  readonly alarms: readonly {
    readonly id: string;
    readonly state: AlarmStateName;
    /**
     * When it was last raised or returned, as the event said, or when it did so in a silence; null where it never was.
     * Where the clock was set back to before that, it has gone back with it.
     */
    readonly since: number | null;
    /**
     * The last figure that could be relied on; of an alarm on a change how much it has changed, on a code how many
     * classes it lies beyond. Null where there was none. Whether it still can be says `bad`.
     */
    readonly value: number | null;
    /** As the configuration has them; these and the next are what `raised` says too. */
    readonly setpoint: number | string;
    readonly priority: AlarmPriority;
    /** Which figure, in words. */
    readonly figure?: string;
    /** Of an alarm on a change: which way, and within how long. */
    readonly type?: 'rise' | 'fall';
    readonly withinMs?: number;
    readonly note?: string;
  }[];
  readonly followed: readonly FollowedSight[];
}

/** How small a step of a followed figure would be told. */
export interface FollowedSight {
  readonly id: string;
  /** Which figure, in words. */
  readonly figure: string;
  /**
   * `learning`: too few blocks yet, no change is told. `cannot_judge`: too few of them have a value. `not_asked`: the
   * configuration does not say how large a change is worth telling (`least`).
   */
  readonly standing: ChangeStep['standing'] | 'not_asked';
  /**
   * The smallest lasting step that would be told by its third value in 19 of 20 cases (`advanceChange`), in the unit of
   * the figure; null while none would be. A smaller one may never be told, so that hearing of none shows nothing of it.
   * It stays large for weeks where the figure was still settling while it was learned.
   */
  readonly smallestStep: number | null;
}

/** What happened in the coming in of readings. */
export interface ArrivalEvent {
  readonly time: number;
  /** On `readings_restored`: when the reading was taken, where a tick or a command had gone ahead of it. */
  readonly taken?: number;
  readonly event:
    | 'late'
    | 'too_late'
    | 'repeated'
    | 'contradicted'
    | 'set_aside'
    | 'code_unused'
    | 'counts_unused'
    | 'sizing_changed'
    | 'readings_stale'
    | 'readings_restored';
  /** Time of the reading it is about. */
  readonly reading?: number;
  /**
   * Alarms of type high and low whose setpoint it lies beyond and that do not judge it; and the followed figures whose
   * block it still entered.
   */
  readonly beyond?: readonly string[];
  readonly followed?: readonly string[];
  /**
   * On `code_unused`: the ids of codes that nothing in the configuration reads, in a reading without counts. Told once,
   * until a reading comes whose codes are all read. `counts_unused` likewise of counts that are good and that no table,
   * alarm or followed figure reads: in another sizing, or at other sizes. `sizing_changed` comes with each reading
   * whose counts are of another sizing than the last ones, and at a size that an alarm or a followed figure is of: it
   * is of other particles then.
   */
  readonly codes?: readonly string[];
  /**
   * On `readings_stale`: the last usable reading, or the first input. As of when it counted: where a tick or a command
   * had gone ahead of that reading, its time.
   */
  readonly since?: number;
}

/** A figure can no longer be relied on, or can again. */
export interface QualityEvent {
  readonly time: number;
  /** When the reading was taken, where a tick or a command had gone ahead of it. */
  readonly taken?: number;
  readonly event: 'quality_bad' | 'quality_restored';
  /** Which figure, in words: `celsius`, `other acid number`. */
  readonly figure: string;
  /** On `quality_bad`: what was found; empty where the instrument itself says so. */
  readonly findings?: readonly FindingCode[];
}

/** A finding that the configuration wants told has come, or is gone. */
export interface FindingEvent {
  readonly time: number;
  /** When the reading was taken, where a tick or a command had gone ahead of it. */
  readonly taken?: number;
  readonly event: 'finding_came' | 'finding_gone';
  readonly finding: FindingCode;
}

/** Readings no longer tell how a target stands whose code no alarm looks at, or tell it again. */
export interface TargetEvent {
  readonly time: number;
  /** On `target_restored`: when the reading was taken, where a tick or a command had gone ahead of it. */
  readonly taken?: number;
  readonly event: 'target_stale' | 'target_restored';
  /** Which code, in words: `code iso4406`. */
  readonly figure: string;
  /** On `target_stale`: the last reading that told it, or the first input. */
  readonly since?: number;
}

/** The clock that the readings show has been set, or has not been. */
export interface ClockEvent {
  readonly time: number;
  readonly event: 'clock_set' | 'clock_kept';
  /**
   * On `clock_set`: from when to when. One ahead that no `receivedAt` confirms may as well be a gap in which no reading
   * came.
   */
  readonly from?: number;
  readonly to?: number;
  /**
   * Time of the reading set aside whose figures the alarms have judged now: those of high, low, rise and fall, as of
   * when it came.
   */
  readonly judged?: readonly number[];
  /** Times of the readings set aside which no alarm has judged. */
  readonly lost?: readonly number[];
}

/** The level of a followed figure has changed. */
export interface ChangeEvent {
  /** End of the block that decided. */
  readonly time: number;
  readonly event: 'change_found';
  readonly followed: string;
  /** Which figure, in words, as `raised` has it: `celsius`, `perMlAt 6`. */
  readonly figure: string;
  /** From one block to the next, over weeks, or away from the level learned. */
  readonly kind: 'step' | 'slow' | 'drift';
  readonly direction: 'up' | 'down';
  /**
   * Of a `step` the start of its first block. Of `slow` and `drift` null: the level has crept, and when that began
   * cannot be told; it may be many months ago.
   */
  readonly since: number | null;
  /** The usual level before, in the unit of the figure. */
  readonly before: number;
  /** The new one: of a `step` the mean of its first two blocks, of `slow` and `drift` of the time `meanOverMs`. */
  readonly after: number;
  /** Of `slow` and `drift`: how long the time up to `time` is that `after` is the mean of: 14 blocks or 28. */
  readonly meanOverMs?: number;
}

/**
 * What is usual for a followed figure is learned anew: because someone said so, or since no block has had a value for
 * more than 63, by a long silence or by the wrong clock of a single reading. Or someone said so twice, or long ago:
 * `relearn_refused`, it is learned from a later time already.
 */
export interface RelearnEvent {
  readonly time: number;
  readonly event: 'relearning' | 'relearn_refused';
  readonly followed: string;
  /** Which figure, in words. */
  readonly figure: string;
  /** On `relearn_refused`: from when on it is learned. */
  readonly since?: number;
}

/**
 * Too few of a followed figure's blocks have a value, so that no change of its level is told; or enough have again. A
 * weekly bottle beside blocks of a day is such a case: blocks of a week are right for it. A figure that has died is
 * one: it is told when the time of 28 blocks without a value is over, by whatever input shows that.
 */
export interface JudgedEvent {
  /** End of the block that decided, with a value or without. */
  readonly time: number;
  readonly event: 'change_unjudged' | 'change_judged';
  readonly followed: string;
  /** Which figure, in words. */
  readonly figure: string;
}

/** What an input to the monitor brought about: at an alarm, in the order of readings, or as a change found. */
export type MonitorEvent =
  | AlarmEvent
  | ArrivalEvent
  | QualityEvent
  | FindingEvent
  | TargetEvent
  | ClockEvent
  | ChangeEvent
  | RelearnEvent
  | JudgedEvent;

/** What a monitor remembers of an alarm. */
export interface WatchedAlarm extends AlarmMemory {
  readonly id: string;
  /** What the kept figures are figures of: `high celsius`. */
  readonly of: string;
}

/** What a monitor remembers of a target whose code no alarm looks at. */
export interface WatchedTarget {
  /** The id of its table. */
  readonly id: string;
  /** The last reading that told how it stands, or the first input. */
  readonly heard: number;
  /** Such a reading has come. */
  readonly came?: true;
  /** How far apart they usually are. */
  readonly usualMs?: number;
  readonly stale?: true;
}

/** What a monitor remembers of a followed figure. Members that are left out are at their beginning. */
export interface FollowedState {
  readonly id: string;
  /** What the kept means are means of. */
  readonly of: string;
  /** Number of the open block since 1970, mean and number of readings. */
  readonly open?: { readonly block: number; readonly mean: number; readonly count: number };
  /**
   * What the change detector remembers, as text: what it has learned in 36 characters, then the means of up to 63
   * blocks in four each, whole numbers of one power of ten, seven digits at most. The trend looks at its means too.
   */
  readonly change?: string;
  /** The rolling trend, as text; a verdict tells it. */
  readonly trend?: string;
}

/** How many readings have come, of each kind; `bad` of those in order. */
export interface Arrivals {
  readonly inOrder: number;
  readonly bad: number;
  readonly late: number;
  readonly tooLate: number;
  readonly repeated: number;
  readonly setAside: number;
}

/**
 * What alarms and followed figures need of a reading set aside, one for one; null where there is no figure, or a bad
 * one.
 */
export interface AsideReading {
  readonly print: number;
  /** Ten characters for each. */
  readonly alarms: string;
  readonly followed: string;
}

/** What is doubted about the clock. */
export interface ClockDoubt {
  /**
   * The last input set aside for being far ahead, how many there were, the times of the readings among them, and the
   * last reading.
   */
  readonly ahead?: {
    readonly time: number;
    readonly count: number;
    readonly readings: readonly number[];
    readonly last?: AsideReading;
  };
  /**
   * The last input behind the monitor's time, how many have come in ascending order, and when it came by the host's
   * clock.
   */
  readonly behind?: { readonly time: number; readonly count: number; readonly receivedAt?: number };
}

/**
 * What a monitor remembers of a machine: plain JSON, at most `maxStateBytes` however long it runs. Members left out are
 * at their beginning.
 */
export interface MonitorState {
  readonly version: 3;
  /** The latest time of an input. */
  readonly time?: number;
  /**
   * The last readings, oldest first: time, and by what its figures are known again; null where an earlier version took
   * that.
   */
  readonly recent?: readonly (readonly [number, number | null])[];
  /** The last counts, and how often they have come. */
  readonly repeats?: Repeats;
  readonly arrivals: Arrivals;
  /** The last usable reading, or the first input. */
  readonly heard?: number;
  /** When the last reading in order came, by the host's clock. */
  readonly receivedAt?: number;
  /** The least that readings in order have come after their time, by the host's clock, since the clock was set. */
  readonly lagMs?: number;
  /** How far apart readings in order usually are. */
  readonly usualMs?: number;
  readonly stale?: true;
  /** What nothing reads has been told: true codes, 1 counts, 2 both. */
  readonly unused?: true | 1 | 2;
  /** The figures told bad and not yet restored, in words. */
  readonly bad?: readonly string[];
  /** Of these, which have not been bad in the last readings in order, and in how many that had them. */
  readonly restoring?: readonly { readonly figure: string; readonly readings: number }[];
  /** The findings told and not yet gone, and in how many readings since they have not been found. */
  readonly told?: readonly { readonly finding: FindingCode; readonly without?: number }[];
  readonly clock?: ClockDoubt;
  /** Targets whose code no alarm looks at. */
  readonly targets?: readonly WatchedTarget[];
  readonly alarms: readonly WatchedAlarm[];
  readonly followed: readonly FollowedState[];
}
