// The healthy year, from a seed: day, season and chance in every figure, particles by the law of Poisson. The filter
// element is spent in spring and changed on 10 April: what the oil itself does is all that happens.
import { viscosityAt } from 'motescale';
import { normal, poisson, randomFrom } from '../year/random.mjs';
import { calibratedAt, day, hour, oil, readings, start } from './unit.mjs';

export const sizes = [4, 6, 10, 14, 21, 38];
/** Counts of a size and larger as shares of those of 4 µm(c), about as medium test dust falls off. */
const shape = [1, 0.4, 0.12, 0.045, 0.012, 0.0012];
const volumeMl = 25;

const spentFrom = 165 * day;
const changedAt = 191 * day;

/** So many times dirtier than usual. */
function dirtAt(time) {
  const spent = time >= spentFrom && time < changedAt ? (time - spentFrom) / (changedAt - spentFrom) : 0;
  return Math.exp(2.6 * spent + 0.25 * Math.sin(time / (9 * day)));
}

/** All readings of the year, one an hour. */
export function healthyYear(seed = 4406) {
  const random = randomFrom(seed);
  const year = [];
  for (let i = 0; i < readings; i += 1) year.push(readingAt(i * hour, 400 * dirtAt(i * hour), random));
  return year;
}

function readingAt(after, perMl, random) {
  const rounded = (value, places) => Number(value.toFixed(places));
  const turn = (span) => Math.sin((2 * Math.PI * after) / span);
  const celsius = rounded(44 + 6 * turn(day) - 5 * turn(365 * day) + 0.3 * normal(random), 1);
  return {
    time: start + after,
    counts: countsOf(perMl, random),
    mlPerMin: rounded(50 + 0.1 * (celsius - 44) + 0.8 * normal(random), 1),
    measuringSeconds: 60,
    kPa: rounded(60 + 5 * normal(random), 0),
    celsius,
    mm2PerS: rounded(viscosityAt(oil, celsius) * (1 + 0.02 * normal(random)), 1),
    waterSaturation: rounded(0.3 - 0.004 * (celsius - 44) + 0.003 * normal(random), 3),
    calibratedAt,
  };
}

function countsOf(perMl, random) {
  const between = shape.map((share, i) => poisson(random, perMl * (share - (shape[i + 1] ?? 0)) * volumeMl));
  return cumulative(sizes.map((_size, i) => between.slice(i).reduce((sum, n) => sum + n, 0)));
}

/** Counts per mL of particles counted. */
export function cumulative(counted, volume = volumeMl) {
  return { sizing: 'iso11171', sizes, counted, volumeMl: volume, perMl: counted.map((n) => n / volume) };
}
