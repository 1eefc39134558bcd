/** The state of an alarm: its version, and the check of it. */
import { motescaleError } from '../errors.ts';
import { farthest, largestDifference } from '../rules/bounds.ts';
import type { ObjectRule } from '../rules/rule.ts';
import { requireNoLater } from '../state/noLater.ts';
import { figureAt, isPacked, timeAt, timeChars, wholeAt } from '../state/packed.ts';
import { inputTimeRule } from '../state/rules.ts';
import { deciding } from './behind.ts';
import { lettersIn } from './memory.ts';
import { extremeChars, memoryMembers, mostRaises, parts } from './rules.ts';
import { partOf } from './signal.ts';
import type { AlarmMemory, AlarmPlan, AlarmState } from './types.ts';

/** The version of the state, here and nowhere else. */
export const alarmStateVersion = 3;

/** Throws `bad_state` unless it has this version and, where a plan is given, its meaning. */
export function requireAlarmState(plan: AlarmPlan | null, state: AlarmState): void {
  const expected = 'a state of startAlarm, advanceAlarm or resumeAlarm';
  if (typeof state !== 'object' || state === null) throw motescaleError('bad_state', 'state', state, expected);
  if (state.version !== alarmStateVersion) {
    const version = `the version, which resumeAlarm brings: ${alarmStateVersion}`;
    throw motescaleError('bad_state', 'state.version', state.version, version);
  }
  if (plan !== null && state.of !== plan.of)
    throw motescaleError('bad_state', 'state.of', state.of, `'${plan.of}'; resumeAlarm goes on from others`);
}

/** The whole of a state that came from outside. */
export function alarmStateRule(): ObjectRule {
  return {
    kind: 'object',
    expected: 'a state of startAlarm, advanceAlarm or resumeAlarm',
    members: {
      version: { kind: 'number', least: alarmStateVersion, most: alarmStateVersion },
      of: { kind: 'text', longest: 400 },
      time: { ...inputTimeRule, optional: true },
      read: { ...inputTimeRule, optional: true },
      behind: { kind: 'number', whole: true, least: 1, most: deciding - 1, optional: true },
      ...memoryMembers(),
    },
  };
}

/**
 * What rules of single members cannot say: chattering rests on a raise, a part on its extremes, and no raise is later
 * than `last`, the time of the last input; nor, where the alarm goes on under a plan, the part. The end of a shelf is
 * set by `withShelfEnd`.
 */
export function requireSoundMemory(
  memory: AlarmMemory,
  root: string,
  last: number | undefined,
  plan: AlarmPlan | undefined,
): void {
  const { extremes = '', part, raises = '', told = '' } = memory;
  if (memory.chattering === true && raises === '')
    throw motescaleError('bad_state', `${root}.raises`, memory.raises, 'the raises that chatter');
  if (!areTimes(raises)) throw motescaleError('bad_state', `${root}.raises`, raises, 'times, as a state keeps them');
  const letters = lettersIn(told);
  if (!/^a?s?c?b?$/.test(letters) || !areTimes(told.slice(letters.length)))
    throw motescaleError('bad_state', `${root}.told`, told, 'letters of a, s, c and b, as a state keeps them');
  for (let i = 0; i < raises.length; i += timeChars) requireNoLater(`${root}.raises`, timeAt(raises, i), last, 'time');
  if (plan !== undefined && plan.withinMs > 0)
    requireNoLater(`${root}.part`, part, last === undefined ? last : partOf(last, plan.withinMs), 'part');
  if (extremes === '') return;
  const from = 'the time that the extremes are told from, as a state keeps it';
  if (part === undefined) throw motescaleError('bad_state', `${root}.part`, part, from);
  let sound = isPacked(extremes, extremeChars, parts + 1);
  for (let i = 0; sound && i < extremes.length; i += extremeChars)
    sound = wholeAt(extremes, i, 1) <= parts && Math.abs(figureAt(extremes, i + 1)) <= largestDifference;
  if (!sound) throw motescaleError('bad_state', `${root}.extremes`, extremes, 'extremes, as a state keeps them');
}

function areTimes(text: string): boolean {
  if (!isPacked(text, timeChars, mostRaises)) return false;
  for (let i = 0; i < text.length; i += timeChars) if (Math.abs(timeAt(text, i)) > farthest) return false;
  return true;
}
