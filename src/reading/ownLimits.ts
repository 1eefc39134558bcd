/** Limits of one's own: checked by their rule, and made whole with the defaults. */
import { isObject } from '../checks.ts';
import { noteProblem, type Problem, throwMistakes } from '../errors.ts';
import { checkRule } from '../rules/check.ts';
import { findingCodes } from './findingKinds.ts';
import { limitsRule } from './limitsRule.ts';
import type { FindingCode, Quality } from './reading.ts';
import { defaultReadingLimits, type OwnReadingLimits, type ReadingLimits } from './readingLimits.ts';

/** Every mistake in limits of one's own, each with its path from `path` on. */
export function noteLimits(own: unknown, path: readonly (string | number)[], problems: Problem[]): void {
  if (!checkRule(limitsRule(), own, path, problems) || !isObject(own)) return;
  for (const name of ['mlPerMin', 'celsius', 'plausibleCelsius', 'plausibleKPa', 'plausibleMm2PerS']) {
    const band = own[name] as { readonly low: number; readonly high: number } | null | undefined;
    if (band === null || band === undefined || band.high >= band.low) continue;
    noteProblem(problems, [...path, name, 'high'], 'out_of_range', band.high, `at least ${band.low}, the low end`);
  }
}

/** The limits whole, the defaults filled in; or one error with every mistake. */
export function wholeLimits(own: OwnReadingLimits = {}): ReadingLimits {
  const problems: Problem[] = [];
  noteLimits(own, [], problems);
  throwMistakes('limits', own, problems);
  return filledLimits(own);
}

/** The same of limits that have been checked. */
export function filledLimits(own: OwnReadingLimits): ReadingLimits {
  const given = own as { readonly [name: string]: unknown };
  const merged: { [name: string]: unknown } = { ...defaultReadingLimits };
  for (const name of Object.keys(given)) if (given[name] !== undefined) merged[name] = given[name];
  for (const name of Object.keys(merged)) {
    const limit = merged[name];
    if (isObject(limit)) merged[name] = { ...limit };
  }
  const qualities: Record<FindingCode, Quality> = { ...defaultReadingLimits.qualities };
  for (const code of findingCodes) qualities[code] = own.qualities?.[code] ?? qualities[code];
  merged.qualities = qualities;
  return merged as unknown as ReadingLimits;
}
