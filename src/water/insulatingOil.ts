/**
 * Solubility lines that are published: all of them for mineral insulating oil, which has hardly any additives.
 *
 * Hydraulic and turbine oils hold several times more water. Do not use these lines for them: measure (docs/water.md).
 */
import { requireObject, requireWithin } from '../checks.ts';
import type { Source } from '../source.ts';
import type { SolubilityLine } from './solubilityLine.ts';

/** A line with the fluid it belongs to and its source. */
export interface SourcedSolubilityLine extends SolubilityLine {
  readonly fluid: string;
  readonly source: Source;
}

/** Where the line of mineral insulating oil stands. */
export const insulatingOilSource: Source = {
  document: 'IEEE C57.106, Guide for Acceptance and Maintenance of Insulating Mineral Oil',
  edition: 'edition not confirmed',
  place: 'solubility of water in oil, log10 S = 7.0895 - 1567/T',
  standing: 'from memory',
};

/** Where the line by aromatic content and acidity stands. */
export const insulatingOilByKindSource: Source = {
  document:
    'P. Przybylek, Water saturation limit of insulating liquids and hygroscopicity of cellulose, IEEE Trans. ' +
    'Dielectr. Electr. Insul. 23(3)',
  edition: '2016',
  place: 'ln S = 16.2822 - 3698.27/T + 0.02589 aromatic % + 2.0991 acidity, as quoted in one source',
  standing: 'published',
};

/**
 * Mineral insulating oil as IEEE C57.106 has it, 0 to 100 °C: log10 S = 7.0895 - 1567/T. Coefficients from memory; they
 * give the printed table of moisture solubility from 0 to 100 °C within 1 % or 1 mg/kg. Not for hydraulic oil.
 */
export const mineralInsulatingOil: SourcedSolubilityLine = {
  a: 7.0895,
  b: 1567,
  fluid: 'mineral insulating oil',
  source: insulatingOilSource,
};

const ln10 = 2.302585092994046;

/**
 * The solubility line of a mineral insulating oil by its aromatic content and its acidity. Not for hydraulic oil.
 *
 * Range: 0 to 30 % aromatics, acidity 0 to 0.5 mg KOH/g (limits set here; those of the study are not confirmed).
 * Compared with `mineralInsulatingOil`, which knows neither: at 20 °C, 5 % and 0.05 mg KOH/g it gives 49.5 instead of
 * 55.5 mg/kg.
 *
 * Source: P. Przybylek, IEEE Trans. Dielectr. Electr. Insul. 23(3), 2016.
 *
 * @throws `out_of_range`.
 *
 * @example
 * ```ts
 * import { insulatingOil, solubilityAt } from 'motescale/water';
 * solubilityAt(insulatingOil({ aromaticPercent: 5, mgKohPerG: 0.05 }), 40); // ~> 110.69
 * ```
 */
export function insulatingOil(oil: {
  readonly aromaticPercent: number;
  readonly mgKohPerG: number;
}): SourcedSolubilityLine {
  requireObject(oil, 'oil', 'an oil { aromaticPercent, mgKohPerG }', ['aromaticPercent', 'mgKohPerG']);
  const aromatics = requireWithin(oil.aromaticPercent, 'oil.aromaticPercent', 0, 30);
  const acidity = requireWithin(oil.mgKohPerG, 'oil.mgKohPerG', 0, 0.5);
  return {
    a: (16.2822 + 0.02589 * aromatics + 2.0991 * acidity) / ln10,
    b: 3698.27 / ln10,
    fluid: `mineral insulating oil with ${aromatics} % aromatics, acidity ${acidity} mg KOH/g`,
    source: insulatingOilByKindSource,
  };
}
