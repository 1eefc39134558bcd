/**
 * A pump that lifts its oil, warm and cold: cold oil is what starves it.
 */
import { requireFilledArray, requireObject } from '../checks.ts';
import { temperatureAt, viscosityAt } from '../viscosity/alongLine.ts';
import type { ViscosityLine } from '../viscosity/viscosityLine.ts';
import type { FlowRegime } from './frictionFactor.ts';
import type { Segment } from './line.ts';
import { balance } from './suctionLift.ts';
import { suctionLimits } from './suctionLimits.ts';

/** A suction line, the oil in it as a viscosity line, and the temperatures of interest. */
export interface SuctionTemperatures {
  readonly segments: readonly Segment[];
  readonly mlPerMin: number;
  /** The oil's viscosity line, as `viscosityLine` makes it. */
  readonly viscosity: ViscosityLine;
  /** Density in kg/m³, one for all temperatures: it changes by less than 1 % in 10 K. */
  readonly kgPerM3: number;
  /** Oil temperatures in °C, in any order. */
  readonly celsius: readonly number[];
  /** Least absolute pressure the pump's inlet stands, kPa. */
  readonly inletLimitKPa: number;
  readonly atmosphereKPa?: number;
}

/** The inlet at one temperature. */
export interface SuctionAtTemperature {
  readonly celsius: number;
  readonly mm2PerS: number;
  /** Absolute pressure at the inlet, kPa; null where the atmosphere cannot push this flow up the line. */
  readonly inletKPa: number | null;
  readonly regime: FlowRegime;
  /** Whether the inlet keeps the limit. */
  readonly allowed: boolean;
}

/**
 * How the inlet of a pump fares as the oil cools: `suctionLift` at each temperature, the flow being held, and the lowest temperature down to
 * which the inlet keeps its limit.
 *
 * Range, assumptions and sources: those of `suctionLimits` and of `viscosityAt`. Below its cloud point an oil is thicker than its line says.
 *
 * Safety: a line that starts cold is the one that starves its pump. Where the lowest temperature can come about, heat the oil, widen the line
 * or slow the pump; a soft suction hose collapses under vacuum and takes away more than is computed here.
 *
 * @returns `lowestCelsius` null where viscosity does not decide: either every temperature is allowed or none
 * @throws `out_of_range`, `empty`, `wrong_type`.
 *
 * @example
 * ```ts
 * import { suctionByTemperature } from 'motescale/sampling';
 * import { viscosityLine } from 'motescale/viscosity';
 * const inlet = suctionByTemperature({
 *   segments: [{ metres: 3, boreMm: 8, riseMetres: 1.83 }],
 *   mlPerMin: 100,
 *   viscosity: viscosityLine([{ celsius: 40, mm2PerS: 46 }, { celsius: 100, mm2PerS: 6.8 }]),
 *   kgPerM3: 880,
 *   celsius: [40, 10, -5],
 *   inletLimitKPa: 70,
 * });
 * inlet.rows.map((row) => row.allowed); // => [true, true, false]
 * inlet.lowestCelsius; // ~> 6.0
 * ```
 */
export function suctionByTemperature(line: SuctionTemperatures): {
  rows: SuctionAtTemperature[];
  lowestCelsius: number | null;
} {
  requireObject(line, 'line', 'a suction line { segments, mlPerMin, viscosity, kgPerM3, celsius, inletLimitKPa }');
  requireFilledArray(line.celsius, 'line.celsius', 'an array of temperatures in °C');
  const withOil = (mm2PerS: number) => ({ ...line, fluid: { mm2PerS, kgPerM3: line.kgPerM3 } });
  const rows = line.celsius.map((celsius) => {
    const mm2PerS = viscosityAt(line.viscosity, celsius);
    const { inletKPa, regime } = balance(withOil(mm2PerS));
    const possible = inletKPa > 0;
    const allowed = possible && inletKPa >= line.inletLimitKPa;
    return { celsius, mm2PerS, inletKPa: possible ? inletKPa : null, regime, allowed };
  });
  // the greatest viscosity does not depend on the oil that is asked with
  const greatest = suctionLimits(withOil(46)).mm2PerS;
  const decides = greatest !== null && greatest >= 0.21 && greatest < 1e7;
  return { rows, lowestCelsius: decides ? temperatureAt(line.viscosity, greatest) : null };
}
