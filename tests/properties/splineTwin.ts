/**
 * The natural spline held monotone, once more and another way: its second derivatives by elimination of the whole
 * matrix, in decimals of 50 digits.
 */
import type { Decimal } from 'decimal.js';
import { Exact } from '../doubles.ts';
import { d } from './twin.ts';

const at = <T>(list: readonly T[], i: number): T => list[i] as T;

/** The solution of a system of equations, each row with its right side last: Gauss and Jordan with pivots. */
export function solved(rows: Decimal[][]): Decimal[] {
  const n = rows.length;
  for (let column = 0; column < n; column += 1) {
    let pivot = column;
    for (let i = column; i < n; i += 1) {
      if (
        at(at(rows, i), column)
          .abs()
          .gt(at(at(rows, pivot), column).abs())
      )
        pivot = i;
    }
    [rows[column], rows[pivot]] = [at(rows, pivot), at(rows, column)];
    const head = at(rows, column);
    for (let i = 0; i < n; i += 1) {
      const row = at(rows, i);
      const factor = at(row, column).div(at(head, column));
      if (i === column || factor.isZero()) continue;
      for (let j = column; j <= n; j += 1) row[j] = at(row, j).minus(factor.times(at(head, j)));
    }
  }
  return rows.map((row, i) => at(row, n).div(at(row, i)));
}

/** The curve through points with ascending x: its height at a place. */
export function splineTwin(x: readonly Decimal[], y: readonly Decimal[]): (place: Decimal) => Decimal {
  const last = x.length - 1;
  const width = (i: number) => at(x, i + 1).minus(at(x, i));
  const chord = (i: number) =>
    at(y, i + 1)
      .minus(at(y, i))
      .div(width(i));
  // bending moments: none at the ends; w[i-1] m[i-1] + 2 (w[i-1] + w[i]) m[i] + w[i] m[i+1] = 6 (c[i] - c[i-1])
  const rows = x.map((_, i) => {
    const row = [...x.map(() => d(0)), d(0)];
    if (i === 0 || i === last) {
      row[i] = d(1);
      return row;
    }
    row[i - 1] = width(i - 1);
    row[i] = width(i - 1)
      .plus(width(i))
      .times(2);
    row[i + 1] = width(i);
    row[last + 1] = chord(i)
      .minus(chord(i - 1))
      .times(6);
    return row;
  });
  const moments = solved(rows);
  const slope = (i: number) => {
    const free =
      i === last
        ? chord(i - 1).plus(
            width(i - 1)
              .times(at(moments, i - 1).plus(at(moments, i).times(2)))
              .div(6),
          )
        : chord(i).minus(
            width(i)
              .times(
                at(moments, i)
                  .times(2)
                  .plus(at(moments, i + 1)),
              )
              .div(6),
          );
    const left = chord(Math.max(i - 1, 0));
    const right = chord(Math.min(i, last - 1));
    // Hyman: none at a turn, and never more than three times the smaller chord
    if (left.times(right).lte(0) || free.times(left).lte(0)) return d(0);
    return Exact.min(free.abs(), Exact.min(left.abs(), right.abs()).times(3)).times(left.isNeg() ? -1 : 1);
  };
  const slopes = x.map((_, i) => slope(i));
  return (place) => {
    let i = 0;
    while (i + 2 < x.length && place.gte(at(x, i + 1))) i += 1;
    const t = place.minus(at(x, i)).div(width(i));
    const [t2, t3] = [t.pow(2), t.pow(3)];
    // Hermite's four basis curves
    return at(y, i)
      .times(t3.times(2).minus(t2.times(3)).plus(1))
      .plus(at(y, i + 1).times(t2.times(3).minus(t3.times(2))))
      .plus(
        width(i)
          .times(at(slopes, i))
          .times(t3.minus(t2.times(2)).plus(t)),
      )
      .plus(
        width(i)
          .times(at(slopes, i + 1))
          .times(t3.minus(t2)),
      );
  };
}
