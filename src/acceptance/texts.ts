/**
 * The sentences of a proof: why a reading did not count, why a run ended.
 */
import { requireMembers, requireObject, requireOneOf, requireText } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import { findingText } from '../reading/findingText.ts';
import { englishFindingTexts, type FindingTexts } from '../reading/texts.ts';
import { requireLike } from '../rules/like.ts';
import type { notCountedWords, restartWords } from './rules.ts';
import type { AcceptanceEvent } from './types.ts';

/** Sentences by word; `{findings}`, `{missing}`, `{reason}` and `{text}` are named places. */
export interface AcceptanceTexts {
  readonly counted: string;
  readonly accepted: string;
  readonly after_acceptance: string;
  readonly restarted: Readonly<Record<(typeof restartWords)[number], string>>;
  readonly not_counted: Readonly<Record<(typeof notCountedWords)[number], string>>;
}

/** The sentences in English. */
export const englishAcceptanceTexts: AcceptanceTexts = {
  counted: 'Counted: {text}.',
  accepted: 'The target is shown to be met: {text}.',
  after_acceptance: 'The target is proved already: this reading changes nothing.',
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
    few_counted: 'Not counted: too few particles to be sure at {missing}.',
    no_particle_yet:
      'Not counted: no reading of this proof has shown a particle yet, as if the counter were dead, dry or not ' +
      'connected. First stop the pump, lock it out, and release all pressure, including accumulators. Then look at ' +
      'the cell and the line of the counter, whether oil flows through it, and whether it counts a sample known to ' +
      'hold particles. For oil that clean the limits can switch this check off.',
    no_code: 'Not counted: {reason}.',
    not_newer: 'Not counted: not newer than the last reading.',
  },
};

const eventMembers: readonly string[] = [
  ...['time', 'event', 'text', 'quality', 'outcome', 'why'],
  ...['findings', 'missing', 'reason', 'wanting', 'record'],
];

/**
 * An event in words.
 *
 * @param texts the sentences of another language, and those of its findings
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
  texts: AcceptanceTexts = englishAcceptanceTexts,
  findingTexts?: FindingTexts,
): string {
  requireMembers(requireObject(event, 'event', 'an event { time, event, text }'), 'event', eventMembers);
  requireOneOf(event.event, 'event.event', Object.keys(englishAcceptanceTexts));
  const { why = '', findings = [], missing = [], reason = '', text } = event;
  requireText(why, 'event.why');
  requireText(reason, 'event.reason');
  if (text !== null && text !== undefined) requireText(text, 'event.text', 'a text or null');
  if (!Array.isArray(findings)) throw motescaleError('wrong_type', 'event.findings', findings, 'an array of findings');
  if (!Array.isArray(missing)) throw motescaleError('wrong_type', 'event.missing', missing, 'an array of columns');
  for (let i = 0; i < missing.length; i += 1) requireText(missing[i], `event.missing[${i}]`);
  requireLike(texts, englishAcceptanceTexts, 'texts');
  if (findingTexts !== undefined) requireLike(findingTexts, englishFindingTexts, 'findingTexts');
  const told = texts[event.event];
  const sentence = typeof told === 'string' ? told : ((told as Readonly<Record<string, string>>)[why] ?? why);
  return sentence
    .replace('{findings}', findings.map((finding) => findingText(finding, findingTexts)).join(' '))
    .replace('{missing}', missing.join(', '))
    .replace('{reason}', reason)
    .replace('{text}', text ?? '-');
}
