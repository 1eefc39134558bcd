/** AGMA lubricant numbers: the grades on the nameplates of older gear units, 0 to 15R. */
import { requireObject, requirePositive } from '../../checks.ts';
import { motescaleError } from '../../errors.ts';
import { rowsOf } from './rowsOf.ts';

/** A lubricant number as printed, limits in mm2/s at `celsius`, included. */
export interface AgmaGrade {
  readonly grade: string;
  readonly celsius: 40 | 100;
  readonly least: number;
  readonly most: number;
}

/**
 * The AGMA 9005-D94 lubricant numbers. Marks after the number say what else is in the oil, not how thick it is: EP
 * extreme pressure, S synthetic, Comp compounded with 3 to 10 % fatty oil, R residual compound.
 */
export const agma9005Table: readonly AgmaGrade[] = [
  { grade: '0', celsius: 40, least: 28.8, most: 35.2 },
  { grade: '1', celsius: 40, least: 41.4, most: 50.6 },
  { grade: '2', celsius: 40, least: 61.2, most: 74.8 },
  { grade: '3', celsius: 40, least: 90, most: 110 },
  { grade: '4', celsius: 40, least: 135, most: 165 },
  { grade: '5', celsius: 40, least: 198, most: 242 },
  { grade: '6', celsius: 40, least: 288, most: 352 },
  { grade: '7', celsius: 40, least: 414, most: 506 },
  { grade: '8', celsius: 40, least: 612, most: 748 },
  { grade: '8A', celsius: 40, least: 900, most: 1100 },
  { grade: '9', celsius: 40, least: 1350, most: 1650 },
  { grade: '10', celsius: 40, least: 2880, most: 3520 },
  { grade: '11', celsius: 40, least: 4140, most: 5060 },
  { grade: '12', celsius: 40, least: 6120, most: 7480 },
  { grade: '13', celsius: 100, least: 190, most: 220 },
  { grade: '14R', celsius: 100, least: 428.5, most: 857 },
  { grade: '15R', celsius: 100, least: 857, most: 1714 },
];

/**
 * The AGMA lubricant numbers an oil meets, by its kinematic viscosity at 40 °C (0 to 12), at 100 °C (13 to 15R), or
 * both. Empty where it lies between two: then it has no number.
 *
 * Whether a gear unit may run on it is the maker's word, not this table's: load, additive and temperature count as
 * much.
 *
 * Source: ANSI/AGMA 9005-D94.
 *
 * @throws `too_few` with neither viscosity; `negative`, `out_of_range` for 0.
 *
 * @example
 * ```ts
 * import { agmaGrades } from 'motescale/viscosity';
 * agmaGrades({ at40: 220 }); // => ['5']
 * agmaGrades({ at40: 55 }); // => []
 * ```
 */
export function agmaGrades(kv: { readonly at40?: number; readonly at100?: number }): string[] {
  requireObject(kv, 'kv', 'viscosities { at40, at100 } in mm2/s', ['at40', 'at100']);
  const { at40, at100 } = kv;
  if (at40 === undefined && at100 === undefined)
    throw motescaleError('too_few', 'kv', kv, 'a viscosity at 40 °C, at 100 °C, or both (ANSI/AGMA 9005)');
  if (at40 !== undefined) requirePositive(at40, 'kv.at40');
  if (at100 !== undefined) requirePositive(at100, 'kv.at100');
  const met = agma9005Table.filter(({ celsius, least, most }) => {
    const v = celsius === 40 ? at40 : at100;
    return v !== undefined && v >= least && v <= most;
  });
  return met.map(({ grade }) => grade);
}

/**
 * The printed limits of an AGMA lubricant number.
 *
 * Source: ANSI/AGMA 9005-D94.
 *
 * @param grade the number without its marks: '5', not '5 EP'
 * @throws `unknown_option` for what is no number.
 *
 * @example
 * ```ts
 * import { agmaGradeLimits } from 'motescale/viscosity';
 * agmaGradeLimits('5'); // => { grade: '5', celsius: 40, least: 198, most: 242 }
 * ```
 */
export function agmaGradeLimits(grade: string): AgmaGrade {
  return rowsOf(agma9005Table, grade, 'ANSI/AGMA 9005')[0];
}
