/** SAE engine oil grades: the 30 and the 10W on the can, here for engine oils in hydraulic units and for comparison. */
import { requireObject, requirePositive } from '../../checks.ts';
import { rowsOf } from './rowsOf.ts';

/** A row of the table. Kinematic viscosity in mm2/s at 100 °C: `least` included, `below` not. */
export interface SaeEngineGrade {
  readonly grade: string;
  readonly least: number;
  readonly below: number | null;
  /** Least viscosity at 150 °C and 1e6 per second, mPa·s. */
  readonly hthsLeast: number | null;
  /** Only as the second number of these multigrades; where left out, everywhere. */
  readonly only?: string;
  /** Most viscosity in cranking, mPa·s at °C. */
  readonly crankingMost: { readonly mPaS: number; readonly celsius: number } | null;
  /** Most viscosity in pumping, without yield stress, mPa·s at °C. */
  readonly pumpingMost: { readonly mPaS: number; readonly celsius: number } | null;
}

type Cold = SaeEngineGrade['crankingMost'];

/** A winter grade is bound by cold alone, but for the least viscosity at 100 °C; the others know no cold. */
function winter(grade: string, least: number, crankingMost: Cold, pumpingMost: Cold): SaeEngineGrade {
  return { grade, least, below: null, hthsLeast: null, crankingMost, pumpingMost };
}

function summer(grade: string, least: number, below: number, hthsLeast: number, only?: string): SaeEngineGrade {
  return { grade, least, below, hthsLeast, ...(only && { only }), crankingMost: null, pumpingMost: null };
}

/** SAE J300_202405. */
export const saeJ300Table: readonly SaeEngineGrade[] = [
  /* @__PURE__ */ winter('0W', 3.8, { mPaS: 6200, celsius: -35 }, { mPaS: 60000, celsius: -40 }),
  /* @__PURE__ */ winter('5W', 3.8, { mPaS: 6600, celsius: -30 }, { mPaS: 60000, celsius: -35 }),
  /* @__PURE__ */ winter('10W', 4.1, { mPaS: 7000, celsius: -25 }, { mPaS: 60000, celsius: -30 }),
  /* @__PURE__ */ winter('15W', 5.6, { mPaS: 7000, celsius: -20 }, { mPaS: 60000, celsius: -25 }),
  /* @__PURE__ */ winter('20W', 5.6, { mPaS: 9500, celsius: -15 }, { mPaS: 60000, celsius: -20 }),
  /* @__PURE__ */ winter('25W', 9.3, { mPaS: 13000, celsius: -10 }, { mPaS: 60000, celsius: -15 }),
  /* @__PURE__ */ summer('8', 4, 6.1, 1.7),
  /* @__PURE__ */ summer('12', 5, 7.1, 2),
  /* @__PURE__ */ summer('16', 6.1, 8.2, 2.3),
  /* @__PURE__ */ summer('20', 6.9, 9.3, 2.6),
  /* @__PURE__ */ summer('30', 9.3, 12.5, 2.9),
  /* @__PURE__ */ summer('40', 12.5, 16.3, 3.5, '0W-40, 5W-40, 10W-40'),
  /* @__PURE__ */ summer('40', 12.5, 16.3, 3.7, '15W-40, 20W-40, 25W-40, 40'),
  /* @__PURE__ */ summer('50', 16.3, 21.9, 3.7),
  /* @__PURE__ */ summer('60', 21.9, 26.1, 3.7),
];

/**
 * The SAE engine oil grades whose limits at 100 °C an oil meets, by kinematic viscosity in mm2/s and, if known, HTHS
 * viscosity.
 *
 * Grades 8 to 20 overlap in kinematic viscosity; the HTHS viscosity (mPa·s at 150 °C) then decides, and without it all
 * that fit are named. `winter` lists the W grades whose least viscosity at 100 °C is met: whether the oil is one of
 * them, its cranking and pumping viscosity in the cold decides (`saeEngineGradeLimits`).
 *
 * Source: SAE J300_202405, Table 1.
 *
 * @example
 * ```ts
 * import { saeEngineGrades } from 'motescale/viscosity';
 * saeEngineGrades(9.3).grades; // => ['30']
 * saeEngineGrades(7, { hths: 2.4 }).grades; // => ['12', '16']
 * ```
 */
export function saeEngineGrades(
  at100: number,
  options: { readonly hths?: number | undefined } = {},
): { grades: string[]; winter: string[] } {
  requirePositive(at100, 'at100', 'a viscosity in mm²/s, above 0');
  requireObject(options, 'options', 'options { hths }', ['hths']);
  const known = options.hths !== undefined;
  const hths = known ? requirePositive(options.hths, 'options.hths', 'a viscosity in mPa·s, above 0') : Infinity;
  const grades: string[] = [];
  const winter: string[] = [];
  for (const { grade, least, below, hthsLeast, crankingMost } of saeJ300Table) {
    if (at100 < least || (below !== null && at100 >= below)) continue;
    if (hths < (hthsLeast ?? 0)) continue;
    const list = crankingMost === null ? grades : winter;
    if (list.indexOf(grade) < 0) list.push(grade);
  }
  return { grades, winter };
}

/**
 * The printed limits of an SAE engine oil grade. Grade 40 has two rows, with different HTHS limits for different
 * multigrades.
 *
 * Source: SAE J300_202405, Table 1.
 *
 * @throws `unknown_option` for what is no grade.
 *
 * @example
 * ```ts
 * import { saeEngineGradeLimits } from 'motescale/viscosity';
 * saeEngineGradeLimits('30')[0]?.below; // => 12.5
 * ```
 */
export function saeEngineGradeLimits(grade: string): SaeEngineGrade[] {
  return rowsOf(saeJ300Table, grade, 'SAE J300_202405');
}
