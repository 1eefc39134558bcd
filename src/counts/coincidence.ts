/**
 * Coincidence: two particles in the sensing volume at once are counted as one, so a crowded counter reads low. Four models of it, each by name.
 */
import { requireNonNegative, requireObject, requireOneOf, requirePositive, requireShare } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import { exp, expm1 } from '../numeric/exponential.ts';
import { log, log1p } from '../numeric/logarithm.ts';
import { findRoot } from '../numeric/root.ts';
import type { Source } from '../source.ts';

/**
 * How observed and true concentration hang together, with x = true particles per sensing volume and y = observed.
 *
 * - `paralyzable`: y = x exp(-x). A particle counts only if the zone was empty. (Poisson model; Aerosol Sci. Technol. 47 (2013) 177.)
 * - `non-paralyzable`: y = x / (1 + x). The zone is dead for a fixed time after each count. (Textbook dead-time model.)
 * - `wales-wilson`: y = 1 - exp(-x). At most one count in each sensing volume. (Wales and Wilson 1961.)
 * - `princen-kwolek`: y = x - x^2 / 2, the start of the series of wales-wilson. (Princen and Kwolek 1965.)
 *
 * The models define the sensing volume differently: fit it with the model it is used with.
 */
export type CoincidenceModel = 'paralyzable' | 'non-paralyzable' | 'wales-wilson' | 'princen-kwolek';

/** The sensing volume of a counter and the model it belongs to. */
export interface CoincidenceOptions {
  /** Effective sensing volume in mL, above 0. `sensingVolume` finds it from a concentration limit. */
  readonly sensingVolumeMl: number;
  readonly model: CoincidenceModel;
}

/** Where the models stand. */
export const coincidenceSource: Source = {
  document:
    'Aerosol Sci. Technol. 47, 177-182 (paralyzable); Wales and Wilson (wales-wilson); Princen and Kwolek (princen-kwolek)',
  edition: '2013; 1961; 1965',
  place: 'relation of observed and true concentration; the non-paralyzable form is a textbook one',
  standing: 'published',
};

/** Where the 5 % limit of loss stands. */
export const coincidenceLimitSource: Source = {
  document: 'ISO 11171',
  edition: '1999 and later',
  place: 'coincidence error limit, 5 %',
  standing: 'from memory',
};

/** The largest x for which the model still tells low from high. */
const largest = { paralyzable: 1, 'non-paralyzable': Infinity, 'wales-wilson': Infinity, 'princen-kwolek': 1 };

/**
 * What a counter shows at a true concentration, and the share it misses.
 *
 * Range: particles per sensing volume up to 1 for `paralyzable` and `princen-kwolek`, where the shown count begins to fall again;
 * no limit for the other two.
 *
 * @param perMl true particles per mL, all sizes that can trigger the counter
 * @throws `out_of_range` beyond the model.
 *
 * @example
 * ```ts
 * import { coincidenceLoss } from 'motescale/counts';
 * coincidenceLoss(20000, { sensingVolumeMl: 5e-6, model: 'princen-kwolek' }).observedPerMl; // => 19000
 * ```
 */
export function coincidenceLoss(perMl: number, options: CoincidenceOptions): { observedPerMl: number; loss: number } {
  const { volume, model } = checkOptions(options);
  const x = requireNonNegative(perMl, 'perMl') * volume;
  if (x > largest[model]) throw beyond('perMl', perMl, largest[model] / volume);
  return { observedPerMl: observed(x, model) / volume, loss: x === 0 ? 0 : 1 - observed(x, model) / x };
}

/**
 * The true concentration behind a shown one: the inverse of `coincidenceLoss`. Correct only while the correction is small; ISO 11171
 * ends a counter's range at 5 % loss (from memory). Dilute the sample instead where it can be done.
 *
 * @param observedPerMl particles per mL as shown
 * @throws `out_of_range` where no concentration could have shown so much.
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
  const { volume, model } = checkOptions(options);
  const y = requireNonNegative(observedPerMl, 'observedPerMl') * volume;
  if (y === 0) return { perMl: 0, loss: 0 };
  const end = largest[model];
  const most = end === Infinity ? 1 : observed(end, model);
  if (y > most || (y === most && end === Infinity)) throw beyond('observedPerMl', observedPerMl, most / volume);
  const x = trueFrom(y, model);
  return { perMl: x / volume, loss: 1 - y / x };
}

/**
 * The sensing volume, in mL, of a counter whose limit of concentration is known: at `limitPerMl` true particles per mL it misses the
 * share `loss` (0.05 where left out, the coincidence error limit of ISO 11171; from memory).
 *
 * @example
 * ```ts
 * import { sensingVolume } from 'motescale/counts';
 * sensingVolume({ limitPerMl: 20000, model: 'princen-kwolek' }) * 1e6; // ~> 5.000
 * ```
 */
export function sensingVolume(limit: {
  readonly limitPerMl: number;
  readonly model: CoincidenceModel;
  readonly loss?: number;
}): number {
  requireObject(limit, 'limit', 'a limit { limitPerMl, model }');
  const perMl = requirePositive(limit.limitPerMl, 'limit.limitPerMl');
  const model = requireModel(limit.model, 'limit.model');
  const loss = requireShare(limit.loss ?? 0.05, 'limit.loss');
  const end = largest[model] === Infinity ? 1 / (1 - loss) / (1 - loss) + 2 : largest[model];
  const missed = (x: number) => 1 - observed(x, model) / x - loss;
  if (missed(end) < 0) throw motescaleError('out_of_range', 'limit.loss', loss, `a loss the ${model} model can reach`);
  return findRoot(missed, loss / 4, end, 'limit.loss') / perMl;
}

function observed(x: number, model: CoincidenceModel): number {
  switch (model) {
    case 'paralyzable':
      return x * exp(-x);
    case 'non-paralyzable':
      return x / (1 + x);
    case 'wales-wilson':
      return -expm1(-x);
    case 'princen-kwolek':
      return x - (x * x) / 2;
  }
}

function trueFrom(y: number, model: CoincidenceModel): number {
  switch (model) {
    case 'paralyzable':
      return findRoot((x) => log(x / y) - x, y, 1, 'observedPerMl');
    case 'non-paralyzable':
      return y / (1 - y);
    case 'wales-wilson':
      return -log1p(-y);
    case 'princen-kwolek':
      return (2 * y) / (1 + Math.sqrt(1 - 2 * y));
  }
}

function checkOptions(options: CoincidenceOptions): { volume: number; model: CoincidenceModel } {
  requireObject(options, 'options', 'options { sensingVolumeMl, model }');
  return {
    volume: requirePositive(options.sensingVolumeMl, 'options.sensingVolumeMl', 'a volume in mL above 0'),
    model: requireModel(options.model, 'options.model'),
  };
}

function requireModel(model: unknown, parameter: string): CoincidenceModel {
  return requireOneOf(model, parameter, ['paralyzable', 'non-paralyzable', 'wales-wilson', 'princen-kwolek']);
}

function beyond(parameter: string, value: number, most: number): Error {
  return motescaleError(
    'out_of_range',
    parameter,
    value,
    `at most ${most} per mL, where the model ends; dilute the sample`,
  );
}
