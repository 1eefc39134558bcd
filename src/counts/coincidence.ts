/**
 * Coincidence: two particles in the sensing volume at once are counted as one, so a crowded counter reads low. Four
 * models of it, each by name.
 */
import { requireMeasure, requireMembers, requireObject, requireOneOf } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import { exp, expm1 } from '../numeric/exponential.ts';
import { log, log1p } from '../numeric/logarithm.ts';
import { findRoot } from '../numeric/root.ts';
import { shownEnd } from '../numeric/shown.ts';
import { requirePerMl, requireVolume } from './ranges.ts';

/**
 * How observed and true concentration hang together, with x = true particles per sensing volume and y = observed.
 *
 * - `paralyzable`: y = x exp(-x). A particle counts only if the zone was empty. (Poisson model; Aerosol Sci. Technol.
 *   47 (2013) 177.)
 * - `non_paralyzable`: y = x / (1 + x). The zone is dead for a fixed time after each count. (Textbook dead-time model.)
 * - `wales_wilson`: y = 1 - exp(-x). At most one count in each sensing volume. (Wales and Wilson 1961.)
 * - `princen_kwolek`: y = x - x^2 / 2, the start of the series of wales-wilson. (Princen and Kwolek 1965.)
 *
 * The models define the sensing volume differently: fit it with the model it is used with.
 */
export type CoincidenceModel = 'paralyzable' | 'non_paralyzable' | 'wales_wilson' | 'princen_kwolek';

/** The sensing volume of a counter and the model it belongs to. */
export interface CoincidenceOptions {
  /** Effective sensing volume in mL, from 1e-12. `sensingVolume` finds it from a concentration limit. */
  readonly sensingVolumeMl: number;
  readonly model: CoincidenceModel;
}

/** Below it a model changes nothing that a double can show. */
const negligible = 1e-18;
/** A count shown by this share above the crest of a model is at the crest. */
const rounding = 1e-15;

/** A model, with x = true particles per sensing volume and y = observed. */
interface Law {
  /** The largest x for which it still tells low from high. */
  readonly largest: number;
  readonly observed: (x: number) => number;
  /** The share missed: 1 - observed / x, without the difference of two like numbers. */
  readonly loss: (x: number) => number;
  /** The x at which the share is missed. */
  readonly xWithLoss: (loss: number) => number;
  /** The inverse of `observed`. */
  readonly trueFrom: (y: number) => number;
}

const laws: Readonly<Record<CoincidenceModel, Law>> = {
  paralyzable: {
    largest: 1,
    observed: (x) => x * exp(-x),
    loss: (x) => 0 - expm1(-x),
    xWithLoss: (loss) => Math.min(-log1p(-loss), 1),
    trueFrom: (y) => (-log(y) <= 1 ? 1 : findRoot((x) => log(x / y) - x, y, 1, 'observedPerMl')),
  },
  non_paralyzable: {
    largest: Infinity,
    observed: (x) => x / (1 + x),
    loss: (x) => x / (1 + x),
    xWithLoss: (loss) => loss / (1 - loss),
    trueFrom: (y) => y / (1 - y),
  },
  wales_wilson: {
    largest: Infinity,
    observed: (x) => -expm1(-x),
    loss: (x) => (x < 1 ? seriesOfLoss(x) : 1 + expm1(-x) / x),
    xWithLoss: (loss) => findRoot((x) => laws.wales_wilson.loss(x) - loss, loss, 2 / (1 - loss), 'limit.loss'),
    trueFrom: (y) => -log1p(-y),
  },
  princen_kwolek: {
    largest: 1,
    observed: (x) => x - (x * x) / 2,
    loss: (x) => x / 2,
    xWithLoss: (loss) => 2 * loss,
    trueFrom: (y) => (2 * y) / (1 + Math.sqrt(1 - 2 * y)),
  },
};

/**
 * What a counter shows at a true concentration, and the share it misses.
 *
 * Range: particles per sensing volume up to 1 for `paralyzable` and `princen_kwolek`, where the shown count begins to
 * fall again; no limit for the other two. Particles from 0 to 1e12 per mL, sensing volumes from 1e-12 to 1e9 mL.
 *
 * @param perMl true particles per mL, all sizes that can trigger the counter
 * @throws `out_of_range` beyond the model; `unknown_option`, `wrong_type`, `not_a_number`, `infinite`, `negative`.
 *
 * @example
 * ```ts
 * import { coincidenceLoss } from 'motescale/counts';
 * coincidenceLoss(20000, { sensingVolumeMl: 5e-6, model: 'princen_kwolek' }).observedPerMl; // => 19000
 * ```
 */
export function coincidenceLoss(perMl: number, options: CoincidenceOptions): { observedPerMl: number; loss: number } {
  const { volume, law } = checkOptions(options);
  // no zero below zero: a sum with 0 has none
  const x = requirePerMl(perMl, 'perMl') * volume + 0;
  if (x > law.largest) throw beyond('perMl', perMl, law.largest / volume);
  return { observedPerMl: x < negligible ? perMl + 0 : law.observed(x) / volume, loss: law.loss(x) };
}

/**
 * The true concentration behind a shown one: the inverse of `coincidenceLoss`. Correct only while the correction is
 * small; ISO 11171 ends a counter's range at 5 % loss (from memory). Dilute a bottle sample instead. On line the remedy
 * is a sensor with a higher limit; a smaller flow does not help, since as many particles stand in the sensing volume.
 *
 * By `paralyzable` and `princen_kwolek` two concentrations show one count. The lower one is given; of oil full of water
 * or dirt the other may be true, many times higher.
 *
 * @param observedPerMl particles per mL as shown
 * @throws `out_of_range` where no concentration could have shown so much; else as `coincidenceLoss`.
 *
 * @example
 * ```ts
 * import { correctCoincidence } from 'motescale/counts';
 * correctCoincidence(0, { sensingVolumeMl: 5e-6, model: 'paralyzable' }).perMl; // => 0
 * ```
 */
export function correctCoincidence(
  observedPerMl: number,
  options: CoincidenceOptions,
): { perMl: number; loss: number } {
  const { volume, law } = checkOptions(options);
  const y = requirePerMl(observedPerMl, 'observedPerMl') * volume + 0;
  if (y < negligible) return { perMl: observedPerMl + 0, loss: law.loss(y) };
  const end = law.largest;
  const most = end === Infinity ? 1 : law.observed(end);
  const allowed = end === Infinity ? y < most : y <= most * (1 + rounding);
  if (!allowed) throw beyond('observedPerMl', observedPerMl, most / volume);
  const x = law.trueFrom(Math.min(y, most));
  return { perMl: x / volume, loss: law.loss(x) };
}

/**
 * The sensing volume, in mL, of a counter whose limit of concentration is known: at `limitPerMl` true particles per mL
 * it misses the share `loss` (0.05 where left out, the coincidence error limit of ISO 11171; from memory).
 *
 * Range: limits from 1e-9 to 1e12 per mL, losses from 1e-12 to 0.999, as far as the model reaches (0.63 for
 * `paralyzable`, 0.5 for `princen_kwolek`).
 *
 * @throws `out_of_range`, `unknown_option`, `wrong_type`, `not_a_number`, `infinite`, `negative`.
 *
 * @example
 * ```ts
 * import { sensingVolume } from 'motescale/counts';
 * sensingVolume({ limitPerMl: 20000, model: 'princen_kwolek' }) * 1e6; // ~> 5.000
 * ```
 */
export function sensingVolume(limit: {
  readonly limitPerMl: number;
  readonly model: CoincidenceModel;
  readonly loss?: number;
}): number {
  requireObject(limit, 'limit', 'a limit { limitPerMl, model }');
  requireMembers(limit, 'limit', ['limitPerMl', 'model', 'loss']);
  const perMl = requirePerMl(limit.limitPerMl, 'limit.limitPerMl', 1e-9);
  const model = requireModel(limit.model, 'limit.model');
  const loss = requireMeasure(limit.loss ?? 0.05, 'limit.loss', 1e-12, 0.999, 'a share');
  const { largest, loss: lossAt, xWithLoss } = laws[model];
  if (largest !== Infinity && loss > lossAt(largest)) {
    const expected = `at most ${shownEnd(lossAt(largest), false)}, where the ${model} model ends`;
    throw motescaleError('out_of_range', 'limit.loss', loss, expected);
  }
  return xWithLoss(loss) / perMl;
}

/** 1 - (1 - exp(-x)) / x = x/2! - x^2/3! + x^3/4! - ... */
function seriesOfLoss(x: number): number {
  let series = 1;
  for (let n = 20; n >= 3; n -= 1) series = 1 - (x / n) * series;
  return (x / 2) * series;
}

function checkOptions(options: CoincidenceOptions): { volume: number; law: Law } {
  requireObject(options, 'options', 'options { sensingVolumeMl, model }', ['sensingVolumeMl', 'model']);
  return {
    volume: requireVolume(options.sensingVolumeMl, 'options.sensingVolumeMl'),
    law: laws[requireModel(options.model, 'options.model')],
  };
}

function requireModel(model: unknown, parameter: string): CoincidenceModel {
  return requireOneOf(model, parameter, Object.keys(laws) as CoincidenceModel[]);
}

function beyond(parameter: string, value: number, most: number): Error {
  const remedy = 'dilute a bottle sample, or take a sensor with a higher limit; less flow does not help';
  const expected = `at most ${shownEnd(most, false)} per mL, where the model ends: ${remedy}`;
  return motescaleError('out_of_range', parameter, value, expected);
}
