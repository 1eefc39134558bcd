/**
 * A pump that lifts its oil, warm and cold: cold oil is what starves it.
 */
import { requireFilledArray, requireFinite, requireObject, requireWithin } from '../../checks.ts';
import { isMotescaleError, motescaleError } from '../../errors.ts';
import { temperatureAt, viscosityAt } from '../../viscosity/line/alongLine.ts';
import type { ViscosityLine } from '../../viscosity/line/viscosityLine.ts';
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

const suctionMembers = ['segments', 'mlPerMin', 'viscosity', 'kgPerM3', 'celsius', 'inletLimitKPa', 'atmosphereKPa'];

/**
 * How the inlet of a pump fares as the oil cools: `suctionLift` at each temperature, the flow being held, and the
 * lowest temperature down to which the inlet keeps its limit.
 *
 * Range, assumptions and sources: those of `suctionLimits` and of `viscosityAt`. Below its cloud point an oil is
 * thicker than its line says.
 *
 * Safety: a line that starts cold is the one that starves its pump. Where the lowest temperature can come about, heat
 * the oil, widen the line or slow the pump; a soft suction hose collapses under vacuum and takes away more than is
 * computed here.
 *
 * @returns `lowestCelsius` null where viscosity does not decide: either every temperature is allowed or none
 * @throws `out_of_range`, `empty`, `wrong_type`.
 *
 * @example
 * ```ts
 * import { suctionByTemperature } from 'motescale/sampling';
 * import { viscosityLine } from 'motescale/viscosity';
 * const inlet = suctionByTemperature({
 *   segments: [{ metres: 5, boreMm: 6, riseMetres: -0.6 }],
 *   mlPerMin: 60,
 *   viscosity: viscosityLine([{ celsius: 40, mm2PerS: 46 }, { celsius: 100, mm2PerS: 6.8 }]),
 *   kgPerM3: 872,
 *   celsius: [40, 20, 8],
 *   inletLimitKPa: 80,
 * });
 * inlet.rows.map((row) => row.allowed); // => [true, true, false]
 * inlet.lowestCelsius; // ~> 14.3
 * ```
 */
export function suctionByTemperature(line: SuctionTemperatures): {
  rows: SuctionAtTemperature[];
  lowestCelsius: number | null;
} {
  const expected = 'a suction line { segments, mlPerMin, viscosity, kgPerM3, celsius, inletLimitKPa }';
  requireObject(line, 'line', expected, suctionMembers);
  requireFilledArray(line.celsius, 'line.celsius', 'an array of temperatures in °C');
  requireWithin(line.kgPerM3, 'line.kgPerM3', 1, 20000);
  requireFinite(line.inletLimitKPa, 'line.inletLimitKPa');
  const { viscosity: _viscosity, kgPerM3, celsius: _celsius, ...pump } = line;
  const withOil = (mm2PerS: number) => ({ ...pump, fluid: { mm2PerS, kgPerM3 } });
  const rows: SuctionAtTemperature[] = [];
  for (let i = 0; i < line.celsius.length; i += 1) {
    const celsius = line.celsius[i] as number;
    const mm2PerS = viscosityOf(line, celsius, `line.celsius[${i}]`);
    const { inletKPa, regime } = balance(withOil(mm2PerS));
    const possible = inletKPa > 0;
    const allowed = possible && inletKPa >= line.inletLimitKPa;
    rows.push({ celsius, mm2PerS, inletKPa: possible ? inletKPa : null, regime, allowed });
  }
  // the greatest viscosity does not depend on the oil that is asked with
  const greatest = suctionLimits(withOil(46)).mm2PerS ?? 0;
  const decides = greatest >= 0.21 && greatest < 1e7;
  return { rows, lowestCelsius: decides ? temperatureAt(line.viscosity, greatest) : null };
}

/** The viscosity there, of an oil that still flows through a line. */
function viscosityOf(line: SuctionTemperatures, celsius: number, parameter: string): number {
  let mm2PerS: number;
  try {
    mm2PerS = viscosityAt(line.viscosity, celsius);
  } catch (error) {
    if (!isMotescaleError(error) || error.parameter !== 'celsius') throw error;
    throw motescaleError(error.code, parameter, celsius, error.expected);
  }
  if (mm2PerS <= 1e7) return mm2PerS;
  throw motescaleError('out_of_range', parameter, celsius, 'a temperature at which the oil has up to 1e7 mm²/s');
}
