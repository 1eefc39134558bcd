/** A finding in words, by a table of texts. */
import { requireArray, requireFinite, requireObject, requireOneOf, requireText } from '../checks.ts';
import { sizings } from '../counts/checkCounts.ts';
import { shown } from '../numeric/shown.ts';
import { requireLike } from '../rules/like.ts';
import { day } from '../state/timeSteps.ts';
import { findingCodes } from './findingKinds.ts';
import type { FigureName, Finding } from './reading.ts';
import { figureNames } from './rules.ts';
import { englishFindingTexts, type FindingOfCode, type FindingTexts } from './texts.ts';

const members = ['code', 'quality', 'affects', 'value', 'limit', 'sizes', 'sizing', 'received', 'most'];

/**
 * Writes a finding out for a technician: figure, limit and what to do. Where someone may touch the line, safety comes
 * first.
 *
 * @param texts the words of a language; English where left out
 * @throws `wrong_type`, `unknown_option`, `not_a_number`, `infinite` for what is no finding; of texts `wrong_type` for
 *   one that is missing, `unknown_option` for a place in braces that English lacks, `bad_configuration` for signs that
 *   falsify a number
 *
 * @example
 * ```ts
 * import { assessReading, findingText } from 'motescale/reading';
 * const { findings } = assessReading({ flushedMl: 300 }, { flushMl: 833 });
 * findings.map((finding) => findingText(finding));
 * // => ['300 mL have passed the line, fewer than 833: it still holds old oil; let it run longer.']
 * ```
 */
export function findingText(finding: Finding, texts: FindingTexts = englishFindingTexts): string {
  requireObject(finding, 'finding', 'a finding of assessReading', members);
  requireFinding(finding);
  requireLike(texts, englishFindingTexts, 'texts', true);
  return sentence(finding, texts).replace(/\{(\w+)\}/g, (place, name: string) => placed(finding, texts, name) ?? place);
}

/** What stands in the sentence; a finding may have been kept elsewhere meanwhile. */
function requireFinding({ code, affects, value, limit, sizes, sizing, received, most }: Finding): void {
  requireOneOf(code, 'finding.code', findingCodes);
  requireFinite(value, 'finding.value');
  requireFinite(limit, 'finding.limit');
  requireArray(affects, 'finding.affects');
  for (let i = 0; i < affects.length; i += 1) requireOneOf(affects[i], `finding.affects[${i}]`, figureNames);
  if (sizing !== undefined) requireOneOf(sizing, 'finding.sizing', sizings);
  if (received !== undefined) requireText(received, 'finding.received');
  if (most !== undefined) requireFinite(most, 'finding.most');
  if (sizes === undefined) return;
  requireArray(sizes, 'finding.sizes');
  for (let i = 0; i < sizes.length; i += 1) requireFinite(sizes[i], `finding.sizes[${i}]`);
}

/** Of a code without counts, or of a figure that lies between two, some findings say another one. */
function sentence({ code, received, most }: Finding, texts: FindingTexts): string {
  if (received !== undefined) return texts.ofCodes[code as FindingOfCode] ?? texts.findings[code];
  return (most === undefined ? undefined : texts.between[code as 'start_up']) ?? texts.findings[code];
}

/** Of a code as it came. */
const longestShown = 60;

function placed(finding: Finding, texts: FindingTexts, name: string): string | null {
  const { value, limit, affects, sizes = [], received, most = value } = finding;
  const number = (figure: number, beside?: number) => shown(figure, beside).replace('.', texts.decimalSign);
  switch (name) {
    case 'value':
      return number(value, limit);
    case 'limit':
      return number(limit, value);
    case 'valuePercent':
      return number(value * 100, limit * 100);
    case 'limitPercent':
      return number(limit * 100, value * 100);
    case 'valueDays':
      return number(value / day, limit / day);
    case 'limitDays':
      return number(limit / day, value / day);
    case 'valueSeconds':
      return number(value / 1000, limit / 1000);
    case 'limitSeconds':
      return number(limit / 1000, value / 1000);
    case 'mostSeconds':
      return number(most / 1000, limit / 1000);
    case 'secondsBefore':
      return number((limit - value) / 1000);
    case 'received':
      return received === undefined ? '-' : `'${received.slice(0, longestShown)}'`;
    case 'figure':
      return texts.figures[affects[0] as FigureName];
    case 'sizes':
      return listed(finding, sizes, texts);
    case 'firstSize':
      return sizes.length === 0 ? '' : sizeText(finding, texts, sizes[0] as number);
    case 'lastSize':
      return sizes.length === 0 ? '' : sizeText(finding, texts, sizes[sizes.length - 1] as number);
    default:
      return null;
  }
}

function sizeText({ sizing }: Finding, texts: FindingTexts, size: number): string {
  const figure = `${size}`.replace('.', texts.decimalSign);
  return sizing === undefined ? figure : `${figure} ${texts.sizeUnits[sizing]}`;
}

/** Ascending: the size that a finding tells last may be any. */
function listed(finding: Finding, sizes: readonly number[], texts: FindingTexts): string {
  const ascending = sizes.slice().sort((a, b) => a - b);
  const parts = ascending.map((size) => sizeText(finding, texts, size));
  return parts.length < 2 ? parts.join('') : `${parts.slice(0, -1).join(', ')}${texts.and}${parts[parts.length - 1]}`;
}
