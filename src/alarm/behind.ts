/**
 * An alarm alone has no clock but that of its inputs. A tick or a command that is far ahead takes its time along, and
 * what comes after shows that it was wrong.
 */
import { eachTime } from '../state/packed.ts';
import { day } from '../state/timeSteps.ts';
import { close, open } from './memory.ts';
import { partOf } from './signal.ts';
import type { AlarmMemory, AlarmPlan, AlarmState } from './types.ts';

/** The third input in a row decides, and a day is far (our choice). */
export const deciding = 3;

/**
 * As of when an input counts, and how many in a row lie more than a day behind the alarm's time. What is older than the
 * last reading shows nothing of the clock.
 */
export function timeOf(
  { time: now, read = -Infinity, behind = 0 }: AlarmState,
  time: number,
): { readonly time: number; readonly behind: number } {
  if (now === undefined || time >= now) return { time, behind: 0 };
  if (now - time <= day) return { time: now, behind: 0 };
  if (time < read) return { time: now, behind };
  return behind + 1 < deciding ? { time: now, behind: behind + 1 } : { time, behind: 0 };
}

/** The same memory where the time has been wrong: nothing is later than now, and a shelf ends when `untilOf` says. */
export function setBack<Into extends object>(
  plan: AlarmPlan,
  memory: AlarmMemory,
  to: number,
  untilOf: (until: number) => number,
  into: Into,
): Into & AlarmMemory {
  const draft = open(memory);
  for (const name of ['since', 'realarmed', 'pending', 'heard', 'modeAt'] as const) {
    const time = draft[name];
    if (time !== null) draft[name] = Math.min(time, to);
  }
  if (draft.shelf !== null) draft.shelf = { ...draft.shelf, until: untilOf(draft.shelf.until) };
  // a command of a clock that was wrong refuses no later ones for long
  if (draft.commanded !== null && draft.commanded - to > day) draft.commanded = to;
  draft.raises = eachTime(draft.raises, (time) => Math.min(time, to));
  if (draft.part !== null) draft.part = Math.min(draft.part, partOf(to, plan.withinMs));
  return close(draft, into);
}
