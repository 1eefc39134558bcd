/**
 * Figures that came and could not be read. Left out without a mark they would pass for figures that nobody measured: a
 * counter that sends nothing but errors would show in no verdict.
 */
import { isObject } from '../checks.ts';
import { noteProblem, type Problem } from '../errors.ts';
import type { FigureName, Quality, Reading } from '../reading/reading.ts';
import { figureNames } from '../reading/rules.ts';
import type { Raw } from './members.ts';

/**
 * The reading with the quality of each such figure: `bad`; `uncertain` where a code was kept that says how the oil is,
 * beside counts or another code.
 *
 * @param raw what came
 * @param kept what could be read of it, without codes under ids that nobody knows: what takes the reading would refuse
 * it for them
 * @param isCodeLost whether a code came under another id that could not be read, or not whole
 */
export function withLostMarked<T extends Reading>(raw: Raw, kept: T, isCodeLost: boolean, told: Problem[]): T {
  const marks: { [name: string]: Quality } = {};
  for (const name of figureNames) {
    const quality = name === 'counts' ? countsLost(raw, kept, isCodeLost) : lost(raw, kept, name);
    const before = kept.qualities?.[name];
    if (quality === null || before === 'bad' || before === quality) continue;
    marks[name] = quality;
    noteProblem(told, ['qualities', name], 'wrong_type', before, `read as ${quality}`);
  }
  return Object.keys(marks).length === 0 ? kept : { ...kept, qualities: { ...kept.qualities, ...marks } };
}

function lost(raw: Raw, read: Reading, name: Exclude<FigureName, 'counts'> | 'codes'): Quality | null {
  return came(raw[name]) && read[name] === undefined ? 'bad' : null;
}

function countsLost(raw: Raw, kept: Reading, isCodeLost: boolean): Quality | null {
  if (kept.counts !== undefined) return null;
  const lesser = kept.codes === undefined ? 'bad' : 'uncertain';
  if (came(raw.counts) || isCodeLost) return lesser;
  return lost(raw, kept, 'codes');
}

/** Whether more came than null for what was not measured, at each size or under each id. */
function came(given: unknown): boolean {
  if (given === null || given === undefined) return false;
  if (!isObject(given)) return true;
  const list = given.counted ?? given.perMl ?? Object.keys(given).map((name) => given[name]);
  return !Array.isArray(list) || list.length === 0 || list.some((one) => one !== null && one !== undefined);
}
