/**
 * The change detector, written a second time: windows by filter, medians by sorting, dependence by sums over all pairs.
 * The figures it was tuned to stand here again.
 */
import { dependenceOf, timesOf, varianceOf } from './memoryTwin.ts';

type Ring = readonly (number | null)[];
type Day = { readonly place: number; readonly value: number };

const sum = (list: readonly number[]) => list.reduce((all, one) => all + one, 0);
const mean = (list: readonly number[]) => sum(list) / list.length;
const rms = (list: readonly number[]) => Math.sqrt(mean(list.map((one) => one * one)));

function median(list: readonly number[]): number {
  const sorted = [...list].sort((a, b) => a - b);
  const upper = sorted[Math.floor(sorted.length / 2)] as number;
  return sorted.length % 2 === 1 ? upper : (upper + (sorted[sorted.length / 2 - 1] as number)) / 2;
}

const daysOf = (ring: Ring): Day[] => ring.flatMap((value, place) => (value === null ? [] : [{ place, value }]));
const valuesOf = (days: readonly Day[]) => days.map(({ value }) => value);
const within = (from: number, value: number, to: number) => Math.max(from, Math.min(to, value));

function steadyMean(values: readonly number[], floor: number): number {
  const middle = median(values);
  const reach = 3 * Math.max(floor, 1.4826 * median(values.map((value) => Math.abs(value - middle))));
  return mean(values.map((value) => within(middle - reach, value, middle + reach)));
}

function steadyDeviation(deviations: readonly number[], floor: number): number {
  let scale = 1.4826 * median(deviations.map(Math.abs)) || rms(deviations);
  if (scale === 0) return floor;
  for (let round = 0; round < 8; round += 1)
    scale = rms(deviations.map((one) => Math.min(Math.abs(one), 2.5 * scale))) / Math.sqrt(0.9776);
  return Math.max(floor, scale);
}

/** Seven digits, as a state keeps them. */
const short = (value: number) => (Math.abs(value) < 1e-12 ? 0 : Number(value.toPrecision(7)));

interface Jump {
  readonly size: number;
  readonly least: number;
  readonly most: number;
  readonly base: number;
  readonly from: number;
  readonly start: number;
}

/** The last two values within four days of `end` against up to seven within fourteen days before them. */
export function jumpOf(ring: Ring, end: number, since: number, fewest: number): Jump | null {
  if (end < 1 || ring[end - 1] === null) return null;
  const late = daysOf(ring)
    .filter(({ place }) => place < end && place >= end - 4)
    .slice(-2);
  const start = (late[0] as Day).place;
  const before = daysOf(ring)
    .filter(({ place }) => place < start && place >= start - 14 && place >= since)
    .slice(-7);
  if (late.length < 2 || before.length < fewest) return null;
  const base = median(valuesOf(before));
  const off = late.map(({ value }) => value - base);
  return { size: mean(off), least: Math.min(...off), most: Math.max(...off), base, from: before.length, start };
}

/** Values less what their day of the week usually lies above the seven days about it. */
export function withoutWeekdays(ring: Ring, last: number): (number | null)[] {
  const weekday = (place: number) => (((last - ring.length + 1 + place) % 7) + 7) % 7;
  const above = daysOf(ring).flatMap(({ place, value }) => {
    if (place < 3 || place > ring.length - 4) return [];
    const about = daysOf(ring).filter((one) => Math.abs(one.place - place) <= 3);
    return about.length < 6 ? [] : [{ day: weekday(place), off: value - mean(valuesOf(about)) }];
  });
  const offsets = [0, 1, 2, 3, 4, 5, 6].map((day) => {
    const own = above.filter((one) => one.day === day).map(({ off }) => off);
    return own.length < 3 ? 0 : median(own);
  });
  return ring.map((value, place) => (value === null ? null : value - (offsets[weekday(place)] as number)));
}

interface Contrast {
  readonly days: readonly Day[];
  readonly late: readonly Day[];
  readonly early: readonly Day[];
  readonly before: number;
  readonly after: number;
  readonly apart: number;
}

/** The last two weeks against what came a week or more before them. */
export function contrastOf(ring: Ring, since: number, floor: number): Contrast | null {
  const days = daysOf(ring).filter(({ place }) => place >= since);
  const late = days.filter(({ place }) => place >= ring.length - 14);
  const early = days.filter(({ place }) => place < ring.length - 21);
  if (late.length < 6 || early.length < 14) return null;
  const places = (list: readonly Day[]) => list.map(({ place }) => place);
  const [before, after] = [early, late].map((list) => steadyMean(valuesOf(list), floor)) as [number, number];
  return { days, late, early, before, after, apart: mean(places(late)) - mean(places(early)) };
}

/** The standard deviations of the difference of both windows, and of the later mean. */
export function errorsOf(
  { days, late, early, before, after }: Contrast,
  floor: number,
): { difference: number; late: number } {
  const [lastEarly, firstLate] = [(early[early.length - 1] as Day).place, (late[0] as Day).place];
  const level = mean(valuesOf(days));
  const first = (days[0] as Day).place;
  const bends = Array.from({ length: Math.floor((firstLate - first) / 7) + 1 }, (_x, i) => first + 7 * i);
  const bent = bends.map((bend) => {
    const rising = days.map(({ place }) => (place < bend ? 0 : place - bend));
    const offs = rising.map((one) => one - mean(rising));
    const slope = sum(offs.map((off, i) => off * ((days[i] as Day).value - level))) / sum(offs.map((off) => off ** 2));
    return days.map(({ value }, i) => value - level - slope * (offs[i] as number));
  });
  let left = bent.reduce((best, one) => (steadyDeviation(one, 0) < steadyDeviation(best, 0) ? one : best));
  for (let split = lastEarly + 1; split <= firstLate; split += 1) {
    const other = days.map(({ place, value }) => value - (place < split ? before : after));
    if (steadyDeviation(other, 0) < steadyDeviation(left, 0)) left = other;
  }
  const times = timesOf(days.map(({ place }) => place));
  const dependence = dependenceOf(times, left, 0);
  if (dependence === null) throw new Error('so many days tell how alike neighbours are');
  const scatter = Math.max(floor, steadyDeviation(left, floor) / Math.sqrt(1 - dependence.taken));
  const error = (ofEarly: number) => {
    const weights = days.map(({ place }) =>
      place >= firstLate ? 1 / late.length : place <= lastEarly ? -ofEarly / early.length : 0,
    );
    return scatter * Math.sqrt(varianceOf(weights, times, dependence));
  };
  return { difference: error(1), late: error(0) };
}

export interface TwinState {
  readonly last: number;
  readonly ring: Ring;
  readonly since: number;
  readonly settled: boolean;
  readonly level: number | null;
  readonly steps: { readonly count: number; readonly square: number };
}

export interface TwinOptions {
  readonly least: number;
  readonly season: number;
  readonly resolution: number | null;
}

function viewOf({ least: asked, resolution: given }: TwinOptions, { last, ring, since: from, steps }: TwinState) {
  const whole = (times: number) => ring.every((value) => value === null || Number.isInteger(times * value));
  const resolution = given ?? (whole(1) ? 1 : whole(2) ? 0.5 : 0);
  const floor = Math.max(0.06 * asked, 0.35 * resolution);
  const least = Math.max(asked, 1.25 * resolution);
  const since = Math.max(0, from - (last - ring.length + 1));
  const jumpsOf = (list: Ring, begin: number, until: number) => {
    const sizes: number[] = [];
    for (let end = begin + 6; end < until; end += 1) {
      const jump = jumpOf(list, end, begin, 4);
      if (jump !== null) sizes.push(jump.size);
    }
    return sizes;
  };
  const scatterOf = (list: Ring, begin: number) => {
    const sizes = jumpsOf(list, begin, list.length);
    return sizes.length < 8 ? null : steadyDeviation(sizes, floor);
  };
  const flat = withoutWeekdays(ring, last);
  const [plain, freed] = [scatterOf(ring, 0), scatterOf(flat, 0)];
  const chosen = plain !== null && freed !== null && freed * 1.1 < plain ? flat : ring;
  const all = scatterOf(chosen, since);
  const late = ring.length - 24;
  const calm = since > 7 ? null : scatterOf(chosen, Math.max(since, late));
  const early = jumpsOf(chosen, since, late + 6);
  const oneWay = calm !== null && early.length >= 8 && Math.abs(median(early)) > calm;
  const scatter = all !== null && calm !== null && oneWay && since > 0 ? Math.min(all, calm) : all;
  const known = steps.count >= 30 ? Math.sqrt(steps.square / 0.9776) : null;
  const used = scatter === null && known === null ? null : Math.max(floor, scatter ?? 0, known ?? 0);
  const limit = used === null ? null : Math.max(least, 3.9 * used);
  const days = daysOf(chosen).filter(({ place }) => place >= since);
  return { ring: chosen, since, days, floor, least, scatter, used, limit };
}

const seasonOver = (season: number, days: number) => 2 * season * Math.sin((Math.PI * days) / 365.25);

function slowLimit(options: TwinOptions, least: number, apart: number, difference: number): number {
  return Math.max(0.5 * least, 6.2 * difference, seasonOver(options.season, apart) + 4.4 * difference);
}

export interface TwinChange {
  readonly kind: string;
  readonly direction: string;
  readonly since: number | null;
  readonly before: number;
  readonly after: number;
  readonly limit: number;
}

function judged(options: TwinOptions, view: ReturnType<typeof viewOf>, { last, ring, level }: TwinState) {
  const firstDay = last - ring.length + 1;
  const offers: { change: TwinChange; from: number; ratio: number }[] = [];
  const offer = (kind: string, before: number, after: number, limit: number, from: number) => {
    const since = kind === 'step' ? from : null;
    const change = { kind, direction: after > before ? 'up' : 'down', since, before, after, limit };
    offers.push({ change, from, ratio: Math.abs(after - before) / limit });
  };
  const jump = jumpOf(view.ring, ring.length, view.since, 2);
  if (jump !== null && view.limit !== null && view.used !== null) {
    const sign = Math.sign(jump.size) || -1;
    const farther = (one: typeof jump) => Math.min(sign * one.least, sign * one.most);
    const limit = view.limit * Math.sqrt((1 / 2 + 1 / jump.from) / (1 / 2 + 1 / 7));
    const nearer = farther(jump);
    const values = valuesOf(daysOf(view.ring)).map((value) => sign * value);
    const wild = values.some((value, i) => {
      if (i < 3 || i + 3 >= values.length) return false;
      const off = Math.min(value - median(values.slice(i - 3, i)), value - median(values.slice(i + 1, i + 4)));
      return off > 1.5 * (view.limit as number) && off < 1.5 * nearer;
    });
    const third = jumpOf(view.ring, jump.start + 1, view.since, 2);
    const lasts = !wild || (third !== null && farther(third) > 0.65 * limit);
    const size = Math.min(sign * jump.size, nearer + 1.25 * view.used);
    const start = firstDay + jump.start;
    if (nearer > 0.65 * limit && lasts) offer('step', jump.base, jump.base + sign * size, limit, start);
  }
  const contrast = contrastOf(view.ring, view.since, view.floor);
  if (contrast !== null) {
    const { before, after, apart } = contrast;
    const recent = view.days.filter(({ place }) => place >= ring.length - 28);
    const now = steadyMean(valuesOf(recent), view.floor);
    const slow = Math.abs(after - before) >= 0.5 * view.least;
    const drift = level !== null && Math.abs(now - level) >= 1.2 * view.least && recent.length >= 12;
    if (slow || drift) {
      const errors = errorsOf(contrast, view.floor);
      const limit = slowLimit(options, view.least, apart, errors.difference);
      if (slow) offer('slow', before, after, limit, last - 13);
      const error = 1.1 * errors.late;
      const far = Math.max(1.2 * view.least, 4.6 * error, 2 * options.season + 4.4 * error);
      if (drift) offer('drift', level as number, now, far, last - 27);
    }
  }
  // of equal strength the later one
  return offers
    .filter(({ ratio }) => ratio >= 1)
    .reduce<(typeof offers)[number] | null>(
      (best, one) => (best === null || one.ratio >= best.ratio ? one : best),
      null,
    );
}

/** One day more: the state after it, the change it tells, and how near the nearest change came to its limit. */
export function dayTwin(
  options: TwinOptions,
  before: TwinState | null,
  day: number,
  value: number,
): { state: TwinState; change: TwinChange | null; seen: TwinState } {
  let ring: (number | null)[] = before === null || day - before.last > 63 ? [] : [...before.ring];
  if (before !== null && ring.length > 0) for (let i = before.last + 1; i < day; i += 1) ring.push(null);
  ring = [...ring, short(value)].slice(-63);
  while (ring[0] === null) ring = ring.slice(1);
  const steps = before?.steps ?? { count: 0, square: 0 };
  const fresh = before === null || ring.length === 1;
  const added: TwinState = fresh
    ? { last: day, ring, since: day + 7, settled: false, level: null, steps }
    : { ...before, last: day, ring };
  const view = viewOf(options, added);
  const settled = added.settled || view.days.length >= 21;
  const jump = settled ? jumpOf(view.ring, ring.length, view.since, 2) : null;
  let learned = steps;
  if (jump !== null && jump.from >= 4) {
    const count = Math.min(150, steps.count + 1);
    const most = 2.5 * Math.max(view.floor, view.scatter ?? Math.sqrt(steps.square / 0.9776));
    learned = {
      count,
      square: short(steps.square + (Math.min(Math.abs(jump.size), most) ** 2 - steps.square) / count),
    };
  }
  const found = settled ? judged(options, view, added) : null;
  if (found !== null) {
    const state = { ...added, since: found.from, settled: true, level: null, steps: learned };
    return { state, change: found.change, seen: state };
  }
  const level =
    added.level === null && view.days.length >= 42 ? short(steadyMean(valuesOf(view.days), view.floor)) : added.level;
  // what can be found is told by the scatter known before this day
  return { state: { ...added, settled, level, steps: learned }, change: null, seen: added };
}

/** What could be found at all. */
export function sightTwin(
  options: TwinOptions,
  state: TwinState,
): { smallestStep: number | null; smallestMonthlyRise: number | null } {
  const view = viewOf(options, state);
  const contrast = contrastOf(view.ring, view.since, view.floor);
  const base = Math.min(7, view.days.filter(({ place }) => place >= view.ring.length - 14).length);
  const wider = Math.sqrt((1 / 2 + 1 / base) / (1 / 2 + 1 / 7));
  const smallestStep =
    view.limit === null || base < 2 ? null : wider * (view.limit + 1.6448536 * (view.used as number));
  if (contrast === null) return { smallestStep, smallestMonthlyRise: null };
  const { difference } = errorsOf(contrast, view.floor);
  const least = slowLimit(options, view.least, contrast.apart, difference) + 1.6448536 * difference;
  return { smallestStep, smallestMonthlyRise: (least * 30.4375) / contrast.apart };
}
