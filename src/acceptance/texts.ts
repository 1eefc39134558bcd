/** The sentences of a proof: why a reading did not count, why a run ended. */
import { hasOwn, isObject, requireArray, requireMembers, requireObject, requireOneOf, requireText } from '../checks.ts';
import { findingText } from '../reading/findingText.ts';
import { englishFindingTexts, type FindingTexts } from '../reading/texts.ts';
import { requireLike } from '../rules/like.ts';
import { requireRule } from '../rules/require.ts';
import { minute } from '../state/timeSteps.ts';
import {
  eventWords,
  type notCountedWords,
  type restartWords,
  unprovableRule,
  unprovedWords,
  wantingRule,
} from './rules.ts';
import type { AcceptanceEvent, AcceptanceVolume, AcceptanceWanting } from './types.ts';

/** Sentences by word; `{findings}`, `{missing}`, `{reason}` and `{text}` are named places. */
export interface AcceptanceTexts {
  readonly counted: string;
  readonly accepted: string;
  /** After it, where all readings came as codes. */
  readonly codesAlone: string;
  readonly after_acceptance: string;
  readonly worse_after_acceptance: string;
  readonly contradicted: string;
  readonly restarted: Readonly<Record<(typeof restartWords)[number], string>>;
  readonly not_counted: Readonly<Record<(typeof notCountedWords)[number], string>>;
  /** After a reading that did not end the proof: `{parts}`, joined by commas, each with `{number}`, rounded up. */
  readonly wanting: {
    readonly sentence: string;
    readonly reading: string;
    readonly readings: string;
    readonly minutes: string;
    readonly litres: string;
  };
  /**
   * After a reading that did not count: which volume it takes to prove `{columns}`, `{volume}` in mL, rounded up; and
   * columns that none can prove.
   */
  readonly unprovable: { readonly least: string; readonly never: string };
  /** And why time or volume since the reading before is not proved. */
  readonly unproved: Readonly<Record<NonNullable<AcceptanceEvent['unproved']>, string>>;
}

/** All words of a language, as far as a proof needs them: `germanTexts` is one. */
export interface TextsWithAcceptance extends FindingTexts {
  readonly acceptance: AcceptanceTexts;
}

/** The sentences in English. */
export const englishAcceptanceTexts: AcceptanceTexts = {
  counted: 'Counted: {text}.',
  accepted: 'The target is shown to be met; the last reading: {text}.',
  codesAlone: 'It rests on codes alone, which do not tell a frozen counter.',
  after_acceptance: 'The target is proved already: this reading changes nothing.',
  worse_after_acceptance:
    'The target was proved, but this reading is worse ({text}): the record does not tell of this oil.',
  contradicted:
    'The proof is contradicted: this late reading, of the time it covers, is worse than the target ({text}). Begin a ' +
    'new proof.',
  restarted: {
    worse_than_target: 'The run ends: this reading is worse than the target ({text}).',
    counts_stuck: 'The run ends: the counts no longer change, so they are not measured.',
    gap_too_long: 'The run ends: too long since the last good reading.',
    volume_counter_ran_back: 'The run ends: the volume counter ran back.',
    clock_set_back: 'The run ends: the clock was set back.',
  },
  not_counted: {
    bad: 'Not counted, the reading is bad. {findings}',
    uncertain: 'Not counted, the reading is uncertain. {findings}',
    worse_than_target: 'Not counted: worse than the target ({text}).',
    not_known: 'Not counted: nothing is known at {missing}.',
    flush_not_shown:
      'Not counted: nothing shows yet that so much oil has passed the line as the limits ask for. Let it run on, and ' +
      'tell the flow with each reading, or what has passed (flushedMl).',
    few_counted: 'Not counted: too few particles to be sure at {missing}.',
    few_in_all:
      'Not counted: fewer than 20 particles in all, as a counter gives that is dead, dark, dry or not connected. ' +
      'Count a larger volume. If they stay so few, first stop the pump, lock it out, and release all pressure, ' +
      'including accumulators. Then look at the cell and the line of the counter, whether oil flows through it, ' +
      'and whether it counts a sample known to hold particles. For oil that clean the limits can switch this ' +
      'check off.',
    no_code: 'Not counted: {reason}.',
    not_newer: 'Not counted: not newer than the last reading.',
    before_worse:
      'Not counted: dated before a reading that was worse than the target, as old readings are that come late. ' +
      'If the clock of the counter was set back, begin a new proof, or tell with each reading when it came in ' +
      '(receivedAt).',
    overlapping: 'Not counted as one more: it shares most of its counting time with the last.',
    same_as_last: 'Not counted as one more: its counts are those of the reading before, as of one count read again.',
  },
  wanting: {
    sentence: 'Still to be shown: {parts}.',
    reading: '{number} reading',
    readings: '{number} readings',
    minutes: '{number} min',
    litres: '{number} L',
  },
  unprovable: {
    least: 'To prove {columns} one reading takes {volume} mL of oil or more, even where it counts no particle.',
    never:
      'No count can prove {columns}, however much oil it is of: leave that out, and name the other columns in the ' +
      'configuration.',
  },
  unproved: {
    beside_others: 'Time and volume since the last do not count: a reading between them did not.',
    long_gap: 'The time since the last does not count: it is too long.',
    gap_taken_back: 'What an earlier gap had proved no longer counts: beside the others it is too long.',
    counts_equal:
      'The counts of all readings are equal, as those of a frozen counter: one that differs is still to come, or so ' +
      'many that they tell.',
    less_by_host: 'The time since the last counts in part at most: by the clock of the host less has passed.',
    volume_stood: 'The time since the last does not count unless the volume counter soon moves: it stood.',
    volume_leapt: 'The volume since the last does not count: it is more than the pump can deliver.',
  },
};

const eventMembers: readonly string[] = [
  ...['time', 'event', 'text', 'quality', 'outcome', 'why'],
  ...['findings', 'missing', 'reason', 'unprovable', 'wanting', 'unproved', 'record'],
];

/**
 * An event in words: what the reading did, and what is still to be shown.
 *
 * @param texts all words of another language, such as `germanTexts`; or its sentences of a proof alone, with those of
 *   its findings after them (English where left out)
 *
 * @example
 * ```ts
 * import { acceptanceText } from 'motescale/acceptance';
 * const told = { time: 0, event: 'restarted', text: null, quality: 'good', outcome: null } as const;
 * acceptanceText({ ...told, why: 'clock_set_back' }); // => 'The run ends: the clock was set back.'
 * ```
 */
export function acceptanceText(
  event: AcceptanceEvent,
  texts: AcceptanceTexts | TextsWithAcceptance = englishAcceptanceTexts,
  findingTexts?: FindingTexts,
): string {
  requireMembers(requireObject(event, 'event', 'an event { time, event, text }'), 'event', eventMembers);
  requireOneOf(event.event, 'event.event', eventWords);
  const {
    why = '',
    findings = [],
    missing = [],
    reason = '',
    unprovable = [],
    text,
    wanting,
    unproved,
    record,
  } = event;
  requireText(why, 'event.why');
  requireText(reason, 'event.reason');
  if (text !== null && text !== undefined) requireText(text, 'event.text', 'a text, or null');
  requireArray(findings, 'event.findings', 'an array of findings');
  requireArray(missing, 'event.missing', 'an array of columns');
  for (let i = 0; i < missing.length; i += 1) requireText(missing[i], `event.missing[${i}]`);
  requireRule(unprovableRule, unprovable, 'event.unprovable');
  const isWhole = isObject(texts) && 'acceptance' in texts;
  const own = (isWhole ? texts.acceptance : texts) as AcceptanceTexts;
  requireLike(own, englishAcceptanceTexts, isWhole ? 'texts.acceptance' : 'texts');
  const ofFindings = isWhole ? (texts as unknown as FindingTexts) : findingTexts;
  if (ofFindings !== undefined) requireLike(ofFindings, englishFindingTexts, isWhole ? 'texts' : 'findingTexts', true);
  const told = own[event.event];
  const sentence = typeof told === 'string' ? told : hasOwn(told, why) ? ((told as Words)[why] as string) : why;
  const said = sentence
    .replace('{findings}', () => findings.map((finding) => findingText(finding, ofFindings)).join(' '))
    .replace('{missing}', () => missing.join(', '))
    .replace('{reason}', () => reason)
    .replace('{text}', () => text ?? '-');
  const more = wanting === undefined ? [] : wantingTexts(wanting, unproved, own);
  const isOfCodes = event.event === 'accepted' && record !== undefined && record.run.counts === undefined;
  return [said, ...unprovableTexts(unprovable, own), ...(isOfCodes ? [own.codesAlone] : []), ...more].join(' ');
}

type Words = Readonly<Record<string, string>>;

/** What volume a reading takes, and what none can show. */
function unprovableTexts(unprovable: readonly AcceptanceVolume[], { unprovable: words }: AcceptanceTexts): string[] {
  const never: string[] = [];
  const small: string[] = [];
  let least = 0;
  for (const { column, leastMl } of unprovable) {
    if (leastMl === null) never.push(column);
    else {
      small.push(column);
      least = Math.max(least, leastMl);
    }
  }
  const said: string[] = [];
  const add = (template: string, columns: readonly string[]) => {
    const places: Words = { columns: columns.join(', '), volume: String(Math.ceil(least)) };
    if (columns.length > 0) said.push(template.replace(/\{(columns|volume)\}/g, (_, name) => places[name] as string));
  };
  add(words.least, small);
  add(words.never, never);
  return said;
}

/** What is still to be shown, and why time or volume did not count where they are wanting. */
function wantingTexts(
  wanting: AcceptanceWanting,
  unproved: AcceptanceEvent['unproved'],
  texts: AcceptanceTexts,
): string[] {
  requireRule(wantingRule, wanting, 'event.wanting');
  const { readings, ms, litres } = wanting;
  const { sentence, ...words } = texts.wanting;
  const parts: string[] = [];
  const add = (template: string, number: number) => {
    if (number > 0) parts.push(template.replace('{number}', String(Math.ceil(number))));
  };
  add(readings === 1 ? words.reading : words.readings, readings);
  add(words.minutes, ms / minute);
  add(words.litres, litres);
  const said = parts.length === 0 ? [] : [sentence.replace('{parts}', parts.join(', '))];
  if (unproved === undefined || (ms === 0 && litres === 0 && unproved !== 'counts_equal')) return said;
  return said.concat(texts.unproved[requireOneOf(unproved, 'event.unproved', unprovedWords)]);
}
