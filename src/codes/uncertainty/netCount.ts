/** What is left of a count less another, with limits: a blank, a diluent, or the same oil treated otherwise. */
import { confidenceOf, requireMembers, requireObject } from '../../checks.ts';
import { requireDilution, requireVolume } from '../../counts/ranges.ts';
import { atLeast, type CountInVolume, countInterval } from '../../counts/statistics.ts';
import { requireCountInVolume, risk } from './detectionLimits.ts';

/** A count less a background. */
export interface NetCount {
  /** Particles per mL left over. Below 0 where the background was the larger: left so, averages of it stay right. */
  readonly perMl: number;
  readonly low: number;
  readonly high: number;
  /**
   * False: not distinguishable from the background; report "not distinguishable", with `high` as the most it can be. It
   * is an exact test to one side, with a risk of 5 % whatever the confidence; the limits lie to both sides, and join
   * those of both counts. Near the edge it may be true where `low` is 0 or below.
   */
  readonly detected: boolean;
}

/** Two counts of one oil. */
export interface CountChange {
  /** The first less the second, particles per mL; below 0 where the second is the larger. */
  readonly perMl: number;
  readonly low: number;
  readonly high: number;
  /** Whether the limits leave out 0. */
  readonly distinguishable: boolean;
}

/** The confidence of the limits, above 0.5; 0.95 where left out. */
export interface NetCountOptions {
  readonly confidence?: number | undefined;
}

/**
 * The particles of a sample less those of its blank: clean fluid taken through the same glass, solvent and counter. A
 * blank above the sample is no error: nothing was then distinguishable from the blank.
 *
 * `detected` is the exact conditional test: were the sample like the blank, its share of all particles counted would be
 * binomial, and so many or more would come with 5 % at most. Currie's critical level (`detectionLimits`) lies a little
 * lower. The limits join the exact Poisson limits of both counts.
 *
 * **Judge a target by `high`** (`scaleNumber(Math.max(0, net.high))`), size by size: counts made of `perMl` no longer
 * know how few particles they rest on, and `meets` lists none of them as uncertain.
 *
 * Range: whole counts from 0 to 1e9, volumes from 1e-12 to 1e9 mL. Accuracy: the limits hold about as often as they
 * say, from 0 particles up. It knows the counting alone; see `codeUncertainty` for the rest.
 *
 * Sources: J. Przyborowski and H. Wilenski, Biometrika 31 (1940) 313 (the conditional test; from memory); G. Zou and
 * A. Donner, Statistics in Medicine 27 (2008) 1693 (limits of a difference from those of its terms; from memory).
 *
 * @param sample `counted` in `volumeMl`
 * @param blank the same of the blank; a larger volume makes the limits narrower
 * @param options `confidence` of the limits, 0.95 where left out
 * @throws `not_an_integer`, `negative`, `out_of_range`, `unknown_option`, `wrong_type`, `not_a_number`, `infinite`.
 *
 * @example
 * ```ts
 * import { subtractBlank } from 'motescale/codes';
 * const net = subtractBlank({ counted: 480, volumeMl: 10 }, { counted: 35, volumeMl: 10 });
 * net.perMl; // => 44.5
 * net.detected; // => true
 * subtractBlank({ counted: 30, volumeMl: 10 }, { counted: 35, volumeMl: 10 }).detected; // => false
 * ```
 */
export function subtractBlank(sample: CountInVolume, blank: CountInVolume, options: NetCountOptions = {}): NetCount {
  const first = requireCountInVolume(sample, 'sample');
  const second = requireCountInVolume(blank, 'blank');
  return net(first, second, 1, 1, confidenceOf(options));
}

/**
 * The particles per mL of the oil before it was diluted, with those of the diluent taken off and limits: what
 * `undilute` gives, for raw counts. A diluent that holds more than the mixture is no error here: the oil's particles
 * were then not distinguishable.
 *
 * Range, sources and decision: those of `subtractBlank`.
 *
 * @param mixture `counted` in `volumeMl` of the mixture
 * @param diluent the same of the diluent alone
 * @param mixed `sampleMl` of oil in `diluentMl` of diluent
 * @param options `confidence` of the limits, 0.95 where left out
 * @throws as `subtractBlank`.
 *
 * @example
 * ```ts
 * import { subtractDiluent } from 'motescale/codes';
 * const mixed = { sampleMl: 10, diluentMl: 90 };
 * const net = subtractDiluent({ counted: 5200, volumeMl: 10 }, { counted: 50, volumeMl: 10 }, mixed);
 * net.perMl; // => 5155
 * ```
 */
export function subtractDiluent(
  mixture: CountInVolume,
  diluent: CountInVolume,
  mixed: { readonly sampleMl: number; readonly diluentMl: number },
  options: NetCountOptions = {},
): NetCount {
  const first = requireCountInVolume(mixture, 'mixture');
  const second = requireCountInVolume(diluent, 'diluent');
  requireMembers(requireObject(mixed, 'mixed', 'volumes { sampleMl, diluentMl }'), 'mixed', ['sampleMl', 'diluentMl']);
  const sampleMl = requireVolume(mixed.sampleMl, 'mixed.sampleMl');
  const diluentMl = requireVolume(mixed.diluentMl, 'mixed.diluentMl');
  return net(first, second, (sampleMl + diluentMl) / sampleMl, diluentMl / sampleMl, confidenceOf(options));
}

/**
 * The difference of two counts of one oil, with limits: at two dilutions (a difference points to coincidence or to a
 * dirty diluent), or before and after masking water (the difference is the water).
 *
 * Range and sources: those of `subtractBlank`.
 *
 * @param first `counted` in `volumeMl`; `dilution` where it was diluted (2 for one part oil in two parts of mixture)
 * @param second the same
 * @param options `confidence` of the limits, 0.95 where left out
 * @throws as `subtractBlank`.
 *
 * @example
 * ```ts
 * import { countChange } from 'motescale/codes';
 * const masked = countChange({ counted: 9100, volumeMl: 10 }, { counted: 640, volumeMl: 10, dilution: 5 });
 * masked.perMl; // => 590
 * masked.distinguishable; // => true
 * ```
 */
export function countChange(
  first: CountInVolume & { readonly dilution?: number },
  second: CountInVolume & { readonly dilution?: number },
  options: NetCountOptions = {},
): CountChange {
  const [a, b] = [requireCountInVolume(first, 'first', true), requireCountInVolume(second, 'second', true)];
  const of = ({ dilution }: { readonly dilution?: number }, name: string) =>
    requireDilution(dilution ?? 1, `${name}.dilution`);
  const found = difference(a, b, of(first, 'first'), of(second, 'second'), confidenceOf(options));
  return { ...found, distinguishable: found.low > 0 || found.high < 0 };
}

function net(sample: CountInVolume, blank: CountInVolume, factor: number, share: number, confidence: number): NetCount {
  const ratio = (sample.volumeMl / blank.volumeMl) * (share / factor);
  const chance = atLeast(sample.counted, sample.counted + blank.counted, ratio);
  return { ...difference(sample, blank, factor, share, confidence), detected: chance <= risk };
}

/** first x a - second x b, per mL, with limits from the limits of both. */
function difference(first: CountInVolume, second: CountInVolume, a: number, b: number, confidence: number) {
  const x = (first.counted * a) / first.volumeMl;
  const y = (second.counted * b) / second.volumeMl;
  const ofFirst = countInterval(first.counted, { confidence });
  const ofSecond = countInterval(second.counted, { confidence });
  const [downX, upX] = [x - (ofFirst.low * a) / first.volumeMl, (ofFirst.high * a) / first.volumeMl - x];
  const [downY, upY] = [y - (ofSecond.low * b) / second.volumeMl, (ofSecond.high * b) / second.volumeMl - y];
  const perMl = x - y;
  return {
    perMl,
    low: perMl - Math.sqrt(downX * downX + upY * upY),
    high: perMl + Math.sqrt(upX * upX + downY * downY),
  };
}
