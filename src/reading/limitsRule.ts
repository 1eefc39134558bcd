/** What limits of one's own may be, each left out or null, for the checks, for schema/ and for the docs. */
import { sizeRule } from '../counts/ranges.ts';
import { leastGaugeKPa, qualityWords } from '../rules/bounds.ts';
import type { NumberRule, ObjectRule, Rule } from '../rules/rule.ts';
import { flattest, steepest } from '../water/ranges.ts';
import { findingCodes } from './findingKinds.ts';
import type { ReadingLimits } from './readingLimits.ts';
import { fullSaturation } from './rules.ts';

const finite: NumberRule = { kind: 'number' };
const text: Rule = { kind: 'text', shortest: 0, longest: 1000, optional: true };
const off = { optional: true, nullable: true } as const;
const band = (expected: string) =>
  ({ kind: 'object', expected, members: { low: finite, high: finite }, ...off }) as const;
/** Made where it is asked for: a gateway that has prepared its monitor holds it no longer. */
export function limitsRule(): ObjectRule {
  const members = {
    mlPerMin: band('a band { low, high } in mL/min'),
    leastKPa: { kind: 'number', expected: 'a gauge pressure in kPa', above: leastGaugeKPa, ...off },
    mostMm2PerS: { kind: 'number', expected: 'a kinematic viscosity in mm²/s', above: 0, ...off },
    celsius: band('a band { low, high } in °C'),
    particles: { kind: 'number', expected: 'a number of particles', above: 0, ...off },
    particleSizes: { kind: 'list', expected: 'sizes', of: sizeRule, longest: 32, ...off },
    coincidencePerMl: { kind: 'number', expected: 'particles per mL', above: 0, ...off },
    freeWaterSaturation: {
      kind: 'number',
      expected: 'a relative saturation as a share (0.95 for 95 %)',
      above: 0,
      most: fullSaturation,
      ...off,
    },
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
    flattestSteepness: { kind: 'number', expected: 'a steepness', above: 0, ...off },
    stuckChance: { kind: 'number', expected: 'a share', above: 0, below: 1, ...off },
    mostKPa: { kind: 'number', expected: 'a gauge pressure in kPa', ...off },
    flowSwing: { kind: 'number', expected: 'a share', above: 0, most: 2, ...off },
    countedShare: { kind: 'number', expected: 'a share', above: 0, most: 1, ...off },
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
    viscosityShare: { kind: 'number', expected: 'a share', above: 0, most: 10, ...off },
    settleMs: { kind: 'number', expected: 'a time in ms', above: 0, ...off },
    calibrationMs: { kind: 'number', expected: 'a time in ms', above: 0, ...off },
    clockAheadMs: { kind: 'number', expected: 'a time in ms', least: 0, ...off },
    flushMl: { kind: 'number', expected: 'a volume in mL', least: 0, ...off },
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
