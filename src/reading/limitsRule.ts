/** What limits of one's own may be, each left out or null, for the checks, for schema/ and for the docs. */
import { sizeRule } from '../counts/ranges.ts';
import { leastGaugeKPa, qualityWords } from '../rules/bounds.ts';
import type { NumberRule, ObjectRule, Rule } from '../rules/rule.ts';
import { flattest, steepest } from '../water/ranges.ts';
import { findingCodes } from './findingKinds.ts';
import type { ReadingLimits } from './readingLimits.ts';
import { fullSaturation, maxSizes } from './rules.ts';

const finite = { kind: 'number' } as const;
const text: Rule = { kind: 'text', shortest: 0, longest: 1000, optional: true };
const off = { optional: true, nullable: true } as const;
const band = (expected: string) =>
  ({ kind: 'object', expected, members: { low: finite, high: finite }, ...off }) as const;
const number = (expected: string, ends: Partial<NumberRule> = {}): NumberRule => ({
  ...finite,
  expected,
  ...ends,
  ...off,
});

/** Made where it is asked for: a gateway that has prepared its monitor holds it no longer. */
export function limitsRule(): ObjectRule {
  const members = {
    mlPerMin: band('a band { low, high } in mL/min'),
    leastKPa: number('a gauge pressure in kPa', { above: leastGaugeKPa }),
    mostMm2PerS: number('a kinematic viscosity in mm²/s', { above: 0 }),
    celsius: band('a band { low, high } in °C'),
    particles: number('a number of particles', { above: 0 }),
    particleSizes: { kind: 'list', expected: 'sizes', of: sizeRule, longest: maxSizes, ...off },
    coincidencePerMl: number('particles per mL', { above: 0 }),
    freeWaterSaturation: number('a relative saturation as a share (0.95 for 95 %)', { above: 0, most: fullSaturation }),
    solubility: {
      kind: 'object',
      expected: 'a solubility line { a, b }',
      members: {
        a: { kind: 'number', optional: true },
        b: { kind: 'number', expected: 'a slope in kelvin', least: flattest, most: steepest },
        fluid: text,
        source: {
          kind: 'object',
          members: { document: text, edition: text, place: text, standing: text },
          optional: true,
        },
      },
      ...off,
    },
    flattestSteepness: number('a steepness', { above: 0 }),
    stuckChance: number('a share', { above: 0, below: 1 }),
    mostKPa: number('a gauge pressure in kPa'),
    flowSwing: number('a share', { above: 0, most: 2 }),
    countedShare: number('a share', { above: 0, most: 1 }),
    viscosityLine: {
      kind: 'object',
      expected: 'a line { a, b, form }, as viscosityLine makes it',
      members: {
        a: finite,
        b: { kind: 'number', expected: 'a slope', above: 0 },
        form: { kind: 'word', words: ['full', 'short'] },
      },
      ...off,
    },
    viscosityShare: number('a share', { above: 0, most: 10 }),
    settleMs: number('a time in ms', { above: 0 }),
    calibrationMs: number('a time in ms', { above: 0 }),
    clockAheadMs: number('a time in ms', { least: 0 }),
    flushMl: number('a volume in mL', { least: 0 }),
    plausibleCelsius: band('a band { low, high } in °C'),
    plausibleKPa: band('a band { low, high } in kPa'),
    plausibleMm2PerS: band('a band { low, high } in mm²/s'),
    qualities: {
      kind: 'record',
      expected: "qualities by finding, such as { flow_low: 'bad' }",
      of: { kind: 'word', words: qualityWords, optional: true },
      longest: findingCodes.length,
      names: findingCodes,
      optional: true,
    },
  } satisfies Readonly<Record<keyof ReadingLimits, Rule>>;
  return { kind: 'object', expected: 'limits as assessReading takes them', members };
}
