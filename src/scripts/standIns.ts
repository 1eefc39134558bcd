/**
 * What stands in the unit script for parts of the library, under their names: it gives the same answers without them,
 * refuses what would need them, or asks less and says so.
 */
import { isTable } from '../codes/requireTable.ts';
import type { ClassTable } from '../codes/types.ts';
import { motescaleError, noteProblem, type Path, type Problem } from '../errors.ts';
import { checkRule } from '../rules/check.ts';
import type { EitherRule, Rule } from '../rules/rule.ts';

/** Refuses every value. */
function refusing(expected: string): EitherRule {
  return { kind: 'either', expected, forms: [], choose: () => null };
}

/** Of the states of 0.1.0: a gateway goes on from what it saved itself. `bad_state`, as for a version nobody knows. */
export function stateOf1(): never {
  const expected = '3: this script reads no state of 0.1.0; motescale.global.js does';
  throw motescaleError('bad_state', 'state.version', 1, expected);
}

/** Of the probability that a target is met: a configuration with `errors` of a code is refused where it is prepared. */
export function errorsRule(): EitherRule {
  return refusing('none: this script tells no probability of a target; motescale.global.js does');
}
export function withProbabilities<Verdict>(_plans: unknown, _reading: unknown, verdicts: Verdict): Verdict {
  return verdicts;
}

/** Of the guesses of what a value that is refused was meant for. */
export function nameHint(): '' {
  return '';
}
export const numberHint: () => '' = nameHint;
export const idHint: () => '' = nameHint;
export const otherNames: object = {};

/** Of the quick look at what comes in: `checkRule` alone gives the same answer, and takes longer. */
export function holds(rule: Rule, value: unknown): boolean {
  return checkRule(rule, value, [], []);
}

/** Of the reading of a double's bytes: it is divided, with the same result and, in small engines, as soon. */
export function readWords(): null {
  return null;
}
export const readChord: () => null = readWords;

/**
 * Of the rules of a table given as plain data: it is asked what `classify` asks of one. Ask `classTable` before it is
 * sent to a gateway.
 */
export function noteUnsound(table: unknown, path: Path, problems: Problem[]): table is ClassTable {
  const isSound = isTable(table as ClassTable);
  if (!isSound) noteProblem(problems, path, 'wrong_type', table, 'a class table from classTable');
  return isSound;
}

/** Of followed figures: a configuration that follows any is refused where it is prepared, so there are none. */
export function followRule(): EitherRule {
  return refusing('no figures to follow: this script holds no trends; motescale.global.js does');
}
function none(): readonly never[] {
  return [];
}
export const followPlan: () => readonly never[] = none;
export const figuresFollowed: () => readonly never[] = none;
export const addToBlocks: () => readonly never[] = none;
export const closeBlocks: () => readonly never[] = none;
export const moveAllBlocks: () => readonly never[] = none;
export const undoBlocks: () => readonly never[] = none;
export const relearn: () => readonly never[] = none;
export const trendsOf: () => readonly never[] = none;
export const sightsOf: () => readonly never[] = none;
export function addLate(): { readonly followed: readonly never[]; readonly entered: readonly never[] } {
  return { followed: [], entered: [] };
}
/** What a state of another script remembers of a figure is not looked at: the figure is dropped. */
export function requireKept(): void {}
export const requireBlocks: () => void = requireKept;
