/** The change detector: daily means of a figure come in one by one, and it tells when their level has changed. */
import { requireArray, requireNonNegative, requireObject, requirePositive, requireWholeWithin } from '../../checks.ts';
import { motescaleError } from '../../errors.ts';
import { shorten } from '../../numeric/shorten.ts';
import { requireFigure } from '../requireNumbers.ts';
import { judge } from './judge.ts';
import { fromSquare, present, pulledAt, steadyMean, valuesAt } from './ring.ts';
import { farthestDay, rules } from './rules.ts';
import { sightOf } from './sight.ts';
import { fewestBefore, type Jump, jumpAt } from './step.ts';
import type { Change, ChangeInput, ChangeOptions, ChangeState, ChangeStep, PreparedChange } from './types.ts';
import { type View, viewOf } from './view.ts';

/** Where nothing is said: half a scale number; the season in shares of it. */
const leastByDefault = 0.5;
const seasonShare = 0.6;

/** What can be found where nothing is watched yet. */
const unseen = { smallestStep: null, smallestMonthlyRise: null };

/**
 * Checks what is known beforehand and fills in the rest.
 *
 * @throws `negative`, `out_of_range`, `unknown_option` and errors of type.
 *
 * @example
 * ```ts
 * import { prepareChange } from 'motescale/trend';
 * prepareChange({ least: 0.5 }); // => { least: 0.5, season: 0.3, resolution: null }
 * ```
 */
export function prepareChange(options: ChangeOptions = {}): PreparedChange {
  requireObject(options, 'options', undefined, ['least', 'season', 'resolution']);
  requirePositive(options.least ?? leastByDefault, 'options.least');
  requireNonNegative(options.season ?? 0, 'options.season');
  if (options.resolution !== undefined) requireNonNegative(options.resolution, 'options.resolution');
  return changePlan(options);
}

/** The same of options that have been checked. */
export function changePlan(options: ChangeOptions): PreparedChange {
  const least = options.least ?? leastByDefault;
  return { least, season: options.season ?? seasonShare * least, resolution: options.resolution ?? null };
}

/** A detector that has seen nothing. */
export function startChange(): ChangeState {
  return { last: null, ring: [], since: null, settled: false, level: null, steps: { count: 0, square: 0 } };
}

/**
 * Takes one day, and says whether the level has changed by then.
 *
 * Three questions, over the last 63 days: do the last two values lie off the week before (`step`), the last two weeks
 * off what came before them (`slow`), the last four weeks off the level learned (`drift`)? The limit of a step comes
 * from the figure's own jumps, those of the slow changes from its scatter and its memory, all robust to single wild
 * days. The season's share (`season`) is no change. After a change the new level holds from its first day, so that a
 * further step or the return from a pulse is told after two more days. A rhythm of the week is taken off where that
 * leaves less scatter.
 *
 * The first week after a start or after work is not learned from; the first change can be told after 28 days. What
 * comes within them is learned as normal: a lasting step on day 4 to 17 is told in 1 % at most. Oil that was still
 * being cleaned then blinds for longer, and `smallestStep` says so: of three classes that fade to 37 % in 7, 12 and 20
 * days, a step of one class on day 45 is told in 92, 88 and 76 %, on day 90 in 98 % and more. Up to half of the days
 * may be missing, and Monday, Wednesday, Friday will do; with weekly values it says `cannot_judge`: count weeks as days
 * then, with a `season` seven times as large, for the swing is read over 365 days; `smallestMonthlyRise` is then one in
 * 30 weeks. Whole codes can be followed, and are known as rounded: no step of one class is told from them at once.
 * Means of whole codes are not known as such, and make two to three false changes a year; with a `resolution` of 1
 * none. One too small costs as much: values in halves called unrounded make two.
 *
 * How often it is wrong and what it finds is measured (docs/rates.md): at most 0.3 false changes in a machine's year
 * for normal scatter up to 0.15 and a memory up to a week; about 0.3 (0.18 to 0.46) for days with heavy tails
 * (Student's t, three degrees of freedom, scale 0.15), where normal ones without a memory make none in 100 years; 1.1
 * where heavy tails have a memory, 1.0 where the scatter grows 2.5 times, 2.1 for a random walk (docs/rates.md). A
 * step of one class within three days in 95 %, where a value comes every day. A steady rise takes weeks:
 * `smallestMonthlyRise` is told in 19 of 20 cases within three months, in 70 to 75 % within six weeks; 2 a month within
 * 30 days in 91 % and more (scatter 0.15). Faster ones are for alarms on the level and of type `rise`. The rules are
 * the library's own.
 *
 * @param input `day`: a whole number, rising; `value`: the mean of that day. Or `relearn: true` after work: the level
 * is learned anew.
 * @throws `out_of_range` for a day not after the last, `not_an_integer`, `unknown_option` and errors of type.
 *
 * @example
 * ```ts
 * import { advanceChange, prepareChange, startChange } from 'motescale/trend';
 * const prepared = prepareChange();
 * let state = startChange();
 * const told: string[] = [];
 * for (let day = 0; day < 60; day += 1) {
 *   const step = advanceChange(prepared, state, { day, value: 17 + (day % 3) / 20 + (day >= 50 ? 1 : 0) });
 *   state = step.state;
 *   const { change } = step;
 *   if (change !== null) told.push(`${change.kind} ${change.direction} since ${change.since}, told on ${day}`);
 * }
 * told; // => ['step up since 50, told on 51']
 * ```
 */
export function advanceChange(prepared: PreparedChange, state: ChangeState, input: ChangeInput): ChangeStep {
  requireObject(input, 'input', undefined, ['day', 'value', 'relearn']);
  requireObject(prepared, 'prepared', 'a configuration of prepareChange');
  requireObject(state, 'state', 'a state of startChange, advanceChange or resumeChange');
  requireArray(state.ring, 'state.ring');
  const { day } = input;
  requireWholeWithin(day, 'input.day', -farthestDay, farthestDay);
  if ('relearn' in input) {
    if (input.relearn !== true) throw motescaleError('wrong_type', 'input.relearn', input.relearn, 'true, or left out');
    if ('value' in input) throw motescaleError('unknown_option', 'input.value', 'value', 'no value beside relearn');
    const { last, steps } = state;
    return { state: { ...startChange(), last, steps }, change: null, standing: 'learning', ...unseen };
  }
  if (state.last !== null && day <= state.last) {
    throw motescaleError('out_of_range', 'input.day', day, `a day after the last one: above ${state.last}`);
  }
  const added = addDay(prepared, state, day, requireFigure(input.value, 'input.value'));
  const after = added.change === null ? added.view : viewOf(prepared, added.state);
  const standing = standingOf(added.state);
  const sight = standing === 'watching' ? sightOf(prepared, after) : unseen;
  return { state: added.state, change: added.change, standing, ...sight };
}

/** One day, checked: the state after it, and the change it tells. */
export function addDay(
  prepared: PreparedChange,
  before: ChangeState,
  day: number,
  value: number,
): { state: ChangeState; change: Change | null; view: View } {
  const ring = ringWith(before, day, value);
  const fresh = ring.length === 1;
  const added: ChangeState = fresh
    ? { ...startChange(), last: day, ring, since: day + rules.settleDays, steps: before.steps }
    : { ...before, last: day, ring };
  const view = viewOf(prepared, added);
  const settled = added.settled || view.places.length >= rules.learnValues;
  const jump = settled ? jumpAt(view.ring, ring.length, view.since, fewestBefore) : null;
  const steps = jump === null || jump.from < enoughToLearn ? added.steps : learnJump(added.steps, view, jump);
  const found = settled ? judge(prepared, view, jump, added.level, day) : null;
  if (found !== null) {
    const state = { ...added, since: found.since, settled: true, level: null, steps };
    return { state, change: found.change, view };
  }
  const { level } = added;
  const learned = level === null && view.places.length >= rules.levelValues ? levelOf(view) : level;
  return { state: { ...added, settled, level: learned, steps }, change: null, view };
}

/** To learn the scatter of jumps, a base of four values. */
const enoughToLearn = 4;

function ringWith(before: ChangeState, day: number, value: number): (number | null)[] {
  const { last } = before;
  let ring = before.ring.slice();
  if (last !== null && day - last > rules.ringDays) ring = [];
  else if (last !== null && ring.length > 0) for (let i = last + 1; i < day; i += 1) ring.push(null);
  ring.push(shorten(value));
  ring = ring.slice(-rules.ringDays);
  while (ring[0] === null) ring.shift();
  return ring;
}

/** The running mean square of jumps, those pulled in that are none. */
function learnJump(steps: ChangeState['steps'], view: View, jump: Jump): ChangeState['steps'] {
  const count = Math.min(rules.jumpsRemembered, steps.count + 1);
  const most = pulledAt * Math.max(view.floor, view.scatter ?? fromSquare(steps.square));
  const size = Math.min(Math.abs(jump.size), most);
  return { count, square: shorten(steps.square + (size * size - steps.square) / count) };
}

function levelOf(view: View): number {
  return shorten(steadyMean(valuesAt(view.ring, view.places), view.floor));
}

/** Whether changes are told yet. */
export function standingOf(state: ChangeState): ChangeStep['standing'] {
  if (isUnjudged(state)) return 'cannot_judge';
  return state.settled ? 'watching' : 'learning';
}

/** Whether too few of the days remembered have a value. */
export function isUnjudged({ ring }: ChangeState): boolean {
  const values = present(ring, 0).length;
  return ring.length >= rules.shareDays && values < rules.fewestShare * ring.length;
}
