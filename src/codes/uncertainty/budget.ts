/** The budget of a column: each part of the uncertainty of its count as a row, and all of them together. */
import { requireFewEnough, requireRaw } from '../../counts/ranges.ts';
import type { CumulativeCounts } from '../../counts/types.ts';
import { motescaleError } from '../../errors.ts';
import { proportion } from '../../numeric/decimal.ts';
import { columnPlace, countedIn, type Place, placeAround } from '../columnCount.ts';
import type { ClassColumn, ClassTable } from '../types.ts';
import { defaultMeasurementErrors, type ErrorPart, type MeasurementErrors, partsOf, tellErrors } from './errors.ts';
import { columnSlopes, type Slopes } from './slope.ts';
import type { Spread } from './spread.ts';

/** One part of the uncertainty of one column's count. */
export interface UncertaintyRow {
  readonly column: string;
  readonly part: 'counting' | 'volume' | 'flow' | 'sizing' | 'certificate' | 'coincidence' | 'sampling' | 'dilution';
  /** Relative standard uncertainty of the part itself: of the volume, of the size. */
  readonly standard: number;
  /** By how many times it moves the count: 1, or the slope of the counts for what is an error of size. */
  readonly sensitivity: number;
  /** The product of the two: relative standard uncertainty of the count from this part. */
  readonly relative: number;
  /** Its share of the variance of the whole; all rows of a column add up to 1. */
  readonly share: number;
  /**
   * Where the figure comes from: the count itself, the caller, or the default; `not_considered` where neither told of
   * one.
   */
  readonly basis: 'counted' | 'given' | 'common_practice' | 'not_considered';
}

/** A column that the counts fill, with what is unsure about it. */
export interface UnsureColumn {
  /** Its place in the table. */
  readonly index: number;
  readonly label: string;
  /** Its sizes in the sizing of the counts; null without an upper one. */
  readonly from: number;
  readonly to: number | null;
  readonly rows: readonly UncertaintyRow[];
  /** With all errors in one. */
  readonly spread: Spread;
  /**
   * The standard deviation of the errors that all sizes of a sample share (volume, flow, sampling, dilution), and of
   * those they do not.
   */
  readonly shared: number;
  readonly own: number;
}

/** The columns of a table that raw counts fill. */
export function unsureColumns(
  columns: readonly ClassColumn[],
  counts: CumulativeCounts,
  errors: MeasurementErrors,
  parameter = 'errors',
): UnsureColumn[] {
  if (!tellErrors(errors, counts)) {
    const expected = 'volume and sizing: of counts under a microscope they have no usual value';
    throw motescaleError('no_answer', parameter, errors, expected);
  }
  const found: UnsureColumn[] = [];
  columns.forEach((column, index) => {
    const place = columnPlace(column, counts);
    if (place !== null) found.push(unsure(index, column.label, counts, place, errors));
  });
  return found;
}

/**
 * A column that was not counted, of which there is none: none was counted of the next smaller size. It is as unsure as
 * that count of none. Null for any other.
 */
export function emptyColumn(
  table: ClassTable,
  index: number,
  counts: CumulativeCounts,
  errors: MeasurementErrors,
): UnsureColumn | null {
  const column = table.columns[index] as ClassColumn;
  const place = placeAround(table, column, counts);
  if (place === null || requireRaw(counts).counted[place.from] !== 0) return null;
  return unsure(index, column.label, counts, { ...place, to: null }, errors);
}

function unsure(
  index: number,
  label: string,
  counts: CumulativeCounts,
  place: Place,
  errors: MeasurementErrors,
): UnsureColumn {
  const { counted, volumeMl } = requireRaw(counts);
  const particles = countedIn(counted, place);
  requireFewEnough(particles, `counts.counted[${place.from}]`);
  const onePerMl = proportion(1, counts.dilution ?? 1, volumeMl);
  // coincidence hides small particles, and shows two of them as a larger one that is not there
  const loses = place.from === 0;
  const slopes = columnSlopes(counts, place, onePerMl, errors.slope);
  const rows = rowsOf(label, particles, slopes, errors, partsOf(counts), loses);
  const squares = (names: readonly string[]) =>
    rows.reduce((sum, { part, relative }) => (names.indexOf(part) < 0 ? sum : sum + relative * relative), 0);
  const shared = squares(['volume', 'flow', 'sampling', 'dilution']);
  const own = squares(['sizing', 'certificate', 'coincidence']);
  const shift = loses ? (errors.coincidence ?? defaultMeasurementErrors.coincidence) / 2 : 0;
  const spread = { counted: particles, onePerMl, other: Math.sqrt(shared + own), shift };
  const { sizes } = counts;
  const from = sizes[place.from] as number;
  const to = place.to === null ? null : (sizes[place.to] as number);
  return { index, label, from, to, rows, spread, shared: Math.sqrt(shared), own: Math.sqrt(own) };
}

function rowsOf(
  column: string,
  particles: number,
  slopes: Slopes,
  errors: MeasurementErrors,
  parts: readonly ErrorPart[],
  loses: boolean,
): UncertaintyRow[] {
  const counting = 1 / Math.sqrt(particles + 1);
  const rows: Omit<UncertaintyRow, 'share'>[] = [
    { column, part: 'counting', standard: counting, sensitivity: 1, relative: counting, basis: 'counted' },
  ];
  for (const part of parts) {
    const usual = defaultMeasurementErrors[part];
    const error = errors[part] ?? usual;
    // a loss anywhere from none to the largest, or as much to both sides: rectangles, JCGM 100:2008, 4.3.7
    const standard = part === 'coincidence' ? error / Math.sqrt(loses ? 12 : 3) : error;
    const sensitivity = part === 'sizing' || part === 'certificate' ? slopes[part] : 1;
    rows.push({
      column,
      part,
      standard,
      sensitivity,
      relative: standard * sensitivity,
      basis: errors[part] !== undefined ? 'given' : usual > 0 ? 'common_practice' : 'not_considered',
    });
  }
  let variance = 0;
  for (const { relative } of rows) variance += relative * relative;
  return rows.map((row) => ({ ...row, share: (row.relative * row.relative) / variance }));
}
