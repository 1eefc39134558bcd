/**
 * What `classTable` asks, of a table that comes as a plain object where no bundle should carry all its sentences: where
 * the table breaks a rule that decides a class, or has a member that none has. `classTable` refuses the same tables.
 */
import { isObject, isWithin } from '../../checks.ts';
import { sizings } from '../../counts/checkCounts.ts';
import { countedRule, sizeRule } from '../../counts/ranges.ts';
import { noteProblem, type Path, type Problem } from '../../errors.ts';
import { largestFigure, longestName } from '../../rules/bounds.ts';
import { valueAt } from '../../rules/require.ts';
import { standings } from '../../source.ts';
import { hasSizes } from '../columnSizes.ts';
import { notations } from '../requireTable.ts';
import { isFrozen } from '../tables/frozen.ts';
import type { ClassTable } from '../types.ts';
import { mostListed, readableClass, sizeLetter } from './readable.ts';

type Members = { readonly [name: string]: unknown };
type IsSo = (value: unknown) => boolean;
type Asked = { readonly [name: string]: IsSo };

const isText = (value: unknown) => typeof value === 'string' && value.length > 0;
const isName = (value: unknown) => isText(value) && (value as string).length <= longestName;
const isList = (value: unknown) => Array.isArray(value) && value.length > 0 && value.length <= mostListed;
const isAnything = () => true;
/** Compared as it is, an object may be one that has no number. */
const numberOf = (value: unknown) => (typeof value === 'number' ? value : NaN);

const ofTable: Asked = {
  id: isName,
  standard: (value) => value === undefined || isText(value),
  title: isText,
  source: isAnything,
  counting: (value) => value === 'cumulative' || value === 'differential',
  perVolumeMl: (value) => value === 1 || value === 100,
  notation: (value) => value === undefined || notations.indexOf(value as never) >= 0,
  fewCounted: (value) => value === undefined || isWithin(value, countedRule),
  columns: isList,
  classes: isList,
  limits: isList,
  wording: isAnything,
  elsewhere: (value) => value === undefined || typeof value === 'string',
  notes: isAnything,
};
const isString = (value: unknown) => typeof value === 'string';
const ofSource: Asked = {
  document: isString,
  edition: isString,
  place: isString,
  standing: (value) => standings.indexOf(value as never) >= 0,
};
const ofColumn: Asked = { label: isName, from: isObject, to: (value) => value === undefined || isObject(value) };

/** Notes where a table at a path is not sound, and says whether it is. One from `classTable` is not looked through. */
export function noteUnsound(table: unknown, path: Path, problems: Problem[]): table is ClassTable {
  if (!isObject(table)) {
    noteProblem(problems, path, 'wrong_type', table, 'a class table from classTable');
    return false;
  }
  if (isFrozen(table as unknown as ClassTable)) return true;
  const before = problems.length;
  const ask = (isSo: boolean, ...place: Path) => {
    // more of them help no one
    if (!isSo && problems.length < before + 20)
      noteProblem(problems, [...path, ...place], 'bad_table', valueAt(table, place), 'what classTable takes there');
    return isSo;
  };
  const askEach = (asked: Asked, ...place: Path) => {
    const value = valueAt(table, place) as Members;
    if (!ask(isObject(value), ...place)) return;
    const known = Object.keys(asked);
    for (const name of Object.keys({ ...asked, ...value }))
      ask(known.indexOf(name) >= 0 && (asked[name] as IsSo)(value[name]), ...place, name);
  };
  askEach(ofTable);
  if (table.source !== undefined) askEach(ofSource, 'source');
  if (problems.length > before) return false;
  const { counting, notation, columns, classes, limits } = table as unknown as ClassTable;
  for (let i = 0; i < columns.length; i += 1) askEach(ofColumn, 'columns', i);
  if (problems.length > before) return false;

  const lettered = notation === 'lettered';
  const ranges = counting === 'differential';
  const labels = columns.map(({ label }) => label);
  labels.forEach((label, i) => {
    ask(labels.indexOf(label) === i && (!lettered || sizeLetter.test(label)), 'columns', i, 'label');
  });
  const readable = readableClass(lettered);
  const seen: { [name: string]: true } = {};
  for (let i = 0; i < classes.length; i += 1) {
    const name = classes[i] as string;
    // marked, so that no name is one that every object has
    ask(isName(name) && readable.test(name) && !seen[`_${name}`], 'classes', i);
    seen[`_${name}`] = true;
  }
  // of each sizing, where the last column begins; of ranges, where it ends
  const last: { [sizing: string]: number } = {};
  columns.forEach(({ from, to }, i) => {
    ask(to === undefined || ranges, 'columns', i, 'to');
    for (const sizing of Object.keys({ ...from, ...to }) as 'iso11171'[]) {
      const [start, end, least] = [numberOf(from[sizing]), to && numberOf(to[sizing]), last[sizing]];
      const follows = least === undefined || (ranges ? start === least : start > least);
      ask(sizings.indexOf(sizing) >= 0 && isWithin(start, sizeRule) && follows, 'columns', i, 'from', sizing);
      ask(to === undefined || (isWithin(end, sizeRule) && end > start), 'columns', i, 'to', sizing);
      last[sizing] = ranges ? (end ?? Infinity) : start;
    }
  });
  // how many limits there are, and which are free, sound classes and columns say
  if (problems.length > before || !ask(limits.length === classes.length, 'limits')) return false;
  for (let i = 0; i < limits.length; i += 1) {
    const row = limits[i] as (number | null)[];
    if (!ask(isList(row) && row.length === columns.length, 'limits', i)) return false;
    columns.forEach((column, j) => {
      if (row[j] === null) return;
      const [limit, cleaner] = [numberOf(row[j]), i === 0 ? 0 : limits[i - 1]?.[j]];
      const isLimit = limit >= 0 && limit <= largestFigure;
      // columns that no counter fills are free
      const follows = !hasSizes(column) || (typeof cleaner === 'number' && limit >= cleaner);
      ask(isLimit && follows, 'limits', i, j);
    });
  }
  return problems.length === before;
}
