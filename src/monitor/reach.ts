/**
 * Whether an alarm can be raised at all, and return: its setpoint and its return limit lie within what the figure of a
 * reading can be. A figure that is implausible is bad, and neither raises nor clears.
 */
import { isRateOfChange } from '../alarm/plan.ts';
import { perMlRule } from '../counts/ranges.ts';
import { noteProblem, type Path, type Problem } from '../errors.ts';
import { subtractDecimals } from '../numeric/decimal.ts';
import type { ReadingLimits } from '../reading/readingLimits.ts';
import { fullSaturation, mostSaturation, readingRule } from '../reading/rules.ts';
import { largestRead } from '../rules/bounds.ts';
import type { NumberRule } from '../rules/rule.ts';
import type { FigureAlarm } from './types.ts';

/** What a figure can be, both ends included. */
interface Span {
  readonly low: number;
  readonly high: number;
}

/** Too many to count is as scale number 29. */
const scaleNumbers: Span = { low: 0, high: 29 };
/** A reading without particles counts as -1; of as many as there can be the continuous scale ends below 48. */
const continuousScaleNumbers: Span = { low: -1, high: 48 };

function spanOf(figure: FigureAlarm['figure'], limits: ReadingLimits): Span {
  if ('scaleNumberAt' in figure) return scaleNumbers;
  if ('continuousScaleNumberAt' in figure) return continuousScaleNumbers;
  if ('perMlAt' in figure) return { low: perMlRule.least, high: perMlRule.most };
  // it can be more; a setpoint that is would be one in percent
  if ('waterSaturationAt' in figure) return { low: 0, high: mostSaturation };
  if ('other' in figure) return { low: -largestRead, high: largestRead };
  const { quantity } = figure;
  // what a meter at rest shows below it is none
  if (quantity === 'mlPerMin') return { low: 0, high: largestRead };
  const { least, above = 0, most = largestRead } = readingRule.members[quantity] as NumberRule;
  const whole = { low: least ?? above, high: most };
  if (quantity === 'waterSaturation') return { low: 0, high: fullSaturation };
  const { plausibleKPa: kPa, plausibleCelsius: celsius, plausibleMm2PerS: mm2PerS } = limits;
  const plausible = { kPa, celsius, mm2PerS }[quantity];
  if (plausible === null) return whole;
  return { low: Math.max(whole.low, plausible.low), high: Math.min(whole.high, plausible.high) };
}

/** Notes what keeps an alarm from being raised or from returning; `raising` is the setpoint as it is compared. */
export function noteUnreachable(
  { figure, type, setpoint, deadband = 0 }: FigureAlarm,
  raising: number,
  limits: ReadingLimits,
  path: Path,
  problems: Problem[],
): void {
  const { low, high } = spanOf(figure, limits);
  if (isRateOfChange(type)) {
    const expected = `an amount up to ${high - low}, as far as the figure can change`;
    if (setpoint > high - low) noteProblem(problems, [...path, 'setpoint'], 'out_of_range', setpoint, expected);
    return;
  }
  // strictly beyond raises, strictly back returns
  if (!(raising > low && raising < high)) {
    const expected = `a setpoint above ${low} and below ${high}, within what the figure can be`;
    noteProblem(problems, [...path, 'setpoint'], 'out_of_range', setpoint, expected);
    return;
  }
  const room = type === 'high' ? subtractDecimals(raising, low) : subtractDecimals(high, raising);
  if (deadband < room) return;
  noteProblem(problems, [...path, 'deadband'], 'out_of_range', deadband, deadbandBelow(room));
}

export function deadbandBelow(room: number): string {
  return `a deadband below ${room}, so that the alarm can return`;
}
