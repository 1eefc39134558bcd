/** What an alarm is told, what it remembers, and what it reports, in the terms of ANSI/ISA-18.2 and IEC 62682. */
import type { Quality } from '../reading/reading.ts';
import type { Prepared } from '../state/prepared.ts';
import type { alarmCommands, alarmPriorities, alarmTypes } from './rules.ts';

/** `high`, `low`: the figure itself. `rise`, `fall`: its change. */
export type AlarmType = (typeof alarmTypes)[number];
/** How soon someone should act. */
export type AlarmPriority = (typeof alarmPriorities)[number];
/** How far a figure can be trusted, in the words of OPC UA. */
export type SignalQuality = Quality;

/** What every alarm may be told besides what it looks at. */
export interface AlarmSettings {
  readonly id: string;
  /** How soon someone should act. `medium` where left out. */
  readonly priority?: AlarmPriority | undefined;
  /**
   * How far the figure must come back past the setpoint, and more than that, to count as normal; never delays raising.
   * 0 where left out.
   */
  readonly deadband?: number | undefined;
  /**
   * How long the figure must stand beyond the setpoint before the alarm is raised. 0 where left out. Of readings
   * further apart than `staleAfterMs` none is ever raised with a delay: each stale signal begins it anew.
   */
  readonly onDelayMs?: number | undefined;
  /** How long the figure must be back before the alarm returns to normal. The on-delay where left out. */
  readonly offDelayMs?: number | undefined;
  /** Whether the alarm stays latched after the cause has gone, until it is reset. False where left out. */
  readonly latching?: boolean | undefined;
  /**
   * The longest time it may be shelved for. Eight hours where left out (a shift; chosen here). A shelve of an alarm
   * that is shelved is refused, so that it is never silent for longer without a word.
   */
  readonly longestShelfMs?: number | undefined;
  /**
   * Reports a stale signal when the last good reading is older than this. Where left out: older than ten of the usual
   * intervals, and at least a day; from the second good reading on, since the first tells no interval; in a monitor
   * also where none has come in ten of the usual intervals of its readings. Null: never.
   */
  readonly staleAfterMs?: number | null | undefined;
  /**
   * Raises an alarm that still stands anew when so much time has passed since it was last raised. Never where left out.
   */
  readonly reAlarmAfterMs?: number | undefined;
  /**
   * Reports chattering at so many raises within so long. 3 within an hour where left out (chosen here, for readings
   * minutes apart).
   */
  readonly chattering?: { readonly raises: number; readonly withinMs: number } | undefined;
  /**
   * Modes of the machine in which the alarm is suppressed by design: nothing raises it, and nothing is announced. It
   * ends with a reading or tick of another mode, and where readings go on without any `mode` for `staleAfterMs`.
   */
  readonly suppressedInModes?: readonly string[] | undefined;
  /** What to do or to know; it stands in the event that raises the alarm. */
  readonly note?: string | undefined;
}

/** What makes an alarm: the setpoint and how it is applied. */
export interface AlarmConfig extends AlarmSettings {
  /**
   * `high`: above the setpoint. `low`: below it. `rise`: risen by the setpoint or more within `withinMs`, from the
   * lowest good reading of that time. `fall`: fallen by the setpoint or more, from the highest.
   */
  readonly type: AlarmType;
  /** In the unit of the figure; for `rise` and `fall` an amount above 0. */
  readonly setpoint: number;
  /**
   * Only for `rise` and `fall`, and needed there: the time looked back over. It is kept in 24 parts and so may reach
   * 1/24 further back.
   */
  readonly withinMs?: number | undefined;
}

/** All that follows from a configuration, worked out once: what a step needs. */
export interface AlarmPlan {
  readonly id: string;
  /** What the kept figures are figures of, in words. */
  readonly of: string;
  readonly type: AlarmType;
  /** The limit that is exceeded, and the one to come back below, with the sign of a `low` or `fall` turned. */
  readonly limit: number;
  readonly back: number;
  readonly withinMs: number;
  readonly onDelayMs: number;
  readonly offDelayMs: number;
  readonly latching: boolean;
  readonly longestShelfMs: number;
  readonly staleAfterMs: number | 'usual' | null;
  readonly reAlarmAfterMs: number | null;
  readonly chattering: { readonly raises: number; readonly withinMs: number };
  readonly suppressedInModes: readonly string[];
  /** What stands in each event that raises the alarm. */
  readonly details: {
    readonly setpoint: number | string;
    readonly priority: AlarmPriority;
    readonly figure?: string;
    readonly note?: string;
  };
}

/** What `prepareAlarm` returns: the configuration checked, and all that follows from it. */
export interface PreparedAlarm extends Prepared<'alarm'>, AlarmPlan {}

/**
 * A reading of the figure; `null` where the instrument gave none, which counts as bad. `good` where quality is left
 * out.
 */
export interface AlarmReading {
  readonly kind?: 'reading';
  readonly time: number;
  readonly value: number | null;
  readonly quality?: SignalQuality | undefined;
  /** The mode the machine is in, for `suppressedInModes`. Where left out it has not changed. */
  readonly mode?: string | undefined;
}

/** What an operator can do to an alarm, and who does it and why. */
export type AlarmCommand = {
  readonly kind: 'command';
  readonly time: number;
  readonly by?: string | undefined;
  readonly why?: string | undefined;
} & (
  | { readonly command: Exclude<(typeof alarmCommands)[number], 'shelve'> }
  /** `oneShot`: the shelf also ends at the next return to normal. */
  | { readonly command: 'shelve'; readonly forMs: number; readonly oneShot?: boolean | undefined }
);

/** Only the time, so that the end of a shelf and a stale signal are heard of between two readings. */
export interface Tick {
  readonly kind: 'tick';
  readonly time: number;
  readonly mode?: string | undefined;
}

/** A reading where `kind` is left out. */
export type AlarmInput = AlarmReading | AlarmCommand | Tick;

/**
 * What is remembered of an alarm. A member that is left out is at its beginning: not active, acknowledged, no delay
 * running.
 */
export interface AlarmMemory {
  /** The alarm condition is true, delays and deadband applied. */
  readonly active?: true;
  /** The cause has gone, but the alarm waits for a reset. */
  readonly latched?: true;
  readonly unacknowledged?: true;
  /** When the alarm was last raised or returned. */
  readonly since?: number;
  /** When it was last raised anew while it stood. */
  readonly realarmed?: number;
  /** Since when the figure has been on the other side: the delay that runs. */
  readonly pending?: number;
  readonly shelf?: { readonly until: number; readonly oneShot?: true };
  readonly outOfService?: true;
  /** The mode of the machine that suppresses it by design, and when it last came. */
  readonly suppressed?: string;
  readonly modeAt?: number;
  /**
   * While it is silent, what had been told to stand before: `a` active, `s` stale, `c` chattering, `b` bad. Silent or
   * not, the last nine characters are the time at which the last command was given that begins or ends a silence.
   */
  readonly told?: string;
  /** While it is silent: raises that were not told. */
  readonly silentRaises?: number;
  /** The figure compared with the setpoint, of the last good reading. */
  readonly value?: number;
  /** From when a stale signal is reckoned: the last good reading, or the first input. */
  readonly heard?: number;
  /** How far apart good readings usually are. */
  readonly usualMs?: number;
  readonly stale?: true;
  /** The last reading was bad. */
  readonly bad?: true;
  /** Times of the last raises, for chattering, in nine characters each. */
  readonly raises?: string;
  readonly chattering?: true;
  /**
   * For `rise` and `fall`: the number of the part of time of the last reading, and the extremes, each in eleven
   * characters: how many parts ago, and the exact figure.
   */
  readonly part?: number;
  readonly extremes?: string;
}

/** What an alarm remembers: plain JSON of at most 2 kB, so it can be saved and restored between any two inputs. */
export interface AlarmState extends AlarmMemory {
  readonly version: 3;
  /** What the kept figures are figures of. */
  readonly of: string;
  /** The latest time of an input. */
  readonly time?: number;
  /** Time of the last reading, whatever its quality. */
  readonly read?: number;
  /** How many inputs in a row lay more than a day behind `time`. */
  readonly behind?: number;
}

/**
 * The states of an alarm, by the names of ISA-18.2 (names and meanings from memory; confirm before quoting them as the
 * standard's).
 */
export type AlarmStateName =
  | 'normal'
  | 'unacknowledged_alarm'
  | 'acknowledged_alarm'
  | 'returned_to_normal_unacknowledged'
  | 'latched_unacknowledged'
  | 'latched_acknowledged'
  | 'shelved'
  | 'suppressed_by_design'
  | 'out_of_service';

/** Why a command, or a reading, was refused. */
export type AlarmRefusal =
  | 'nothing_to_acknowledge'
  | 'older_than_alarm'
  | 'older_than_return'
  | 'not_latched'
  | 'condition_stands'
  | 'not_shelved'
  | 'already_shelved'
  | 'longer_than_allowed'
  | 'shelf_over'
  | 'older_than_last_command'
  | 'already_out_of_service'
  | 'not_out_of_service'
  | 'older_than_last_reading';

/** Every member that an event of an alarm may have. */
export interface AnyAlarmEvent {
  readonly time: number;
  /**
   * In a monitor, on what a reading shows: when that reading was taken, where a tick or a command had gone ahead of it
   * and `time` is of that.
   */
  readonly taken?: number;
  readonly alarm: string;
  readonly event:
    | 'raised'
    | 're_alarmed'
    | 'returned'
    | 'acknowledged'
    | 'reset'
    | 'shelved'
    | 'unshelved'
    | 'suppressed'
    | 'unsuppressed'
    | 'removed_from_service'
    | 'returned_to_service'
    | 'signal_stale'
    | 'signal_restored'
    | 'signal_bad'
    | 'signal_good'
    | 'chattering'
    | 'chattering_ended'
    | 'dropped'
    | 'clock_set_back'
    | 'refused';
  /** The figure compared with the setpoint. */
  readonly value?: number;
  /** On `raised`, `re_alarmed` and `returned` of an alarm on a change: which way `value` went, and within how long. */
  readonly type?: 'rise' | 'fall';
  readonly withinMs?: number;
  /**
   * On `raised` and `re_alarmed`: the setpoint, a code where the alarm is on a code, and how soon to act. The setpoint
   * also on `returned` of an alarm on a change.
   */
  readonly setpoint?: number | string;
  readonly priority?: AlarmPriority;
  /** Of an alarm of a monitor: which figure, in words; and the code of the reading, where the alarm is on a code. */
  readonly figure?: string;
  readonly code?: string;
  readonly note?: string;
  /** On `re_alarmed`: how often it fell due since the last input, where more than once. */
  readonly times?: number;
  /** On `returned`: the cause has gone, but the alarm stays until it is reset. */
  readonly latched?: true;
  /** True where an event tells, after a silence, how things stand; `state` of `raised` and `returned` then tells it. */
  readonly standing?: true;
  /** On `unshelved`, `unsuppressed` and `returned_to_service`: raises that were not announced meanwhile. */
  readonly silentRaises?: number;
  /** On `clock_set_back` of `advanceAlarm`: the time that a tick or a command gave, and that of now. */
  readonly from?: number;
  readonly to?: number;
  /** On `shelved`: the end. */
  readonly until?: number;
  /** On `suppressed`: the mode that does it. */
  readonly mode?: string;
  /**
   * On `signal_stale`, and on `dropped` of one that was: the last good reading, or the first input. As of when it
   * counted: where a tick or a command had gone ahead of that reading, its time. On `unsuppressed` that comes since
   * readings go on without a mode: when the last one came.
   */
  readonly since?: number;
  /**
   * On `dropped`: the state it was in when the configuration had it no longer. On `raised` and `returned` that are
   * `standing`: the state it is in, and so whether someone has acknowledged it.
   */
  readonly state?: AlarmStateName;
  /**
   * On `refused`: why; and the longest shelf allowed, or the time of the last reading, of the last raise, of the
   * return, of the end of the shelf, or of the last command that began or ended a silence, as its sender gave it.
   */
  readonly reason?: AlarmRefusal;
  readonly limit?: number;
  /** On what a command did: who, and why. */
  readonly by?: string;
  readonly why?: string;
}

/** With these words the members of `Always` are there. */
type Told<Word extends AnyAlarmEvent['event'], Always extends keyof AnyAlarmEvent> = AnyAlarmEvent &
  Required<Pick<AnyAlarmEvent, Always>> & { readonly event: Word };

type Acted = Told<'raised' | 're_alarmed', 'setpoint' | 'priority'>;
type Answered =
  | Told<'shelved', 'until'>
  | Told<'suppressed', 'mode'>
  | Told<'refused', 'reason'>
  | Told<'dropped', 'state'>
  | Told<'clock_set_back', 'from' | 'to'>;
type Bare = Exclude<AnyAlarmEvent['event'], (Acted | Answered)['event']>;

/**
 * What happened; `event` tells which members are there. `refused` answers a command that has no place now, or a reading
 * older than the last one.
 */
export type AlarmEvent = Acted | Answered | Told<Bare, never>;
