/**
 * The one gate of readings: what comes in is checked here, once, and travels on as it is. A reading that passes makes
 * no text and no path.
 */
import { isObject } from '../checks.ts';
import { disagreement, membersAgree, rounding } from '../counts/checkCounts.ts';
import type { CumulativeCounts } from '../counts/types.ts';
import { noteProblem, type Problem, throwMistakes } from '../errors.ts';
import { checkRule } from '../rules/check.ts';
import { holds } from '../rules/holds.ts';
import type { ObjectRule } from '../rules/rule.ts';
import type { Reading, TimedReading } from './reading.ts';
import { readingRule } from './rules.ts';
import { hintMicroseconds, isInSeconds, isNotSet, noteNotSet, noteSeconds } from './seconds.ts';

/**
 * Returns the reading as it came, or throws all that is wrong with it. Counts may rise with size: that is a finding.
 */
export function checkReading(value: unknown, root = 'reading'): Reading {
  return gateReading(value, root, readingRule);
}

/**
 * The same for a reading that must have its time; its rule may have members of one's own, as the volume counter of a
 * proof is.
 */
export function gateReading(value: unknown, root: string, rule: ObjectRule): TimedReading {
  const reading = value as TimedReading;
  const seconds = isInSeconds(value);
  if (!seconds && holds(rule, value) && countsAgree(reading.counts)) return reading;
  const problems: Problem[] = [];
  // the time first: what else is wrong may come of a door that refused the time and let nothing through
  if (seconds) noteSeconds(problems, 'time', reading.time);
  else if (isNotSet(value)) noteNotSet(problems, 'time', reading.time);
  throwMistakes(root, value, problems.concat(readingProblems(value, rule)));
  return reading;
}

/** All that is wrong with a value, by the rule of a reading. */
export function readingProblems(value: unknown, rule: ObjectRule): Problem[] {
  const problems: Problem[] = [];
  if (holds(rule, value) && countsAgree((value as Reading).counts)) return problems;
  checkRule(rule, value, [], problems);
  if (!isObject(value)) return problems;
  noteCounts(value.counts, problems);
  hintMicroseconds(problems, value);
  return problems;
}

/** Whether the members of counts agree with each other; where they do not, the words come later. */
function countsAgree(counts: CumulativeCounts | undefined): boolean {
  return counts === undefined || membersAgree(counts);
}

/**
 * Sizes ascend, there is one count for each, and raw counts agree with those per mL: each mistake where it is; what the
 * rule has noted already is not told twice.
 */
function noteCounts(counts: unknown, problems: Problem[]): void {
  if (!isObject(counts)) return;
  const { sizes } = counts;
  const before = problems.length;
  if (!Array.isArray(sizes) || sizes.length === 0 || sizes.length > 1000) return;
  for (let i = 1; i < sizes.length; i += 1) {
    if (typeof sizes[i] !== 'number' || typeof sizes[i - 1] !== 'number') continue;
    if (sizes[i] >= sizes[i - 1] * (1 + rounding)) continue;
    noteProblem(problems, ['counts', 'sizes', i], 'sizes_out_of_order', sizes[i], `a size above ${sizes[i - 1]} µm`);
  }
  const expected = `an array of ${sizes.length}, one for each size`;
  for (const name of ['perMl', 'counted']) {
    const list = counts[name];
    if (!Array.isArray(list) || list.length === sizes.length || list.length === 0) continue;
    noteProblem(problems, ['counts', name], 'length_mismatch', list, expected);
  }
  if (problems.length > before || problems.some(({ path }) => path[0] === 'counts')) return;
  const { perMl } = counts as unknown as CumulativeCounts;
  const wrong = disagreement(counts as unknown as CumulativeCounts);
  if (wrong !== null)
    noteProblem(problems, ['counts', 'perMl', wrong.place], 'out_of_range', perMl[wrong.place], wrong.expected);
}
