/** A pump that lifts its oil, warm and cold: cold oil is what starves it. */
import { requireDensity, requireFilledArray, requireObject } from '../../checks.ts';
import { caught } from '../../errors.ts';
import { temperatureAt, viscosityAt } from '../../viscosity/line/alongLine.ts';
import type { ViscosityLine } from '../../viscosity/line/viscosityLine.ts';
import { requireCelsius } from '../../viscosity/ranges.ts';
import type { FlowRegime } from './frictionFactor.ts';
import type { HighPoint } from './highPoint.ts';
import { requireInletLimit, type Segment, thickestMm2PerS } from './line.ts';
import { balance } from './suctionLift.ts';
import { greatestViscosity, takeMoreAt } from './suctionLimits.ts';

/** A suction line, the oil in it as a viscosity line, and the temperatures of interest. */
export interface SuctionTemperatures {
  readonly segments: readonly Segment[];
  readonly mlPerMin: number;
  /** The oil's viscosity line, as `viscosityLine` makes it. */
  readonly viscosity: ViscosityLine;
  /** Density in kg/m³, 500 to 2000, one for all temperatures: it changes by less than 1 % in 10 K. */
  readonly kgPerM3: number;
  /** Oil temperatures in °C, -80 to 250, in any order. */
  readonly celsius: readonly number[];
  /**
   * Least absolute pressure the pump's inlet stands, kPa, 30 to 1000, as of `suctionLimits`. A data sheet's -0.2 bar by
   * the gauge is 81.
   */
  readonly inletLimitKPa: number;
  readonly atmosphereKPa?: number;
}

/** The inlet at one temperature. */
export interface SuctionAtTemperature {
  readonly celsius: number;
  /** Null where the oil is thicker than 1e7 mm²/s, or its line ends: nothing is known of it, and it is not allowed. */
  readonly mm2PerS: number | null;
  /**
   * Absolute pressure at the inlet, kPa; null where the atmosphere cannot push this flow up the line, or over a high
   * point of it, and where `mm2PerS` is null.
   */
  readonly inletKPa: number | null;
  /** The high point that comes nearest to the limit; null where the inlet does, and where `inletKPa` is null. */
  readonly highPoint: HighPoint | null;
  /** Null where `mm2PerS` is. */
  readonly regime: FlowRegime | null;
  /** Whether the inlet keeps the limit, and each high point too; false where `mm2PerS` is null, hot or cold. */
  readonly allowed: boolean;
  /** As in `suctionLift`: the inlet has less than is told. */
  readonly fittingsTooLow: boolean;
}

/** A suction line, warm and cold. */
export interface SuctionByTemperature {
  /** The temperatures asked for, in their order. */
  readonly rows: SuctionAtTemperature[];
  /**
   * The lowest temperature, °C, down to which the inlet keeps its limit all the way from the warmest asked for, and the
   * oil has no more than 1e7 mm²/s; null where there is none, for either reason that `keptTo` names.
   */
  readonly lowestCelsius: number | null;
  /**
   * How far down the limit is kept: to `lowestCelsius`; to the `coldest` there is, -80 °C, by the line, which knows no
   * pour point; or `nowhere`, since the warmest asked for breaks it.
   */
  readonly keptTo: 'lowest' | 'coldest' | 'nowhere';
  /** Whether that is colder than any asked for, and so an extrapolation. */
  readonly beyondAsked: boolean;
  /** In one of the rows, or at `lowestCelsius`: the pump starves at a higher temperature than is told. */
  readonly fittingsTooLow: boolean;
}

const nowhere = { inletKPa: null, highPoint: null };

const suctionMembers = ['segments', 'mlPerMin', 'viscosity', 'kgPerM3', 'celsius', 'inletLimitKPa', 'atmosphereKPa'];

/**
 * How the inlet of a pump fares as the oil cools: `suctionLift` at each temperature, the flow being held, and the
 * lowest temperature down to which the inlet keeps its limit, from the warmest asked for. High points are judged as by
 * `suctionLimits`.
 *
 * Warmer oil is not always easier: where its flow turns from laminar to critical or turbulent, the loss leaps up, and a
 * line can keep its limit at 60 °C and break it at 70. So ask for the whole span that the oil runs through, the warmest
 * included: of what is warmer than that, nothing is told. Where the warmest breaks the limit, `keptTo` is `nowhere`,
 * also where a colder one keeps it (a row tells). A temperature at which the oil is thicker than can be reckoned with,
 * or so hot that its line has ended, is a row that is not allowed. A line of viscosity does not know its points: colder
 * than those, each answer is an extrapolation.
 *
 * Range, assumptions and sources: those of `suctionLimits` and of `viscosityAt`. Below its cloud point an oil is
 * thicker than its line says.
 *
 * Safety: a line that starts cold is the one that starves its pump. `lowestCelsius: null` is no answer by itself: with
 * `keptTo: 'nowhere'` the pump starves at every temperature. Below its pour point oil does not flow to a pump at all,
 * whatever a line says. Where the lowest temperature can come about, heat the oil, widen the line or slow the pump.
 * Fittings with a `k` alone (`fittingsTooLow`) take far more in cold oil than is computed. A soft suction hose
 * collapses under vacuum and takes away more than is computed here.
 *
 * @returns `beyondAsked` true where `lowestCelsius` is colder than all temperatures asked for
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
 * inlet.keptTo; // => 'lowest'
 * inlet.beyondAsked; // => false
 * ```
 */
export function suctionByTemperature(line: SuctionTemperatures): SuctionByTemperature {
  const expected = 'a suction line { segments, mlPerMin, viscosity, kgPerM3, celsius, inletLimitKPa }';
  requireObject(line, 'line', expected, suctionMembers);
  requireFilledArray(line.celsius, 'line.celsius', 'an array of temperatures in °C');
  requireDensity(line.kgPerM3, 'line.kgPerM3');
  const limit = requireInletLimit(line.inletLimitKPa);
  const { viscosity: _viscosity, kgPerM3, celsius: _celsius, ...pump } = line;
  const withOil = (mm2PerS: number) => ({ ...pump, fluid: { mm2PerS, kgPerM3 } });
  const rows = line.celsius.map((celsius, i): SuctionAtTemperature => {
    const mm2PerS = viscosityOf(line, celsius, `line.celsius[${i}]`);
    if (mm2PerS === null) return { celsius, mm2PerS, ...nowhere, regime: null, allowed: false, fittingsTooLow: false };
    const { inletKPa, regime, fittingsTooLow, nearest } = balance(withOil(mm2PerS));
    const { highPoint, leastKPa } = nearest(limit);
    const possible = nearest(0).leastKPa > 0;
    const allowed = possible && leastKPa >= limit;
    const pressures = possible ? { inletKPa, highPoint } : nowhere;
    return { celsius, mm2PerS, ...pressures, regime, allowed, fittingsTooLow };
  });
  const { tooLow, ...lowest } = lowestOf(rows, line);
  return { rows, ...lowest, fittingsTooLow: tooLow || rows.some((row) => row.fittingsTooLow) };
}

/** Down to where the limit is kept from the warmest row on, and whether fittings take more there than is computed. */
function lowestOf(
  rows: readonly SuctionAtTemperature[],
  line: SuctionTemperatures,
): Pick<SuctionByTemperature, 'lowestCelsius' | 'keptTo' | 'beyondAsked'> & { readonly tooLow: boolean } {
  let warmest = rows[0] as SuctionAtTemperature;
  let coldest = warmest;
  for (const row of rows) {
    if (row.celsius > warmest.celsius) warmest = row;
    if (row.celsius < coldest.celsius) coldest = row;
  }
  const none = { lowestCelsius: null, beyondAsked: false, tooLow: false };
  const { mm2PerS } = warmest;
  if (!warmest.allowed || mm2PerS === null) return { ...none, keptTo: 'nowhere' };
  // a warmest row just at its limit may break it in the last digit
  const greatest = greatestViscosity(line, line.kgPerM3, line.inletLimitKPa, mm2PerS) ?? mm2PerS;
  const reached = onLine(() => temperatureAt(line.viscosity, greatest));
  if (reached === null) return { ...none, keptTo: 'coldest' };
  const lowestCelsius = Math.min(reached, warmest.celsius);
  const tooLow = takeMoreAt(line, Math.max(greatest, mm2PerS));
  return { lowestCelsius, keptTo: 'lowest', beyondAsked: lowestCelsius < coldest.celsius, tooLow };
}

/** The viscosity there; null of an oil thicker than flows through a line, or beyond its own line. */
function viscosityOf(line: SuctionTemperatures, celsius: number, parameter: string): number | null {
  requireCelsius(celsius, parameter);
  const mm2PerS = onLine(() => viscosityAt(line.viscosity, celsius));
  return mm2PerS !== null && mm2PerS <= thickestMm2PerS ? mm2PerS : null;
}

/** What a line of viscosity gives; null where it ends before it gets there. */
function onLine(read: () => number): number | null {
  try {
    return read();
  } catch (error) {
    const { code, parameter } = caught(error);
    if (code !== 'no_answer' && parameter !== 'celsius') throw error;
    return null;
  }
}
