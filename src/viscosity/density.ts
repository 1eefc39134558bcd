/**
 * Density of a lubricating oil at any temperature, and what density makes of viscosity.
 *
 * density(t) = density(60 °F) x CTL(t), CTL = exp(-α Δt (1 + 0.8 α (Δt + δ))), α = 0.34878/ρ* per °F. Figures are not
 * rounded on the way; the standard rounds CTL to five decimals.
 */
import { requireDensity, requireFinite, requireWithin } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import { exp } from '../numeric/exponential.ts';
import { findRoot } from '../numeric/root.ts';
import { leastOilMm2PerS } from '../rules/bounds.ts';

/** K1 of the lubricating oils, per °F. The set per °C (0.6278, tables 54D) is 1.8 times this. */
const k1 = 0.34878;
/** 60 °F on the scale of 1968 less 60, in °F: the coefficients were fitted on that scale. */
const shift60 = 0.01374979547;
const base1968 = 60.0068749;
/** Differences of the temperature scales of 1990 and 1968, as a polynomial in t/630 °C. */
const scale1968: readonly number[] = [
  -0.148759, -0.267408, 1.08076, 1.269056, -4.089591, -1.871251, 7.438081, -3.536296,
];
const lightest = 800.9;
const heaviest = 1163.5;
/** Share by which a rounding error may pass them: the lightest and the heaviest oil come back from any temperature. */
const slack = 1e-12;
const group = 'lubricating oils of API MPMS 11.1-2004: 800.9 to 1163.5 kg/m3 at 60 °F';

/**
 * Density in kg/m³ of a lubricating oil at a temperature, from its density at 15 °C, at atmospheric pressure.
 *
 * Range: -50 to 150 °C; lubricating oils with 800.9 to 1163.5 kg/m³ at 60 °F, which is 801.25 to 1163.84 at 15 °C. The
 * correlation was fitted to mineral oils; esters, polyglycols and water-based fluids expand differently. The tables 54D
 * of 1980 agree within 0.001 % from 0 to 100 °C.
 *
 * Source: API MPMS Chapter 11.1, 2004, group of lubricating oils.
 *
 * @param kgPerM3At15 density at 15 °C in kg/m³, as data sheets print it
 * @param celsius temperature of the oil
 * @throws `out_of_range` naming the range, also for a density given in g/cm³.
 *
 * @example
 * ```ts
 * import { densityAt } from 'motescale/viscosity';
 * densityAt(870, 40); // ~> 854.22
 * ```
 */
export function densityAt(kgPerM3At15: number, celsius: number): number {
  const at60F = densityAt60FOf15(kgPerM3At15);
  return at60F * thermalFactor(at60F, requireCelsius(celsius));
}

/**
 * Density at 15 °C, in kg/m³, from a density measured at another temperature, such as a hydrometer reading: the inverse
 * of `densityAt`.
 *
 * @param kgPerM3 density as measured, in kg/m³
 * @param celsius temperature at which it was measured, -50 to 150 °C
 * @throws `out_of_range` where no lubricating oil of the standard has that density at that temperature.
 *
 * @example
 * ```ts
 * import { densityAt15 } from 'motescale/viscosity';
 * densityAt15(862.5, 28); // ~> 870.68
 * ```
 */
export function densityAt15(kgPerM3: number, celsius: number): number {
  return densityAt15Of60F(densityAt60F(kgPerM3, requireCelsius(celsius), 'kgPerM3'));
}

/**
 * Dynamic viscosity in mPa·s (the same as cP) from kinematic viscosity and density at the same temperature: their
 * product.
 *
 * Range: 0.2 to 1e9 mm²/s (no oil has less), 500 to 2000 kg/m³. Exact by definition.
 *
 * @param mm2PerS kinematic viscosity
 * @param kgPerM3 density at the temperature of the viscosity, not at 15 °C
 * @throws `out_of_range`, also for a density given in g/cm³.
 *
 * @example
 * ```ts
 * import { densityAt, dynamicViscosity } from 'motescale/viscosity';
 * dynamicViscosity(46, densityAt(870, 40)); // ~> 39.29
 * ```
 */
export function dynamicViscosity(mm2PerS: number, kgPerM3: number): number {
  requireWithin(mm2PerS, 'mm2PerS', leastOilMm2PerS, 1e9, 'mm2/s');
  return (mm2PerS * requireDensity(kgPerM3, 'kgPerM3')) / 1000;
}

/**
 * Kinematic viscosity in mm²/s (the same as cSt) from dynamic viscosity and density at the same temperature.
 *
 * Range: up to 1e9 mPa·s, 500 to 2000 kg/m³, an answer of 0.2 mm²/s or more: no oil has less, and viscosities in Pa·s
 * mostly give less. Exact by definition.
 *
 * @param mPaS dynamic viscosity
 * @param kgPerM3 density at the temperature of the viscosity
 * @throws `out_of_range`, also for most viscosities in Pa·s.
 *
 * @example
 * ```ts
 * import { kinematicViscosity } from 'motescale/viscosity';
 * kinematicViscosity(43.5, 870); // => 50
 * ```
 */
export function kinematicViscosity(mPaS: number, kgPerM3: number): number {
  const expected = `a viscosity in mPa·s, up to 1e9 (1 Pa·s is 1000 of them; ${leastOilMm2PerS} mm2/s or more)`;
  requireFinite(mPaS, 'mPaS', expected);
  const mm2PerS = (mPaS * 1000) / requireDensity(kgPerM3, 'kgPerM3');
  if (mm2PerS < leastOilMm2PerS * (1 - slack) || mPaS > 1e9)
    throw motescaleError('out_of_range', 'mPaS', mPaS, expected);
  return mm2PerS;
}

export function densityAt60FOf15(kgPerM3At15: number): number {
  return densityAt60F(kgPerM3At15, 15, 'kgPerM3At15');
}

/** Density at 15 °C of a density at 60 °F within the group. */
export function densityAt15Of60F(at60F: number): number {
  return at60F * thermalFactor(at60F, 15);
}

/** The density at 60 °F that gives `observed` at `celsius`. */
function densityAt60F(observed: number, celsius: number, parameter: string): number {
  const low = lightest * thermalFactor(lightest, celsius);
  const high = heaviest * thermalFactor(heaviest, celsius);
  requireFinite(observed, parameter);
  if (observed < low * (1 - slack) || observed > high * (1 + slack)) {
    const range = `${Math.ceil(low * 100) / 100} to ${Math.floor(high * 100) / 100}`;
    const expected = `a density in kg/m3 from ${range} (at ${celsius} °C, ${group})`;
    throw motescaleError('out_of_range', parameter, observed, expected);
  }
  const within = Math.min(Math.max(observed, low), high);
  return findRoot((at60F) => at60F * thermalFactor(at60F, celsius) - within, lightest, heaviest, parameter);
}

/** CTL: volume at 60 °F over volume at a temperature. */
function thermalFactor(at60F: number, celsius: number): number {
  const a = (shift60 / 2) * (k1 / at60F);
  // For this group the term B of the standard's formula is 1.
  const star = at60F * (1 + (exp(a * (1 + 0.8 * a)) - 1) / (1 + a * (1 + 1.6 * a)));
  const alpha = k1 / star;
  const step = fahrenheit1968(celsius) - base1968;
  return exp(-alpha * step * (1 + 0.8 * alpha * (step + shift60)));
}

function fahrenheit1968(celsius: number): number {
  const tau = celsius / 630;
  let difference = 0;
  for (let i = scale1968.length - 1; i >= 0; i -= 1) difference = (difference + (scale1968[i] as number)) * tau;
  return 1.8 * (celsius - difference) + 32;
}

function requireCelsius(celsius: number): number {
  return requireWithin(celsius, 'celsius', -50, 150, 'API MPMS 11.1-2004: -58 to 302 °F');
}
