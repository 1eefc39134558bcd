// Is there a trend, how steep is it, and when will the target be left: on means of days or weeks, never on single
// readings.
import {
  autocorrelatedTrend,
  continuousScaleNumber,
  forecastCrossing,
  iso4406,
  parseCode,
  rollUp,
  rollUpWidth,
} from 'motescale';
import { asItIsSince, day, start } from './units.mjs';

const month = 365.25 / 12;

/** The stretches of a unit between works that changed it, each with its trend; the last one with a forecast. */
export function trendsOf({ unit, days }) {
  const ends = asItIsSince(unit);
  const disturbed = unit.collapse?.from ?? unit.leak?.from ?? ends;
  const stretches =
    ends === start
      ? [[start, Infinity]]
      : [
          [start, disturbed],
          [ends, Infinity],
        ];
  const trends = stretches.map(([from, to]) =>
    trendOf(days.filter((one) => one.at6.start >= from && one.at6.start + day <= to)),
  );
  return { trends, forecast: forecastOf(trends.at(-1), unit) };
}

/**
 * The series: continuous scale numbers of 6 µm(c), from days joined to buckets of a handy width, so that one hardly
 * depends on the next.
 */
function trendOf(days) {
  const span = days.length * day;
  const widthMs = Math.max(day, rollUpWidth(span, 60));
  const values = days.map(({ at6 }) => ({
    time: at6.start,
    value: at6.mean === null ? null : continuousScaleNumber(at6.mean),
  }));
  const buckets = rollUp(values, { widthMs, holdMs: day, originMs: days[0].at6.start });
  const present = buckets.filter(({ mean }) => mean !== null);
  const times = present.map(({ start: from }) => from / day);
  const means = present.map(({ mean }) => mean);
  // neighbours are alike: a test that takes them for independent would find a trend nearly everywhere
  const { slope, low, high, p, verdict, effectiveN, flags } = autocorrelatedTrend(buckets.map(({ mean }) => mean));
  const perMonth = (perBlock) => (perBlock === null ? null : (perBlock * month * day) / widthMs);
  return {
    from: days[0].at6.start,
    to: days.at(-1).at6.start,
    everyDays: widthMs / day,
    times,
    means,
    perMonth: perMonth(slope),
    low: perMonth(low),
    high: perMonth(high),
    p,
    verdict,
    effectiveN,
    flags,
  };
}

/** When 6 µm(c) will leave the scale number of the target. */
function forecastOf({ times, means }, { target }) {
  const level = Number(parseCode(iso4406, target).parts[1].class);
  return { level, last: times.at(-1), ...forecastCrossing(times, means, { level }) };
}
