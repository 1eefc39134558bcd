/**
 * Grades side by side: ISO and most AGMA grades are spans at 40 °C, SAE grades at 100 °C. A viscosity index links the
 * two temperatures, so the usual chart of equivalent grades is computed here for the oil's own index, not drawn for
 * one.
 */
import { requireWithin } from '../../checks.ts';
import { greatestMm2PerS } from '../line/doubleLogarithm.ts';
import { at40Of, at100Of, requireAt100Of, requireIndex } from '../viscosityIndex/viscosityOfIndex.ts';
import { agma9005Table, agmaGrades } from './agmaGrades.ts';
import { iso3448Table } from './isoGrades.ts';
import { saeEngineGrades, saeJ300Table } from './saeEngineGrades.ts';
import { saeGearGrades, saeJ306Table2019 } from './saeGearGrades.ts';

/** The systems compared. SAE J300 as of 2024, SAE J306 as of 2019. */
export type GradeSystem = 'ISO 3448' | 'AGMA 9005' | 'SAE J300' | 'SAE J306';

/**
 * From one viscosity to another, mm2/s. Null: without an end; or where no index is defined (below 2 mm2/s at 100 °C);
 * or where no oil has so high an index, because it would not thin (above 690 for the first grades), or so low a one
 * that 20 000 000 mm2/s do not reach it.
 */
export interface ViscositySpan {
  readonly least: number | null;
  readonly most: number | null;
}

/** One bar of the chart: a grade at both temperatures, one as printed, the other computed. */
export interface ComparedGrade {
  readonly system: GradeSystem;
  readonly grade: string;
  readonly printedAt: 40 | 100;
  readonly at40: ViscositySpan;
  readonly at100: ViscositySpan;
}

/** All grades of one oil. */
export interface GradesOfOil {
  readonly at40: number;
  readonly at100: number;
  readonly iso: string[];
  readonly agma: string[];
  readonly saeEngine: string[];
  readonly saeGear: string[];
}

/**
 * Every grade of the four systems as a span at 40 and at 100 °C, for oils of one viscosity index: the usual comparison
 * chart as data. Two grades compare where their spans overlap. W grades have no upper end and are judged in the cold,
 * so they are left out.
 *
 * Equal viscosity is not equal oil: an engine oil in a gear unit, or the reverse, is a matter of additives too, and
 * this says nothing of them.
 *
 * Source: ISO 3448:1992, ANSI/AGMA 9005-D94, SAE J300_202405, SAE J306_201902; linked by ASTM D2270-10(2016).
 *
 * @param viscosityIndex up to 1000, above 690 with ever fewer ends; the printed charts are for about 95
 * @throws `out_of_range`.
 *
 * @example
 * ```ts
 * import { compareGrades } from 'motescale/viscosity';
 * const sae30 = compareGrades(95).filter(({ system, grade }) => system === 'SAE J300' && grade === '30')[0];
 * sae30?.at40.least; // ~> 77
 * sae30?.at40.most; // ~> 120
 * ```
 */
export function compareGrades(viscosityIndex: number): ComparedGrade[] {
  const index = requireIndex(viscosityIndex, 'viscosityIndex');
  const compared: ComparedGrade[] = [];
  const add = (system: GradeSystem, grade: string, printedAt: 40 | 100, least: number, most: number | null): void => {
    const printed = { least, most };
    const otherOf = printedAt === 40 ? at100Of : at40Of;
    const computed = { least: otherOf(least, index), most: most === null ? null : otherOf(most, index) };
    const [at40, at100] = printedAt === 40 ? [printed, computed] : [computed, printed];
    compared.push({ system, grade, printedAt, at40, at100 });
  };
  for (const { grade, least, most } of iso3448Table) add('ISO 3448', `${grade}`, 40, least, most);
  for (const { grade, celsius, least, most } of agma9005Table) add('AGMA 9005', grade, celsius, least, most);
  for (const { grade, least, below, hthsLeast } of saeJ300Table) {
    // grade 40 has a second row that differs in HTHS viscosity only
    if (below !== null && hthsLeast !== 3.5) add('SAE J300', grade, 100, least, below);
  }
  for (const { grade, least, below, coldest } of saeJ306Table2019) {
    if (coldest === null) add('SAE J306', grade, 100, least, below);
  }
  return compared;
}

/**
 * What one oil is called in each system, from its viscosity at 40 °C in mm2/s and its viscosity index. An empty list:
 * it lies between two grades there. W grades are judged in the cold and not named.
 *
 * Source: as `compareGrades`.
 *
 * @throws `out_of_range`, also where the viscosity at 100 °C would be below 2 mm2/s.
 *
 * @example
 * ```ts
 * import { gradesOfOil } from 'motescale/viscosity';
 * const oil = gradesOfOil(220, 95);
 * oil.iso; // => ['220']
 * oil.agma; // => ['5']
 * oil.saeEngine; // => ['50']
 * oil.saeGear; // => ['110']
 * ```
 */
export function gradesOfOil(at40: number, viscosityIndex: number): GradesOfOil {
  requireWithin(at40, 'at40', 2, greatestMm2PerS, 'mm2/s, ASTM D2270');
  const at100 = requireAt100Of(at40, viscosityIndex, 'viscosityIndex');
  return {
    at40,
    at100,
    iso: iso3448Table.filter(({ least, most }) => at40 >= least && at40 <= most).map(({ grade }) => `${grade}`),
    agma: agmaGrades({ at40, at100 }),
    saeEngine: saeEngineGrades(at100).grades,
    saeGear: saeGearGrades(at100).grades,
  };
}
