// The readings of a unit, one after the other, every five minutes: a well-mixed tank, the weather, and an instrument
// that counts by chance.
import { solubilityAt, solubilityLine, viscosityAt, viscosityLineOfGrade } from 'motescale';
import { normal, poisson, randomFrom } from './random.mjs';
import { day, hour, interval, minute, oil, sizes, solubilityPoints, start, wanted } from './units.mjs';

/** Counting 40 s at the wanted flow: 400 particles of 14 µm(c) in an oil two numbers cleaner than the target. */
const measuringSeconds = 40;
const volumeMl = (wanted.mlPerMin * measuringSeconds) / 60;
const perDay = day / (interval * minute);
export const water = solubilityLine(solubilityPoints);
const viscosity = viscosityLineOfGrade(oil.isoGrade, oil.viscosityIndex);
/** Droplets per mL at each size, once there is as much free water again as the oil can hold. */
const droplets = [900, 520, 95, 30];
/** Sensors show tenths of a degree: each is worked out once. */
const tenths = new Map();

/** Calls `take` with each reading; the same seed gives the same readings. Only the state of the tank is held. */
export function generate(unit, days, take) {
  const random = randomFrom(unit.seed);
  const tank = tankOf(unit);
  const level = { celsius: 0, traffic: 0, today: 1, water: 0, litres: 0 };
  let shown = null;
  for (let i = 0; i < days * perDay; i += 1) {
    const time = start + i * interval * minute;
    if (time % day === 0) level.today = 1 + 0.06 * normal(random);
    level.celsius += -0.05 * level.celsius + 0.25 * normal(random);
    level.traffic += -0.04 * level.traffic + 0.028 * normal(random);
    level.water += -0.025 * level.water + 0.63 * normal(random);
    for (let past = interval - 1; past >= 0; past -= 1) {
      tank.advance(time - past * minute, level.today * (1 + level.traffic) * busy(time));
    }
    if (isIn(unit.flush, time)) level.litres += unit.flush.litresPerMin * interval;
    if (isIn(unit.silent, time)) continue;
    if (!isIn(unit.stuck, time) || shown === null) shown = readingOf(unit, tank, level, time, random);
    take({ ...shown, time: time + Math.floor(random() * 400) });
  }
}

/** Counts per mL in the tank: what comes in less what the filters take, a minute at a time. */
function tankOf(unit) {
  const holds = unit.beta.map((beta) => 1 - 1 / beta);
  const comesIn = unit.usual.map((perMl, i) => perMl * unit.litresPerMin * holds[i]);
  const perMl = unit.usual.slice();
  const { collapse, stands, cart, flush, wear = 0 } = unit;
  let filled = false;
  const advance = (time, traffic) => {
    const worn = 1 + wear * ((time - start) / day);
    const broken = isIn(collapse, time);
    const flushed = isIn(flush, time);
    // a unit at rest filters nothing, and nothing comes in
    const runs = isIn(stands, time) ? 0 : 1;
    if (flushed && !filled) perMl.splice(0, perMl.length, ...flush.newOil);
    filled = flushed;
    const opened = flushed && time - flush.branch.from >= 0 && time - flush.branch.from < minute;
    for (let i = 0; i < perMl.length; i += 1) {
      let taken = runs * unit.litresPerMin * holds[i] * (broken ? collapse.holds : 1);
      if (isIn(cart, time)) taken += cart.mixing * cart.litresPerMin * (1 - 1 / cart.beta[i]);
      if (flushed) taken = flush.litresPerMin * (1 - 1 / flush.beta[i]);
      perMl[i] += (runs * comesIn[i] * worn * traffic - taken * perMl[i]) / unit.litres;
      if (broken && time - collapse.from < 20 * minute) perMl[i] += collapse.sheds[i] / 20;
      if (opened) perMl[i] += flush.branch.brings[i];
    }
  };
  return { perMl, advance };
}

function readingOf(unit, { perMl }, level, time, random) {
  const celsius = Math.round((unit.celsius + weather(time) + level.celsius) * 10) / 10;
  const { mm2PerS, mgPerKg } = at(celsius);
  const held = waterOf(unit, time) + level.water;
  const waterSaturation = Math.round(Math.min(1, held / mgPerKg) * 1000) / 1000;
  const wet = Math.max(0, held / mgPerKg - 0.96);
  const expected = perMl.map((count, i) => (count + wet * droplets[i]) * volumeMl);
  const counted = [];
  for (let i = sizes.length - 1, larger = 0, above = 0; i >= 0; i -= 1) {
    larger += poisson(random, Math.max(0, expected[i] - above));
    above = expected[i];
    counted[i] = larger;
  }
  return {
    time,
    counts: { sizing: 'iso11171', sizes, perMl: counted.map((number) => number / volumeMl), counted, volumeMl },
    mlPerMin: Math.round(10 * wanted.mlPerMin + 8 * normal(random)) / 10,
    measuringSeconds,
    kPa: Math.round(7.5 * mm2PerS + 5 * normal(random)) / 10,
    celsius,
    mm2PerS,
    waterSaturation,
    others: { mgPerKg: Math.round(waterSaturation * mgPerKg * 10) / 10 },
    litres: level.litres,
  };
}

/** Viscosity and the water that the oil can hold at a temperature. */
function at(celsius) {
  let found = tenths.get(celsius);
  if (found === undefined) {
    found = {
      mm2PerS: Math.round(viscosityAt(viscosity, celsius) * 10) / 10,
      mgPerKg: solubilityAt(water, celsius),
    };
    tenths.set(celsius, found);
  }
  return found;
}

/** Degrees beside the mean: coldest in late January, before dawn. */
function weather(time) {
  return (
    -7 * Math.cos((2 * Math.PI * (time - start - 116 * day)) / (365 * day)) -
    2.5 * Math.cos((2 * Math.PI * (time - 4 * hour)) / day)
  );
}

/** More boats by day. */
function busy(time) {
  return 1 - 0.12 * Math.cos((2 * Math.PI * (time - hour)) / day);
}

function waterOf({ water: usual, leak, flush }, time) {
  if (flush !== undefined && time >= flush.from) return usual - 15 + Math.min(15, (time - flush.from) / (4 * day));
  return usual + (leak !== undefined && time >= leak.from ? ((time - leak.from) / day) * leak.perDay : 0);
}

function isIn(span, time) {
  return span !== undefined && time >= span.from && time < span.to;
}
