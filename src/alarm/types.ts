/**
 * What an alarm is told, what it remembers, and what it reports, in the terms of ANSI/ISA-18.2 and IEC 62682.
 */

/** What makes an alarm: the setpoint and how it is applied. All but the first three may be left out. */
export interface AlarmConfig {
  readonly id: string;
  /**
   * `high`: above the setpoint. `low`: below it. `rise`: risen by the setpoint or more within `withinMs`, from the lowest good reading of
   * that time. `fall`: fallen by the setpoint or more, from the highest.
   */
  readonly type: 'high' | 'low' | 'rise' | 'fall';
  /** In the unit of the figure; for `rise` and `fall` an amount above 0. */
  readonly setpoint: number;
  /** Only for `rise` and `fall`, and needed there: the time looked back over. It is kept in 24 parts and so may reach 1/24 further back. */
  readonly withinMs?: number;
  /**
   * How far the figure must come back past the setpoint, and more than that, to count as normal; never delays raising. 0 where left out.
   */
  readonly deadband?: number;
  /** How long the figure must stand beyond the setpoint before the alarm is raised. 0 where left out. */
  readonly onDelayMs?: number;
  /** How long the figure must be back before the alarm returns to normal. The on-delay where left out. */
  readonly offDelayMs?: number;
  /** Whether the alarm stays latched after the cause has gone, until it is reset. False where left out. */
  readonly latching?: boolean;
  /** The longest time it may be shelved for. Eight hours where left out (a shift; chosen here). */
  readonly longestShelfMs?: number;
  /** Reports a stale signal when the last good reading is older than this. Never where left out. */
  readonly staleAfterMs?: number;
  /** Reports chattering at so many raises within so long. 3 within an hour where left out (chosen here, for readings minutes apart). */
  readonly chattering?: { readonly raises: number; readonly withinMs: number };
}

/** How far a figure can be trusted, in the words of OPC UA. */
export type SignalQuality = 'good' | 'uncertain' | 'bad';

/** A reading of the figure; `null` where the instrument gave none, which counts as bad. `good` where quality is left out. */
export interface AlarmReading {
  readonly time: number;
  readonly value: number | null;
  readonly quality?: SignalQuality;
}

/** What an operator can do to an alarm. */
export type AlarmCommand =
  | { readonly time: number; readonly command: 'acknowledge' | 'reset' | 'unshelve' }
  | { readonly time: number; readonly command: 'remove_from_service' | 'return_to_service' }
  /** `oneShot`: the shelf also ends at the next return to normal. */
  | { readonly time: number; readonly command: 'shelve'; readonly forMs: number; readonly oneShot?: boolean };

/** A reading, a command, or only the time, so that the end of a shelf and a stale signal are heard of in between. */
export type AlarmInput = AlarmReading | AlarmCommand | { readonly time: number };

/** What an alarm remembers: plain JSON of at most 2 kB, so it can be saved and restored between any two inputs. */
export interface AlarmState {
  readonly version: 1;
  /** The latest time of an input, null before the first. */
  readonly time: number | null;
  /** Time of the last reading, whatever its quality. */
  readonly read: number | null;
  /** Whether the alarm condition is true, delays and deadband applied. */
  readonly active: boolean;
  /** Whether the cause has gone but the alarm waits for a reset. */
  readonly latched: boolean;
  readonly acknowledged: boolean;
  /** When the alarm was last raised or returned. */
  readonly changed: number | null;
  /** Since when the figure has been on the other side: the delay that runs. */
  readonly pending: number | null;
  readonly shelf: { readonly until: number; readonly oneShot: boolean } | null;
  readonly outOfService: boolean;
  /** What the events so far have told, and the raises they have not, being silenced. */
  readonly announced: { readonly active: boolean; readonly stale: boolean; readonly chattering: boolean };
  readonly silentRaises: number;
  /** The figure compared with the setpoint, of the last good reading. */
  readonly value: number | null;
  /** From when a stale signal is reckoned: the last good reading, or the first input. */
  readonly heard: number | null;
  readonly stale: boolean;
  /** Times of the last raises, for chattering. */
  readonly raises: readonly number[];
  readonly chattering: boolean;
  /** For `rise` and `fall`: number of the part of time, and the extreme in it. */
  readonly extremes: readonly (readonly [number, number])[];
}

/** The states of an alarm, by the names of ISA-18.2 (names and meanings from memory; confirm before quoting them as the standard's). */
export type AlarmStateName =
  | 'normal'
  | 'unacknowledged alarm'
  | 'acknowledged alarm'
  | 'returned to normal unacknowledged'
  | 'latched unacknowledged'
  | 'latched acknowledged'
  | 'shelved'
  | 'out of service';

/** What happened. `refused` answers a command that has no place now, or a reading older than the last one. */
export interface AlarmEvent {
  readonly time: number;
  readonly alarm: string;
  readonly event:
    | 'raised'
    | 'returned'
    | 'acknowledged'
    | 'reset'
    | 'shelved'
    | 'unshelved'
    | 'removed_from_service'
    | 'returned_to_service'
    | 'signal_stale'
    | 'signal_restored'
    | 'chattering'
    | 'chattering_ended'
    | 'refused';
  /** The figure compared with the setpoint. */
  readonly value?: number;
  /** On `returned`: the cause has gone, but the alarm stays until it is reset. */
  readonly latched?: true;
  /** True where an event tells, after a silence, how things stand. */
  readonly standing?: true;
  /** On `unshelved` and `returned_to_service`: raises that were not announced meanwhile. */
  readonly silentRaises?: number;
  /** On `shelved`: the end. */
  readonly until?: number;
  /** On `refused`: why. */
  readonly reason?: string;
}
