/**
 * What a straight line does not show: a bend of the whole, and a rise or fall that began late.
 *
 * Each is a shape fitted beside the line. The memory is read from what line and shape together leave, so that a bend
 * does not pass for memory.
 */
import { doubles, type NumberList } from '../../numeric/lists.ts';
import { studentBeyond } from '../../numeric/student.ts';
import { dependenceOf } from './dependence.ts';
import { dependentSum, type Layout, square, sumOf } from './layout.ts';
import type { RobustLine } from './robustLine.ts';

/** What is flagged of the course of a series. */
export type TrendFlag = 'curved' | 'late_rise' | 'late_fall';

/** A late change begins after this share of the time. */
const lateFrom = 0.7;
/** The risk of each flag where there is nothing but scatter. */
const flagRisk = 0.02;

/** The flags of a line whose dependence could be told. */
export function shapeFlags(line: RobustLine): TrendFlag[] {
  const { layout } = line;
  const flags: TrendFlag[] = [];
  if (line.dependence === null) return flags;
  const first = layout.fromMean[0] as number;
  const knot = first + lateFrom * ((layout.fromMean[layout.n - 1] as number) - first);
  if (strengthOf(line, square).certain) flags.push('curved');
  const late = strengthOf(line, (time) => Math.max(0, time - knot));
  if (late.certain) flags.push(late.size > 0 ? 'late_rise' : 'late_fall');
  return flags;
}

/** How large a shape is beside the line, and whether it is more than memory and chance. */
function strengthOf(line: RobustLine, shape: (time: number) => number): { size: number; certain: boolean } {
  const { layout, left } = line;
  const { n } = layout;
  const values = doubles(n);
  for (let i = 0; i < n; i += 1) values[i] = shape(layout.fromMean[i] as number);
  const weights = besideLine(layout, values);
  const own = sumOf(weights, square);
  const rest = besideLine(layout, left);
  const size = sumOf(weights, (weight, i) => weight * (rest[i] as number)) / own;
  for (let i = 0; i < n; i += 1) rest[i] = (rest[i] as number) - size * (weights[i] as number);
  const dependence = dependenceOf(layout, rest, 0, weights);
  const whole = sumOf(left, square);
  if (dependence === null || !(own > 0) || whole === 0) return { size: 0, certain: false };
  const variance = sumOf(rest, square) / (n * (1 - dependence.taken));
  const error = Math.sqrt(variance * dependentSum(dependence.kept, weights, dependence.share)) / own;
  const freedom = Math.max(1, dependence.effective - 3);
  return { size, certain: studentBeyond(size / error, freedom) < flagRisk };
}

/** A list less its own line of least squares. */
function besideLine(layout: Layout, list: NumberList): NumberList {
  const { n, fromMean, squares } = layout;
  const mean = sumOf(list, (value) => value) / n;
  const slope = sumOf(list, (value, i) => (value - mean) * (fromMean[i] as number)) / squares;
  const rest = doubles(n);
  for (let i = 0; i < n; i += 1) rest[i] = (list[i] as number) - mean - slope * (fromMean[i] as number);
  return rest;
}
