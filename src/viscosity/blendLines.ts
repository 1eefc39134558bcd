/**
 * Blending by the two-temperature method: parts that are known as viscosity-temperature lines blend into a line.
 *
 * At equal viscosity the logarithms of the parts' temperatures are averaged by fraction. As each part is a straight
 * line W = a - b log10 T, so is the blend: 1/b = Σ f/b, a/b = Σ f a/b.
 */
import { requireObject, requireWithin } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import { log10 } from '../numeric/exponential.ts';
import { alike, requireFractions } from './blending.ts';
import { doubleLog } from './line/doubleLogarithm.ts';
import { requireLine, type ViscosityLine, valueAt } from './line/viscosityLine.ts';
import { requireCelsius } from './ranges.ts';

/**
 * The viscosity-temperature line of a blend of any number of parts, each given by its own line; read it with
 * `viscosityAt`.
 *
 * The method to take where each part is known at two temperatures; `blendViscosity` needs one alone, gives less where
 * the thicker part has the smaller slope `b`, and tells how much. With one slope they agree. Which is nearer to a blend
 * of far viscosities only the blend can tell: it is measured before it is used.
 *
 * Range: that of the lines (0.21 to 2e7 mm²/s, ASTM D341); fractions by volume must add to 1 within 1e-9; all lines of
 * one form. Not for oils with viscosity index improvers (scope of ASTM D7152).
 *
 * Source: ASTM D7152-11(2016), Wright blending method; equations from memory.
 *
 * @throws `out_of_range` where the fractions do not add to 1; `not_convertible` for lines of different forms; `empty`.
 *
 * @example
 * ```ts
 * import { blendLines, viscosityAt, viscosityLine } from 'motescale/viscosity';
 * const thin = viscosityLine([{ celsius: 40, mm2PerS: 32 }, { celsius: 100, mm2PerS: 5.4 }]);
 * const thick = viscosityLine([{ celsius: 40, mm2PerS: 100 }, { celsius: 100, mm2PerS: 11.4 }]);
 * const blend = blendLines([{ fraction: 0.6, line: thin }, { fraction: 0.4, line: thick }]);
 * viscosityAt(blend, 40); // ~> 49.562
 * viscosityAt(blend, 0); // ~> 631.3
 * ```
 */
export function blendLines(
  parts: readonly { readonly fraction: number; readonly line: ViscosityLine }[],
): ViscosityLine {
  const shares = requireFractions(parts, 'line');
  let steepness = 0;
  let place = 0;
  parts.forEach(({ line }, i) => {
    requireLine(line);
    requireSameForm(line, parts[0]?.line as ViscosityLine);
    steepness += (shares[i] as number) / line.b;
    place += ((shares[i] as number) * line.a) / line.b;
  });
  const b = 1 / steepness;
  const a = place * b;
  if (!isFinite(a)) throw motescaleError('out_of_range', 'parts', parts, 'lines of viscosityLine');
  return { a, b, form: (parts[0] as { line: ViscosityLine }).line.form };
}

/**
 * The fraction by volume of the first of two parts that gives the blend a viscosity at a temperature, by the
 * two-temperature method.
 *
 * For more than two parts: a ready mixture counts as one part with the line that `blendLines` gives it.
 *
 * Source: ASTM D7152-11(2016), inverse Wright blending method; equations from memory.
 *
 * @param of the lines of the two parts, and the wanted viscosity at a temperature
 * @throws `out_of_range` where the viscosity does not lie between those of the parts; `no_answer` where both are alike
 *   there; `not_convertible` for lines of different forms.
 *
 * @example
 * ```ts
 * import { blendLinesFraction, viscosityLine } from 'motescale/viscosity';
 * const first = viscosityLine([{ celsius: 40, mm2PerS: 32 }, { celsius: 100, mm2PerS: 5.4 }]);
 * const second = viscosityLine([{ celsius: 40, mm2PerS: 100 }, { celsius: 100, mm2PerS: 11.4 }]);
 * blendLinesFraction({ first, second, celsius: 40, mm2PerS: 46 }); // ~> 0.667
 * ```
 */
export function blendLinesFraction(of: {
  readonly first: ViscosityLine;
  readonly second: ViscosityLine;
  readonly celsius: number;
  readonly mm2PerS: number;
}): number {
  const members = ['first', 'second', 'celsius', 'mm2PerS'];
  requireObject(of, 'of', 'two lines and a viscosity { first, second, celsius, mm2PerS }', members);
  const { first, second } = of;
  requireLine(first);
  requireLine(second);
  requireSameForm(second, first);
  const celsius = requireCelsius(of.celsius, 'of.celsius');
  const ends = [valueAt(first, celsius, 'of.celsius'), valueAt(second, celsius, 'of.celsius')] as const;
  const low = Math.min(ends[0], ends[1]);
  const high = Math.max(ends[0], ends[1]);
  if (alike(low, high))
    throw motescaleError('no_answer', 'of', of, `two parts of different viscosity at ${celsius} °C`);
  const target = doubleLog(requireWithin(of.mm2PerS, 'of.mm2PerS', low, high, 'between the parts'), first.form);
  const position = log10(celsius + 273.15);
  const toFirst = Math.abs(target - (first.a - first.b * position)) / first.b;
  const toSecond = Math.abs(target - (second.a - second.b * position)) / second.b;
  return toSecond / (toFirst + toSecond);
}

function requireSameForm(line: ViscosityLine, other: ViscosityLine): void {
  if (line.form !== other.form)
    throw motescaleError('not_convertible', 'form', line.form, `lines of one form, '${other.form}'`);
}
