/** A sampling line as data: lengths of tube one after another, and the oil in them. */
import { requireDensity, requireFilledArray, requireObject, requireWithin } from '../../checks.ts';
import { motescaleError } from '../../errors.ts';

/** The oil: kinematic viscosity and density at the temperature in the line. */
export interface Fluid {
  /** Kinematic viscosity in mm²/s, 0.01 to 1e7. */
  readonly mm2PerS: number;
  /** Density in kg/m³, 500 to 2000. */
  readonly kgPerM3: number;
}

/** A strainer or filter by its data sheet: what it takes, clean, at one flow of an oil of one viscosity. */
export interface Strainer {
  /** Pressure drop in kPa, a difference, 0 to 1e6. */
  readonly kPa: number;
  /** The flow, mL/min, at which it takes that, 1e-12 to 1e9. */
  readonly mlPerMin: number;
  /** The kinematic viscosity, mm²/s, at which it takes that, 0.01 to 1e7. */
  readonly mm2PerS: number;
}

/** A length of tube of one bore and one slope, with the fittings in it. */
export interface Segment {
  /** Length along the tube in m, 0 to 1e5. 0 for a fitting alone. */
  readonly metres: number;
  /** Inner diameter in mm, 0.05 to 10000. */
  readonly boreMm: number;
  /**
   * How much higher the end lies than the beginning, in m, at most the length; negative where the line falls. 0 where
   * left out. A tube that goes over a high point is two segments, one up and one down: else nobody sees that point.
   */
  readonly riseMetres?: number;
  /**
   * Sum of the loss coefficients K of its fittings, 0 to 1e6; 0 where left out. Handbook values are for turbulent flow.
   * Alone they are far too small in laminar flow, by a factor of hundreds at a Reynolds number of 2: give `k1` as well.
   */
  readonly k?: number;
  /**
   * Sum of what its fittings take in laminar flow, 0 to 1e6, the K1 of the two-K method: K = k1 / Re + k. 0 where left
   * out; a 0 that is given says that `k` holds in laminar flow too, as a velocity head does.
   */
  readonly k1?: number;
  /**
   * A strainer or filter in it. Its drop is taken as proportional to flow and viscosity (common practice), whatever the
   * density. That errs low where flow over viscosity is greater than on its data sheet, and where it is fouled.
   *
   * Where it stands counts for the pressure on the way. It is taken at the end of its segment, and so are `k` and `k1`;
   * in one that falls, behind one that rises, at the beginning. One at the top of a line that falls from there on is a
   * segment of its own before it, with `metres` 0: else a pressure below 0 behind it is not seen.
   */
  readonly strainer?: Strainer;
  /** Height of the wall's roughness in mm, at most a twentieth of the bore. 0.00152, drawn tubing, where left out. */
  readonly roughnessMm?: number;
}

/** Oil moved along segments, from the first to the last. */
export interface Line {
  readonly segments: readonly Segment[];
  /** Flow in mL/min: 0, or 1e-12 to 1e9. */
  readonly mlPerMin: number;
  readonly fluid: Fluid;
}

/** The members of a line, and of one that a pump draws through: the same line may be handed to all its functions. */
export const lineMembers: readonly string[] = ['segments', 'mlPerMin', 'fluid', 'atmosphereKPa', 'inletLimitKPa'];

const segmentMembers: readonly string[] = ['metres', 'boreMm', 'riseMetres', 'k', 'k1', 'strainer', 'roughnessMm'];

/** The standard atmosphere, kPa: what presses on the oil where nothing is said. */
export const usualAtmosphereKPa = 101.325;

/** The pressure a line begins with, kPa absolute: bar, and a vacuum by the gauge, lie below 10. */
export function requireStart(startKPa: unknown): number {
  const units = 'kPa absolute: 0.8 bar absolute is 80, -0.2 bar gauge is 81';
  return requireWithin(startKPa, 'line.startKPa', 10, 1e7, units);
}

/**
 * The pressure on the oil of a tank, kPa absolute (our choice): the air of the highest mountain has 34, and a tank that
 * can be opened stands no 2 bar by the gauge. A barometer's hPa and mmHg lie above, bar, psi and inches of mercury
 * below.
 */
export function requireAtmosphere(kPa: unknown): number {
  const units = 'kPa absolute: 0.95 bar, 950 hPa or mbar, 713 mmHg and 13.8 psi are 95';
  return requireWithin(kPa ?? usualAtmosphereKPa, 'line.atmosphereKPa', 30, 300, units);
}

/**
 * The least a pump's inlet stands, kPa absolute, from 30 (our choice): the deepest vacuum in print for an oil pump, 19
 * inches of mercury, leaves 37. Bar, psi, inches of mercury and the usual vacuums, in kPa too, lie below.
 */
export function requireInletLimit(kPa: unknown): number {
  const units = 'kPa absolute: 0.8 bar or 11.6 psi is 80, a vacuum of 20 kPa or 6 inHg is 81';
  return requireWithin(kPa, 'line.inletLimitKPa', 30, 1000, units);
}

/** Standard acceleration of free fall, m/s². Source: NIST SP 811, 2008, appendix B.8. */
export const gravity = 9.80665;

/** Roughness of drawn tubing, mm: Hydraulic Institute Engineering Data Book, 2nd edition 1990, table 3.A.1. */
export const drawnTubingMm = 0.00152;

/** Share by which the sum of several lengths may pass the rise by a rounding. */
const slack = 1e-9;

/** A checked segment in SI units. */
export interface Tube {
  readonly metres: number;
  readonly bore: number;
  readonly area: number;
  readonly rise: number;
  readonly k: number;
  readonly k1: number;
  /** What its strainer takes, Pa, per m³/s and m²/s. */
  readonly strainer: number;
  /** Fittings of which only the turbulent part was given. */
  readonly turbulentOnly: boolean;
  readonly relativeRoughness: number;
}

/** A checked fluid in SI units. */
export interface Liquid {
  /** m²/s. */
  readonly kinematic: number;
  /** kg/m³. */
  readonly density: number;
}

/** The segments in SI units, or an error that names the one that is wrong. */
export function requireTubes(segments: unknown): Tube[] {
  const list = requireFilledArray(segments, 'line.segments', 'an array of segments { metres, boreMm }');
  return list.map((segment, i) => {
    const path = `line.segments[${i}]`;
    return requireTube(requireObject(segment, path, 'a segment { metres, boreMm }', segmentMembers) as Segment, path);
  });
}

/** One segment, or what holds one among other members, in SI units. */
export function requireTube(segment: Segment, path: string): Tube {
  const boreMm = requireBore(segment.boreMm, `${path}.boreMm`);
  const roughness = requireWithin(segment.roughnessMm ?? drawnTubingMm, `${path}.roughnessMm`, 0, boreMm / 20);
  const bore = boreMm / 1000;
  const metres = requireWithin(segment.metres, `${path}.metres`, 0, 1e5);
  const rise = requireWithin(segment.riseMetres ?? 0, `${path}.riseMetres`, -1e4, 1e4);
  if (Math.abs(rise) > metres * (1 + slack)) {
    const expected = `a rise in m from ${-metres} to ${metres} (no more than the tube is long)`;
    throw motescaleError('out_of_range', `${path}.riseMetres`, rise, expected);
  }
  const k = requireWithin(segment.k ?? 0, `${path}.k`, 0, 1e6);
  const k1 = requireWithin(segment.k1 ?? 0, `${path}.k1`, 0, 1e6);
  return {
    metres,
    bore,
    area: (Math.PI / 4) * bore * bore,
    rise,
    k,
    k1,
    strainer: strainerOf(segment.strainer, `${path}.strainer`),
    turbulentOnly: k > 0 && (segment.k1 ?? null) === null,
    relativeRoughness: roughness / boreMm,
  };
}

function strainerOf(strainer: Strainer | undefined, path: string): number {
  if ((strainer ?? null) === null) return 0;
  requireObject(strainer, path, 'a strainer { kPa, mlPerMin, mm2PerS }', ['kPa', 'mlPerMin', 'mm2PerS']);
  const { kPa, mlPerMin, mm2PerS } = strainer as Strainer;
  const pascal = requireWithin(kPa, `${path}.kPa`, 0, 1e6) * 1000;
  const flow = requireWithin(mlPerMin, `${path}.mlPerMin`, leastFlow, mostFlow) / 6e7;
  return pascal / (flow * (requireMm2PerS(mm2PerS, `${path}.mm2PerS`) / 1e6));
}

/** The oil in SI units; `densityOf` where another fluid may stand in for it. */
export function requireLiquid(
  fluid: Fluid,
  path = 'line.fluid',
  densityOf: (kgPerM3: unknown, parameter: string) => number = requireDensity,
): Liquid {
  requireObject(fluid, path, 'a fluid { mm2PerS, kgPerM3 }', ['mm2PerS', 'kgPerM3']);
  return {
    kinematic: requireMm2PerS(fluid.mm2PerS, `${path}.mm2PerS`) / 1e6,
    density: densityOf(fluid.kgPerM3, `${path}.kgPerM3`),
  };
}

/** The inner diameter of a tube, mm. */
export function requireBore(boreMm: unknown, parameter: string): number {
  return requireWithin(boreMm, parameter, 0.05, 10000);
}

/** No oil that flows through a line is thicker. */
export const thickestMm2PerS = 1e7;

export function requireMm2PerS(mm2PerS: unknown, parameter: string): number {
  return requireWithin(mm2PerS, parameter, 0.01, thickestMm2PerS);
}

/** Flows below, in mL/min, are no flow: a drop in a hundred thousand years. */
export const leastFlow = 1e-12;
/** The most that a line is asked for, mL/min. */
export const mostFlow = 1e9;

/** The flow in m³/s. */
export function requireFlow(mlPerMin: unknown, parameter = 'line.mlPerMin'): number {
  const flow = requireWithin(mlPerMin, parameter, 0, mostFlow);
  if (flow > 0 && flow < leastFlow)
    throw motescaleError('out_of_range', parameter, flow, '0, or a flow in mL/min, 1e-12 or more');
  return flow / 6e7;
}
