/**
 * A forecast on a trend: from the line at the last reading to where it crosses a level, between the earliest and the
 * latest crossing.
 */
import {
  requireMembers,
  requireObject,
  requireOneOf,
  requirePositive,
  requireWholeArray,
  requireWithin,
} from '../../../checks.ts';
import { countAtScaleNumber } from '../../../codes/scaleNumber.ts';
import { requireUpperEnd } from '../../../counts/ranges.ts';
import { motescaleError } from '../../../errors.ts';
import { exp } from '../../../numeric/exponential.ts';
import { log } from '../../../numeric/logarithm.ts';
import { requireTime } from '../../timeText.ts';

/**
 * What `forecastCrossing` tells where its outcome is `expected`. Times are ms since 1970 (`unitsPerDay: 86400000`
 * there). It is drawn straight on the axis of counts.
 */
export interface ChartForecast {
  /** The size it is about, µm; of a range its lower end, and `to` its upper one. */
  readonly size: number;
  readonly to?: number;
  /**
   * What `now` and `level` are: particles per mL, above 0 (`per_ml`, as where left out), or what `forecastCrossing` is
   * asked in, continuous scale numbers of ISO 4406, -0.99 to 46 (`scale_number`), which are drawn as the counts that
   * they stand for; of particles of a size and larger only.
   */
  readonly unit?: 'per_ml' | 'scale_number';
  /** The last time it rests on, and the line there. */
  readonly from: number;
  readonly now: number;
  /** What is crossed, and when: the line, not before, not after (null: no end can be told). */
  readonly level: number;
  readonly time: number;
  readonly earliest: number;
  readonly latest: number | null;
}

const units = ['per_ml', 'scale_number'] as const;
const members = ['size', 'to', 'unit', 'from', 'now', 'level', 'time', 'earliest', 'latest'];

/** Forecasts in particles per mL; throws unless these are forecasts. */
export function checkForecasts(given: unknown = []): readonly ChartForecast[] {
  return requireWholeArray(given, 'options.forecast', 'an array of forecasts').map((each, i) => {
    const path = `options.forecast[${i}]`;
    const what = 'a forecast { size, from, now, level, time, earliest, latest }';
    requireMembers(requireObject(each, path, what), path, members);
    const { size, to, unit = 'per_ml', from, now, level, time, earliest, latest } = each as ChartForecast;
    requirePositive(size, `${path}.size`);
    if (to !== undefined) requireUpperEnd(to, size, `${path}.to`);
    requireOneOf(unit, `${path}.unit`, units);
    if (to !== undefined && unit === 'scale_number')
      throw motescaleError('not_convertible', `${path}.unit`, unit, 'per_ml for a range of sizes');
    const perMl = (value: unknown, name: string) =>
      unit === 'per_ml'
        ? requirePositive(value, `${path}.${name}`)
        : countAtScaleNumber(requireWithin(value, `${path}.${name}`, -0.99, 46));
    const counts = { now: perMl(now, 'now'), level: perMl(level, 'level') };
    const follow = (value: unknown, name: string, before: number, expected: string) => {
      const at = requireTime(value, `${path}.${name}`);
      if (at < before) throw motescaleError('out_of_range', `${path}.${name}`, at, expected);
      return at;
    };
    requireTime(from, `${path}.from`);
    // "from now on" is the last time, but for what rounding takes from it
    follow(earliest, 'earliest', from - 1, 'from or a time after it');
    const inOrder = 'earliest, time and latest in order';
    if (follow(time, 'time', earliest, inOrder) <= from)
      throw motescaleError('out_of_range', `${path}.time`, time, 'a time after from');
    if (latest !== null) follow(latest, 'latest', time, inOrder);
    return { size, ...(to !== undefined && { to }), ...counts, from, time, earliest: Math.max(earliest, from), latest };
  });
}

/**
 * How far the axis of time must reach for it: to its latest crossing, but no further than thrice the way to the line's.
 */
export function forecastEnd({ from, time, latest }: ChartForecast): number {
  return latest === null ? from + 1.5 * (time - from) : Math.min(latest, from + 3 * (time - from));
}

/**
 * The fan: corners of the area, from the side of the early crossing to that of the late one. It is cut at the right
 * edge only: an end before would be read as the latest crossing.
 */
export function forecastFan(forecast: ChartForecast, edge: number): { time: number; low: number; high: number }[] {
  const { from, now, level, earliest, latest } = forecast;
  const end = latest === null ? edge : Math.min(latest, edge);
  // straight on the axis of counts, at the level at its end
  const onWay = (time: number, end: number) => now * exp((log(level / now) * (time - from)) / (end - from));
  const corner = (time: number) => {
    // where no end can be told, the other side keeps the count of now
    const late = latest === null ? now : onWay(time, latest);
    const early = time >= earliest ? level : onWay(time, earliest);
    return { time, low: Math.min(early, late), high: Math.max(early, late) };
  };
  return earliest < end ? [corner(from), corner(earliest), corner(end)] : [corner(from), corner(end)];
}
