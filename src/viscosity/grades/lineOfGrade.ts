/** A viscosity-temperature line from the two figures every data sheet prints: ISO VG and viscosity index. */
import { type ViscosityLine, viscosityLine } from '../line/viscosityLine.ts';
import { requireAt100Of } from '../viscosityIndex/viscosityOfIndex.ts';
import { requireIsoGrade } from './isoGrades.ts';

/**
 * The line of an oil of an ISO viscosity grade and a viscosity index: through the grade's midpoint at 40 °C and the
 * viscosity at 100 °C that gives the index.
 *
 * The drum may hold 10 % more or less than the midpoint: use `viscosityLine` with measured viscosities where they are
 * known.
 *
 * Range: grades of ISO 3448 whose viscosity at 100 °C is 2 mm2/s or more: for VG 7 an index from 75 up, for VG 5 from
 * 378, for VG 2 and VG 3 none. The index ends where the oil would no longer thin: up to VG 10 at 1000, for VG 32 at
 * 787, VG 46 at 744, VG 68 at 713, VG 150, the least, at 690, VG 1000 at 750; from VG 10 on that is any index in use.
 *
 * Source: ISO 3448:1992, ASTM D2270-10(2016), ASTM D341-20.
 *
 * @throws `unknown_option` for no ISO grade, `out_of_range` for the index.
 *
 * @example
 * ```ts
 * import { viscosityAt, viscosityLineOfGrade } from 'motescale/viscosity';
 * viscosityAt(viscosityLineOfGrade(46, 102), 100); // ~> 6.81
 * ```
 */
export function viscosityLineOfGrade(isoGrade: number, viscosityIndex: number): ViscosityLine {
  const at40 = requireIsoGrade(isoGrade, 'isoGrade').middle;
  return viscosityLine([
    { celsius: 40, mm2PerS: at40 },
    { celsius: 100, mm2PerS: requireAt100Of(at40, viscosityIndex, 'viscosityIndex') },
  ]);
}
