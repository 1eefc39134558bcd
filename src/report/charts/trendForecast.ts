/**
 * A forecast on a trend: from the line at the last reading to where it crosses a level, between the earliest and the
 * latest crossing.
 */
import { requireFilledArray, requireMembers, requireObject, requirePositive } from '../../checks.ts';
import { motescaleError } from '../../errors.ts';
import { exp } from '../../numeric/exponential.ts';
import { log } from '../../numeric/logarithm.ts';
import { requireTime } from '../timeText.ts';

/** What `forecastCrossing` tells, in ms since 1970 and particles per mL. */
export interface ChartForecast {
  /** The size it is about, µm. */
  readonly size: number;
  /** The last time it rests on, and the line there. */
  readonly from: number;
  readonly now: number;
  /** The count that is crossed, and when: the line, not before, not after (null: no end can be told). */
  readonly level: number;
  readonly time: number;
  readonly earliest: number;
  readonly latest: number | null;
}

const members = ['size', 'from', 'now', 'level', 'time', 'earliest', 'latest'];

/** Throws unless these are forecasts. */
export function checkForecasts(given: unknown): readonly ChartForecast[] {
  if (given === undefined) return [];
  if (Array.isArray(given) && given.length === 0) return [];
  const forecasts = requireFilledArray(given, 'options.forecast', 'an array of forecasts');
  forecasts.forEach((each, i) => {
    const path = `options.forecast[${i}]`;
    requireMembers(
      requireObject(each, path, 'a forecast { size, from, now, level, time, earliest, latest }'),
      path,
      members,
    );
    const { size, from, now, level, time, earliest, latest } = each as ChartForecast;
    requirePositive(size, `${path}.size`);
    requirePositive(now, `${path}.now`);
    requirePositive(level, `${path}.level`);
    let before = requireTime(from, `${path}.from`);
    const follow = (value: unknown, name: string) => {
      const at = requireTime(value, `${path}.${name}`);
      if (at <= before && name === 'earliest')
        throw motescaleError('out_of_range', `${path}.${name}`, at, 'a time after from');
      if (at < before)
        throw motescaleError('out_of_range', `${path}.${name}`, at, 'earliest, time and latest in order');
      before = at;
    };
    follow(earliest, 'earliest');
    follow(time, 'time');
    if (latest !== null) follow(latest, 'latest');
  });
  return forecasts as readonly ChartForecast[];
}

/**
 * How far the axis of time must reach for it: to its latest crossing, but no further than thrice the way to the line's.
 */
export function forecastEnd({ from, time, latest }: ChartForecast): number {
  const furthest = from + 3 * (time - from);
  return latest === null ? from + 1.5 * (time - from) : Math.min(latest, furthest);
}

/**
 * The fan: corners of the area, from the side of the early crossing to that of the late one. It is cut at the right
 * edge only: an end before would be read as the latest crossing.
 */
export function forecastFan(forecast: ChartForecast, edge: number): { time: number; low: number; high: number }[] {
  const { from, now, level, earliest, latest } = forecast;
  const end = latest === null ? edge : Math.min(latest, edge);
  // where no end can be told, the other side keeps the count of now
  const lateAt = (time: number) =>
    latest === null ? now : now * exp((log(level / now) * (time - from)) / (latest - from));
  const corner = (time: number) => {
    const late = lateAt(time);
    const early = time >= earliest ? level : now * exp((log(level / now) * (time - from)) / (earliest - from));
    return { time, low: Math.min(early, late), high: Math.max(early, late) };
  };
  return earliest < end ? [corner(from), corner(earliest), corner(end)] : [corner(from), corner(end)];
}

/** The line itself. */
export function forecastLine({ from, now, level, time }: ChartForecast): { time: number; count: number }[] {
  return [
    { time: from, count: now },
    { time, count: level },
  ];
}
