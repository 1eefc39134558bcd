/**
 * What the figure and its signal did, from all inputs: the part of the alarm model that knows no operator and no
 * silence.
 */
import { Decimal } from 'decimal.js';
import type { AlarmConfig, AlarmInput, AlarmReading } from '../../../src/alarm/index.ts';
import {
  chatterEnd,
  goneStale,
  holds,
  lastWhere,
  type Moment,
  part,
  reAlarm,
  type Span,
  spans,
  union,
} from './alarmStoryMoments.ts';

/**
 * Thrown where nothing says how far apart readings "usually" are, so that no one can tell when the signal went
 * stale.
 */
export class Undetermined extends Error {}

export interface Refused {
  readonly at: Moment;
  readonly limit: number;
}

/**
 * A good or uncertain reading, and the figure to compare: the sign of `low` and `fall` is turned, so that more is
 * worse.
 */
export interface Good {
  readonly at: Moment;
  /** As of when it counts, and when it was taken: a tick or a command may have come between. */
  readonly time: number;
  readonly taken: number;
  readonly value: number;
  readonly figure: Decimal;
  /** As events show it: the value itself, or by how much it has changed. */
  readonly shown: number;
}

export interface Crossing {
  readonly up: boolean;
  readonly at: Moment;
  readonly good: Good;
}

/** Wide enough for the sum of any two doubles. */
const Wide: typeof Decimal = Decimal.clone({ precision: 700 });
const day = 86_400_000;

const isReading = (input: AlarmInput): input is AlarmReading => input.kind === undefined || input.kind === 'reading';
const isBad = ({ value, quality }: AlarmReading): boolean => value === null || quality === 'bad';
const isChange = ({ type }: AlarmConfig): boolean => type === 'rise' || type === 'fall';
const isTurned = ({ type }: AlarmConfig): boolean => type === 'low' || type === 'fall';

/**
 * When each input counts: one that another has overtaken counts as of the later time. Three in a row that lie more than
 * a day behind set the time back: such a story is not told here.
 */
export function timesOf(inputs: readonly AlarmInput[]): number[] {
  const times: number[] = [];
  inputs.forEach((_, k) => {
    const three = inputs.slice(Math.max(0, k - 2), k + 1);
    const latest = Math.max(...inputs.slice(0, k + 1).map(({ time }) => time));
    if (three.length === 3 && three.every(({ time }) => latest - time > day)) throw new Undetermined();
  });
  for (const { time } of inputs) times.push(Math.max(time, times[times.length - 1] ?? time));
  return times;
}

/** A reading older than the last reading is refused and changes nothing. */
export function refusedReadings(inputs: readonly AlarmInput[], times: readonly number[]): (Refused | null)[] {
  let limit = Number.NEGATIVE_INFINITY;
  return inputs.map((input, i) => {
    if (!isReading(input)) return null;
    if (input.time < limit) return { at: [times[i] as number, i, part.main, 0], limit };
    limit = input.time;
    return null;
  });
}

/** What was read and not refused. */
interface Read {
  readonly reading: AlarmReading;
  readonly time: number;
  readonly input: number;
}
function readOf(inputs: readonly AlarmInput[], times: readonly number[], refused: readonly unknown[]): Read[] {
  return inputs.flatMap((reading, input) =>
    isReading(reading) && refused[input] === null ? [{ reading, time: times[input] as number, input }] : [],
  );
}

/**
 * A change is from the extreme of `withinMs`, in 24 parts of time counted from 1970: this part and the 24 before
 * it.
 */
function goodReadings(config: AlarmConfig, read: readonly Read[]): Good[] {
  const within = BigInt(config.withinMs ?? 1);
  const seen: { place: bigint; value: number }[] = [];
  return read.flatMap(({ reading, time, input }) => {
    const { value } = reading;
    if (value === null || isBad(reading)) return [];
    const at: Moment = [time, input, part.signal, 0];
    const sign = (x: Decimal): Decimal => (isTurned(config) ? x.negated() : x);
    const taken = reading.time;
    if (!isChange(config)) return [{ at, time, taken, value, figure: sign(new Wide(value)), shown: value }];
    const place = (BigInt(taken) * 24n) / within;
    seen.push({ place, value });
    const values = seen.filter((one) => one.place >= place - 24n).map((one) => one.value);
    const figure = sign(new Wide(value).minus(isTurned(config) ? Math.max(...values) : Math.min(...values)));
    return [{ at, time, taken, value, figure, shown: figure.abs().toNumber() }];
  });
}

/** From the first bad reading to the next good one. */
function badSpans(read: readonly Read[]): Span[] {
  return read.flatMap(({ reading, time, input }, k) => {
    const last = read[k - 1];
    if (!isBad(reading) || (last !== undefined && isBad(last.reading))) return [];
    const next = read.slice(k).find((later) => !isBad(later.reading));
    const to: Moment | null = next === undefined ? null : [next.time, next.input, part.signal, 0];
    return [{ from: [time, input, part.signal, 0], to }];
  });
}

/** How old the last of these good readings may be; null where it may be of any age. */
function allowedAge(config: AlarmConfig, readings: readonly Good[]): number | null {
  if (config.staleAfterMs !== undefined) return config.staleAfterMs;
  const gaps = readings.slice(1).map(({ time }, k) => time - (readings[k] as Good).time);
  // Two readings of one time tell no interval.
  const told = gaps.filter((gap) => gap > 0);
  if (told.length === 0) return null;
  const longest = Math.max(...told);
  if (10 * longest <= day) return day;
  if (told.every((gap) => gap === longest)) return 10 * longest;
  throw new Undetermined();
}

/** Stale: the last good reading, or else the first input, is older than allowed. The default is a day or more. */
function staleSpans(
  config: AlarmConfig,
  first: number,
  good: readonly Good[],
  now: number,
): (Span & { since: number })[] {
  return [first, ...good.map(({ time }) => time)].flatMap((since, k) => {
    const next = good[k];
    const silent = (next?.time ?? now) - since;
    if (silent <= (config.staleAfterMs ?? day) && config.staleAfterMs !== null) return [];
    const allowed = allowedAge(config, good.slice(0, k));
    if (allowed === null || silent <= allowed) return [];
    const to: Moment | null = next === undefined ? null : [next.time, next.at[1], part.signal, 1];
    return [{ since, from: goneStale(since + allowed), to }];
  });
}

/** Suppressed by design; `unsaid`: the last mode, where readings without one end it. */
interface Suppressed extends Span {
  readonly mode: string;
  readonly unsaid: number | null;
}

/**
 * From a mode that suppresses to the next that does not, or to a good reading without one that comes when the last mode
 * is older than a good reading may be.
 */
function suppressedSpans(
  config: AlarmConfig,
  inputs: readonly AlarmInput[],
  times: readonly number[],
  refused: readonly unknown[],
  good: readonly Good[],
): Suppressed[] {
  const all: Suppressed[] = [];
  let last = 0;
  inputs.forEach((input, i) => {
    if (input.kind === 'command' || refused[i] !== null) return;
    const time = times[i] as number;
    const { mode } = input;
    const open = all[all.length - 1];
    const lasts = open !== undefined && open.to === null;
    const end = (unsaid: number | null) => {
      all[all.length - 1] = { ...(open as Suppressed), to: [time, i, part.release, 0], unsaid };
    };
    if (mode !== undefined && config.suppressedInModes?.includes(mode)) {
      last = time;
      if (!lasts) all.push({ from: [time, i, part.suppress, 0], to: null, mode, unsaid: null });
    } else if (lasts && mode !== undefined) end(null);
    else if (lasts && good.some(({ at }) => at[1] === i) && time - last > (config.staleAfterMs ?? day)) {
      const allowed = allowedAge(
        config,
        good.filter(({ at }) => at[1] < i),
      );
      if (allowed !== null && time - last > allowed) end(last);
    }
  });
  return all;
}

/**
 * Raised when every good reading for the on-delay has been beyond the setpoint; returned when every one for the
 * off-delay has been back past the deadband; a delay does not run across a stale signal, nor across the end of a
 * suppression, in which nothing is raised.
 */
function crossingsOf(
  config: AlarmConfig,
  good: readonly Good[],
  stale: readonly Span[],
  suppressed: readonly Span[],
): Crossing[] {
  const limit = isTurned(config) && !isChange(config) ? new Wide(config.setpoint).negated() : new Wide(config.setpoint);
  const back = limit.minus(config.deadband ?? 0);
  const beyond = ({ figure, at }: Good): boolean =>
    (isChange(config) ? figure.gte(limit) : figure.gt(limit)) && !holds(suppressed, [at[0], at[1], part.release, 1]);
  const isBack = ({ figure }: Good): boolean => figure.lt(back);
  /** Since when the readings up to this one were taken on a side without a break; null where this one was not. */
  const since = (k: number, side: (one: Good) => boolean): number | null => {
    const last = good[k] as Good;
    let start: number | null = null;
    for (let j = k; j >= 0; j -= 1) {
      const one = good[j] as Good;
      if (suppressed.some(({ to }) => to !== null && one.at[1] < to[1] && to[1] <= last.at[1])) break;
      if (!side(one) || stale.some(({ from }) => spans({ from: one.at, to: last.at }, from))) break;
      start = one.taken;
    }
    return start;
  };
  const onDelay = config.onDelayMs ?? 0;
  const offDelay = config.offDelayMs ?? onDelay;
  const crossings: Crossing[] = [];
  good.forEach((one, k) => {
    const up = !(crossings[crossings.length - 1]?.up ?? false);
    const start = since(k, up ? beyond : isBack);
    if (start === null || one.taken - start < (up ? onDelay : offDelay)) return;
    crossings.push({ up, at: [one.time, one.at[1], part.main, 0], good: one });
  });
  return crossings;
}

/** Every time a re-alarm fell due while the alarm stood, and which input heard of it first. */
function reAlarms(
  config: AlarmConfig,
  active: readonly Span[],
  times: readonly number[],
  now: number,
): { at: Moment; heardBy: number }[] {
  const every = config.reAlarmAfterMs;
  if (every === undefined) return [];
  return active.flatMap(({ from, to }) => {
    const due: { at: Moment; heardBy: number }[] = [];
    for (let time = from[0] + every; time <= now && (to === null || time <= to[0]); time += every) {
      due.push({ at: reAlarm(time), heardBy: times.findIndex((heard) => heard >= time) });
    }
    return due;
  });
}

/** So many raises within so long. No rule says when it ends: here when no raise has come for so long. */
function chatteringSpans(config: AlarmConfig, raises: readonly Crossing[], now: number): Span[] {
  const { raises: many, withinMs: soLong } = config.chattering ?? { raises: 3, withinMs: 3_600_000 };
  const times = raises.map(({ at }) => at[0]);
  return union(
    raises.flatMap(({ at }, k) => {
      const first = times[k - many + 1];
      if (first === undefined || at[0] - first > soLong) return [];
      const end = times.slice(k).reduce((end, time) => (time <= end ? time + soLong : end), at[0] + soLong);
      return [{ from: [at[0], at[1], part.chattering, 0] as Moment, to: end < now ? chatterEnd(end) : null }];
    }),
  );
}

/** What the figure and its signal did. */
export interface FigureStory {
  readonly good: readonly Good[];
  readonly bad: readonly Span[];
  readonly stale: readonly (Span & { since: number })[];
  readonly crossings: readonly Crossing[];
  readonly raises: readonly Crossing[];
  readonly active: readonly Span[];
  readonly suppressed: readonly Suppressed[];
  readonly again: readonly { at: Moment; heardBy: number }[];
  readonly chattering: readonly Span[];
  /** The last good reading up to a moment. */
  readonly lastGood: (at: Moment) => Good;
}

export function figureStory(
  config: AlarmConfig,
  inputs: readonly AlarmInput[],
  times: readonly number[],
  refused: readonly (Refused | null)[],
): FigureStory {
  const now = times[times.length - 1] as number;
  const read = readOf(inputs, times, refused);
  const good = goodReadings(config, read);
  const stale = staleSpans(config, times[0] as number, good, now);
  const suppressed = suppressedSpans(config, inputs, times, refused, good);
  const crossings = crossingsOf(config, good, stale, suppressed);
  const raises = crossings.filter(({ up }) => up);
  const active = crossings.flatMap(({ up, at }, k) => (up ? [{ from: at, to: crossings[k + 1]?.at ?? null }] : []));
  return {
    good,
    bad: badSpans(read),
    stale,
    crossings,
    raises,
    active,
    suppressed,
    again: reAlarms(config, active, times, now),
    chattering: chatteringSpans(config, raises, now),
    lastGood: (at) => lastWhere(good, (one) => spans({ from: one.at, to: null }, at)) as Good,
  };
}
