/**
 * The shape of the limits that readings are held against: each may be left out, and null switches its check off.
 */
import * as z from 'zod/mini';
import type { FindingCode, OwnReadingLimits } from '../reading/index.ts';
import type { SourcedSolubilityLine } from '../water/index.ts';
import { sourceShape } from './classTableShape.ts';
import { list, number, object, oneOf, type ShapeOf, shapeOf } from './shapes.ts';

const findings = [
  'no_flow',
  'flow_low',
  'flow_high',
  'pressure_low',
  'viscosity_high',
  'temperature_low',
  'temperature_high',
  'few_particles',
  'counts_rise_with_size',
  'above_coincidence_limit',
  'free_water_likely',
  'cooled_below_saturation',
  'air_or_droplets_likely',
  'values_stuck',
  'line_not_flushed',
  'clock_backwards',
] as const satisfies readonly FindingCode[];

/** A finding of another name is an unrecognized key, although the type of the issue does not say so. */
function qualitiesText(issue: { readonly code?: string }): string {
  const known = `one of '${findings.join("', '")}'`;
  return issue.code === 'unrecognized_keys' ? known : "qualities by finding, such as { flow_low: 'bad' }";
}

/** A line as `solubilityLine` or a table of oils gives it. Only its slope counts here; what else it holds is kept. */
type Solubility = { readonly b: number } & Partial<SourcedSolubilityLine>;

/** The limits, with such a line. */
type LimitsFromOutside = Omit<OwnReadingLimits, 'solubility'> & { readonly solubility?: Solubility | null };

function solubilityShape(): ShapeOf<Solubility> {
  return shapeOf<Solubility>()(
    object('a solubility line { a, b }, or null', {
      a: z.optional(number('a number: log10 of the mg/kg dissolved is a - b/T')),
      b: number('a slope in kelvin above 0', { above: 0 }),
      fluid: z.optional(z.string('a text')),
      source: z.optional(sourceShape()),
    }),
  );
}

/** The shape of the limits of `assessReading`. */
export function limitsShape(): ShapeOf<OwnReadingLimits> {
  const above0 = (expected: string) => z.optional(z.nullable(number(expected, { above: 0 })));
  const band = (unit: string) => {
    const shape = object(`a band { low, high } in ${unit}, or null`, {
      low: number(`a finite number, in ${unit}`),
      high: number(`a finite number, in ${unit}`),
    });
    return z.optional(z.nullable(shape));
  };
  return shapeOf<LimitsFromOutside>()(
    object('limits as assessReading takes them', {
      mlPerMin: band('mL/min'),
      leastKPa: z.optional(z.nullable(number('a gauge pressure in kPa, or null'))),
      mostMm2PerS: above0('a kinematic viscosity in mm²/s above 0, or null'),
      celsius: band('°C'),
      particles: above0('a number of particles above 0, or null'),
      particleSizes: z.optional(
        z.nullable(list('an array of at least one size, or null', number('a size in µm above 0', { above: 0 }))),
      ),
      coincidencePerMl: above0('particles per mL above 0, or null'),
      freeWaterSaturation: z.optional(
        z.nullable(number('a relative saturation above 0, a share up to 2, or null', { above: 0, to: 2 })),
      ),
      solubility: z.optional(z.nullable(solubilityShape())),
      flattestSteepness: above0('a steepness above 0, or null'),
      stuckReadings: z.optional(z.nullable(number('2 readings or more, or null', { from: 2 }))),
      flushMl: z.optional(z.nullable(number('a volume in mL, 0 or more, or null', { from: 0 }))),
      qualities: z.optional(
        z.partialRecord(z.enum(findings), oneOf(['good', 'uncertain', 'bad']), { error: qualitiesText }),
      ),
    }),
  );
}
