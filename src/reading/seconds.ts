/**
 * Times in seconds, which would pass for times in January 1970, and in microseconds, which no text can write.
 */
import { isObject } from '../checks.ts';
import { noteProblem, type Problem } from '../errors.ts';
import { latestWritten } from '../rules/bounds.ts';

/** All times in seconds up to the year 5138, and those of a clock that began at 1970, lie below. */
export const leastMs = 1e11;
const leastSeconds = 1e8;

/** Whether a time below `leastMs` looks like seconds, and not like a clock that began at 1970 and was not set. */
export function looksLikeSeconds(time: number): boolean {
  return time >= leastSeconds;
}

/** Notes a time that looks like seconds. */
export function noteSeconds(problems: Problem[], name: string, time: number): void {
  const expected = 'milliseconds since 1970: this looks like seconds, times 1000 it is a time';
  noteProblem(problems, [name], 'out_of_range', time, expected);
}

/** Notes a time of a clock that began at 1970. */
export function noteNotSet(problems: Problem[], name: string, time: number): void {
  const expected = 'a time after 1973: this looks like a clock that was not set and began at 1970';
  noteProblem(problems, [name], 'out_of_range', time, expected);
}

/** Says of times that are too large to be written, and a thousandth of which would be one, what they look like. */
export function hintMicroseconds(problems: Problem[], reading: object): void {
  problems.forEach((problem, i) => {
    const { path, code } = problem;
    const [name] = path;
    if (path.length > 1 || code !== 'out_of_range' || (name !== 'time' && name !== 'receivedAt')) return;
    const time = (reading as { readonly [name: string]: unknown })[name] as number;
    const expected = 'milliseconds since 1970: this looks like microseconds, a thousandth of it is a time';
    if (time >= leastMs * 1000 && time <= latestWritten * 1000) problems[i] = { ...problem, expected };
  });
}

/** Whether the host's clock shows that a reading's time is in seconds: it is 1000 times as far from 1970, to 1 %. */
export function isInSeconds(reading: unknown): boolean {
  if (!isObject(reading)) return false;
  const { time, receivedAt } = reading;
  if (typeof time !== 'number' || typeof receivedAt !== 'number' || !looksLikeSeconds(time)) return false;
  return time < leastMs && Math.abs(receivedAt / time - 1000) <= 10;
}

/** Whether the host's clock shows that a reading's is one that began at 1970 and was not set. */
export function isNotSet(reading: unknown): boolean {
  if (!isObject(reading)) return false;
  const { time, receivedAt } = reading;
  return typeof time === 'number' && typeof receivedAt === 'number' && Math.abs(time) < leastMs && receivedAt > leastMs;
}
