/**
 * SAE gear oil grades: the 90 and the 75W of gear and axle oils. The grades changed with the editions, so the edition
 * is part of the answer.
 */
import { requireObject, requireOneOf, requirePositive } from '../../checks.ts';
import { rowsOf } from './rowsOf.ts';

/** Editions of SAE J306. A revision of 2025 adds grades below 70W for electric drives; its limits are not here. */
export type SaeGearEdition = '2019' | '2005';

/** A row of the table. Kinematic viscosity in mm2/s at 100 °C: `least` included, `below` not. */
export interface SaeGearGrade {
  readonly grade: string;
  readonly least: number;
  readonly below: number | null;
  /** Highest temperature at which the oil reaches 150 000 mPa·s, °C; W grades only. */
  readonly coldest: number | null;
}

/** SAE J306_201902. */
export const saeJ306Table2019: readonly SaeGearGrade[] = [
  { grade: '70W', least: 3.8, below: null, coldest: -55 },
  { grade: '75W', least: 3.8, below: null, coldest: -40 },
  { grade: '80W', least: 8.5, below: null, coldest: -26 },
  { grade: '85W', least: 11, below: null, coldest: -12 },
  { grade: '65', least: 3.8, below: 5, coldest: null },
  { grade: '70', least: 5, below: 6.5, coldest: null },
  { grade: '75', least: 6.5, below: 8.5, coldest: null },
  { grade: '80', least: 8.5, below: 11, coldest: null },
  { grade: '85', least: 11, below: 13.5, coldest: null },
  { grade: '90', least: 13.5, below: 18.5, coldest: null },
  { grade: '110', least: 18.5, below: 24, coldest: null },
  { grade: '140', least: 24, below: 32.5, coldest: null },
  { grade: '190', least: 32.5, below: 41, coldest: null },
  { grade: '250', least: 41, below: null, coldest: null },
];

/** SAE J306_200506. */
export const saeJ306Table2005: readonly SaeGearGrade[] = [
  { grade: '70W', least: 4.1, below: null, coldest: -55 },
  { grade: '75W', least: 4.1, below: null, coldest: -40 },
  { grade: '80W', least: 7, below: null, coldest: -26 },
  { grade: '85W', least: 11, below: null, coldest: -12 },
  { grade: '80', least: 7, below: 11, coldest: null },
  { grade: '85', least: 11, below: 13.5, coldest: null },
  { grade: '90', least: 13.5, below: 18.5, coldest: null },
  { grade: '110', least: 18.5, below: 24, coldest: null },
  { grade: '140', least: 24, below: 32.5, coldest: null },
  { grade: '190', least: 32.5, below: 41, coldest: null },
  { grade: '250', least: 41, below: null, coldest: null },
];

/**
 * The SAE gear oil grades whose limits at 100 °C an oil meets, by kinematic viscosity in mm2/s.
 *
 * `winter` lists the W grades whose least viscosity at 100 °C is met: whether the oil is one of them, its viscosity in
 * the cold decides (`coldest` of `saeGearGradeLimits`).
 *
 * Source: SAE J306_201902, or J306_200506 on request: a 75W needs 3.8 mm2/s in the one and 4.1 in the other, an 80
 * begins at 8.5 or 7.
 *
 * @example
 * ```ts
 * import { saeGearGrades } from 'motescale/viscosity';
 * saeGearGrades(13.5).grades; // => ['90']
 * saeGearGrades(8, { edition: '2005' }).grades; // => ['80']
 * ```
 */
export function saeGearGrades(
  at100: number,
  options: { readonly edition?: SaeGearEdition | undefined } = {},
): { grades: string[]; winter: string[]; edition: SaeGearEdition } {
  requirePositive(at100, 'at100', 'a viscosity in mm²/s, above 0');
  const { rows, edition } = tableOf(options);
  const met = rows.filter(({ least, below }) => at100 >= least && (below === null || at100 < below));
  return {
    grades: met.filter((row) => row.coldest === null).map((row) => row.grade),
    winter: met.filter((row) => row.coldest !== null).map((row) => row.grade),
    edition,
  };
}

/**
 * The printed limits of an SAE gear oil grade.
 *
 * Source: SAE J306_201902, or J306_200506 on request.
 *
 * @throws `unknown_option` for what is no grade of that edition.
 *
 * @example
 * ```ts
 * import { saeGearGradeLimits } from 'motescale/viscosity';
 * saeGearGradeLimits('90'); // => { grade: '90', least: 13.5, below: 18.5, coldest: null }
 * ```
 */
export function saeGearGradeLimits(
  grade: string,
  options: { readonly edition?: SaeGearEdition | undefined } = {},
): SaeGearGrade {
  const { rows, edition } = tableOf(options);
  return rowsOf(rows, grade, `SAE J306, ${edition}`)[0];
}

function tableOf(options: { readonly edition?: SaeGearEdition | undefined }): {
  rows: readonly SaeGearGrade[];
  edition: SaeGearEdition;
} {
  requireObject(options, 'options', 'options { edition }', ['edition']);
  const edition = requireOneOf(options.edition ?? '2019', 'options.edition', ['2019', '2005']);
  return { rows: edition === '2019' ? saeJ306Table2019 : saeJ306Table2005, edition };
}
