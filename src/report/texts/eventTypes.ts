/** The words of events: of alarms and of monitors. */
import type { AlarmPriority, AlarmRefusal, AlarmStateName } from '../../alarm/index.ts';
import type { ConfigurationEvent, MonitorEvent, RejectedEvent } from '../../monitor/index.ts';
import type { FigureName, FindingCode } from '../../reading/index.ts';

/** The word of an event, of a monitor or of a unit's record. */
export type EventWord = (MonitorEvent | RejectedEvent | ConfigurationEvent)['event'];

/** One event: a few words for a subject, and a sentence. */
export interface EventText {
  readonly subject: string;
  readonly sentence: string;
}

/**
 * What events say. Places: `{alarm}`, `{figure}`, `{value}`, `{setpoint}`, `{code}`, `{mode}`, `{until}`, `{since}`,
 * `{reading}`, `{from}`, `{to}`, `{number}`, `{before}`, `{after}`, `{state}`, `{reason}` and in it `{limit}` (the
 * longest shelf), `{direction}`, `{side}`, `{followed}`, `{parameter}`, `{received}`, `{expected}`, `{configuration}`,
 * `{kept}`, `{dropped}`, `{added}` (how many), `{codes}` (ids), `{finding}`, `{within}` (how long); what an event does
 * not tell is an empty text.
 */
export interface EventTexts {
  readonly words: Readonly<Record<EventWord, EventText>>;
  /** `{alarm}`: the subject of one that is told as raised after a silence, and is only latched now. */
  readonly wasRaised: string;
  /** Of an alarm that has returned and stays latched. */
  readonly latched: EventText;
  /** Of `change_found` of kind `slow` and `drift`. */
  readonly crept: EventText;
  /** `{since}`, of `unsuppressed` that comes since readings go on without a mode. */
  readonly unsaid: EventText;
  /** Of `clock_set` where the time went forward. */
  readonly ahead: EventText;
  /** What is added to a paragraph. */
  readonly details: {
    /** `{time}`, `{zone}`. */
    readonly time: string;
    /** Of an event whose time cannot be written: of a clock in microseconds, in a state of before. */
    readonly timeUnknown: string;
    readonly priority: string;
    readonly note: string;
    /** `{within}`, of a level that has crept. */
    readonly mean: string;
    readonly times: string;
    readonly standing: string;
    /** `{state}`, of an alarm after a silence. */
    readonly state: string;
    readonly silentRaises: string;
    /** `{since}`, of an alarm dropped while its signal was stale. */
    readonly stale: string;
    readonly by: string;
    readonly why: string;
    readonly findings: string;
    readonly byInstrument: string;
    readonly beyond: string;
    readonly judged: string;
    readonly lost: string;
  };
  readonly priorities: Readonly<Record<AlarmPriority, string>>;
  readonly states: Readonly<Record<AlarmStateName, string>>;
  readonly reasons: Readonly<Record<AlarmRefusal, string>>;
  readonly directions: { readonly up: string; readonly down: string };
  /** The sentence of an alarm on a change that is raised or still stands. */
  readonly changes: { readonly rise: string; readonly fall: string };
  /** Of one that has returned, since what changed lies further back than it looks: the figure may stand as it was. */
  readonly settled: { readonly rise: EventText; readonly fall: EventText };
  /** By how much a percentage has changed: `{number}`. */
  readonly percentagePoints: { readonly one: string; readonly more: string };
  /** `{side}`: where the value of an alarm raised lies, seen from its setpoint. */
  readonly sides: { readonly beyond: string; readonly below: string };
  /** Figures of an alarm with the unit of their value: `{value}`, and `{size}` or `{name}`. */
  readonly figures: Readonly<Record<FigureName, { readonly name: string; readonly value: string }>>;
  /** At a temperature: `{celsius}`. */
  readonly waterSaturationAt: { readonly name: string; readonly value: string };
  /** At a size: `{size}`, and `{sizeUnit}`, such as `µm(c)`. */
  readonly perMlAt: { readonly name: string; readonly value: string };
  readonly scaleNumberAt: { readonly name: string; readonly value: string };
  readonly continuousScaleNumberAt: { readonly name: string; readonly value: string };
  /** `{table}`. Where an alarm is told without the code of a reading, the sentence: by how many classes, `{number}`. */
  readonly code: { readonly name: string; readonly beyond: string; readonly within: string };
  readonly other: { readonly name: string; readonly value: string };
  /** Findings in a few words. */
  readonly findingNames: Readonly<Record<FindingCode, string>>;
  readonly unknownTime: string;
}
