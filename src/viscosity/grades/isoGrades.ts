/**
 * ISO viscosity grades: the VG 46 on the drum. A grade is a span of 10 % either side of its midpoint at 40 °C; between
 * two grades lies a gap, and an oil in the gap has no grade.
 */
import { requireWithin } from '../../checks.ts';
import { rowsOf } from './rowsOf.ts';

/** A grade as printed, mm2/s at 40 °C, limits included. */
export interface IsoGrade {
  readonly grade: number;
  readonly middle: number;
  readonly least: number;
  readonly most: number;
}

/** The 20 grades of ISO 3448 and ASTM D2422, limits as printed. */
export const iso3448Table: readonly IsoGrade[] = [
  { grade: 2, middle: 2.2, least: 1.98, most: 2.42 },
  { grade: 3, middle: 3.2, least: 2.88, most: 3.52 },
  { grade: 5, middle: 4.6, least: 4.14, most: 5.06 },
  { grade: 7, middle: 6.8, least: 6.12, most: 7.48 },
  { grade: 10, middle: 10, least: 9, most: 11 },
  { grade: 15, middle: 15, least: 13.5, most: 16.5 },
  { grade: 22, middle: 22, least: 19.8, most: 24.2 },
  { grade: 32, middle: 32, least: 28.8, most: 35.2 },
  { grade: 46, middle: 46, least: 41.4, most: 50.6 },
  { grade: 68, middle: 68, least: 61.2, most: 74.8 },
  { grade: 100, middle: 100, least: 90, most: 110 },
  { grade: 150, middle: 150, least: 135, most: 165 },
  { grade: 220, middle: 220, least: 198, most: 242 },
  { grade: 320, middle: 320, least: 288, most: 352 },
  { grade: 460, middle: 460, least: 414, most: 506 },
  { grade: 680, middle: 680, least: 612, most: 748 },
  { grade: 1000, middle: 1000, least: 900, most: 1100 },
  { grade: 1500, middle: 1500, least: 1350, most: 1650 },
  { grade: 2200, middle: 2200, least: 1980, most: 2420 },
  { grade: 3200, middle: 3200, least: 2880, most: 3520 },
];

/**
 * The ISO viscosity grade of an oil (ISO 3448, ASTM D2422) from its kinematic viscosity at 40 °C in mm2/s; `grade`
 * null, and the two grades it lies between, where it has none.
 *
 * The figure is compared with the printed limits as it is: round it first as the laboratory reports it.
 *
 * Range: 1.98 to 3520 mm2/s. Source: ISO 3448:1992.
 *
 * @throws `out_of_range` below VG 2 and above VG 3200.
 *
 * @example
 * ```ts
 * import { isoGrade } from 'motescale/viscosity';
 * isoGrade(50.6); // => { grade: 46 }
 * isoGrade(55); // => { grade: null, between: [46, 68] }
 * ```
 */
export function isoGrade(at40: number): { grade: number | null; between?: [number, number] } {
  requireWithin(at40, 'at40', 1.98, 3520, 'mm2/s, 40 °C, ISO 3448');
  let below = 0;
  for (const { grade, least, most } of iso3448Table) {
    if (at40 < least) return { grade: null, between: [below, grade] };
    if (at40 <= most) return { grade };
    below = grade;
  }
  return { grade: null };
}

/**
 * The printed limits of an ISO viscosity grade and its midpoint, mm2/s at 40 °C, limits included.
 *
 * Source: ISO 3448:1992.
 *
 * @throws `unknown_option` for what is no grade.
 *
 * @example
 * ```ts
 * import { isoGradeLimits } from 'motescale/viscosity';
 * isoGradeLimits(46); // => { grade: 46, middle: 46, least: 41.4, most: 50.6 }
 * ```
 */
export function isoGradeLimits(grade: number): IsoGrade {
  return requireIsoGrade(grade, 'grade');
}

/** The row of a grade, or an error that lists the grades. */
export function requireIsoGrade(grade: unknown, parameter: string): IsoGrade {
  const code = typeof grade === 'number' ? 'unknown_option' : 'wrong_type';
  return rowsOf(iso3448Table, grade, 'ISO 3448', code, parameter)[0];
}
