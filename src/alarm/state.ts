/**
 * The state of an alarm: its version, the check of it, and what an earlier version left.
 */
import { motescaleError, type Problem } from '../errors.ts';
import { checkRule, isObject } from '../rules/check.ts';
import { errorOf, firstOf, valueAt } from '../rules/require.ts';
import type { Members, ObjectRule } from '../rules/rule.ts';
import { figureAt, isPacked, packTime, timeAt, timeChars, wholeAt } from '../state/packed.ts';
import { timeRule } from '../state/rules.ts';
import { farthest } from '../state/time.ts';
import { lettersOf } from './memory.ts';
import { extremeChars, memoryMembers, mostRaises, parts, standingWords } from './rules.ts';
import { packExtreme } from './signal.ts';
import type { AlarmMemory, AlarmPlan, AlarmState } from './types.ts';

/** The version of the state, here and nowhere else. */
export const alarmStateVersion = 3;

/** Throws `bad_state` unless it has this version and, where a plan is given, its meaning. */
export function requireAlarmState(plan: AlarmPlan | null, state: AlarmState): void {
  const expected = 'a state of startAlarm, advanceAlarm or resumeAlarm';
  if (typeof state !== 'object' || state === null) throw motescaleError('bad_state', 'state', state, expected);
  if (state.version !== alarmStateVersion)
    throw motescaleError('bad_state', 'state.version', state.version, `${alarmStateVersion}; resumeAlarm reads others`);
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
      time: { ...timeRule, optional: true },
      read: { ...timeRule, optional: true },
      ...memoryMembers(),
    },
  };
}

/** Throws `bad_state` for the first member that does not keep its rule. */
export function requireStateRule(rule: ObjectRule, state: unknown, root: string): void {
  const problems: Problem[] = [];
  checkRule(rule, state, [], problems);
  const first = firstOf(problems);
  if (first !== undefined) {
    const { parameter, expected } = errorOf(first, root, state);
    throw motescaleError('bad_state', parameter, valueAt(state, first.path), expected);
  }
}

/** What rules of single members cannot say: chattering rests on a raise, a part on its extremes. */
export function noteMemoryMistake(memory: AlarmMemory, root: string): void {
  const { extremes = '', part, raises = '', told = '' } = memory;
  if (memory.chattering === true && raises === '')
    throw motescaleError('bad_state', `${root}.raises`, memory.raises, 'the raises that chatter');
  if (!areTimes(raises)) throw motescaleError('bad_state', `${root}.raises`, raises, 'times, as an alarm keeps them');
  if (!/^a?s?c?b?$/.test(told))
    throw motescaleError('bad_state', `${root}.told`, told, 'letters of what stands, of a, s, c and b');
  if (extremes === '') return;
  if (part === undefined)
    throw motescaleError('bad_state', `${root}.part`, part, 'the part of time that the extremes are told from');
  let sound = isPacked(extremes, extremeChars, parts + 1);
  for (let i = 0; sound && i < extremes.length; i += extremeChars)
    sound = wholeAt(extremes, i, 1) <= parts && Math.abs(figureAt(extremes, i + 1)) <= 2e60;
  if (!sound) throw motescaleError('bad_state', `${root}.extremes`, extremes, 'what an alarm remembers of its figure');
}

function areTimes(text: string): boolean {
  if (!isPacked(text, timeChars, mostRaises)) return false;
  for (let i = 0; i < text.length; i += timeChars) if (Math.abs(timeAt(text, i)) > farthest) return false;
  return true;
}

/** The members an alarm's memory had in version 2, where they were others than now. */
export function memory2Members(): Members {
  return {
    ...memoryMembers(),
    told: { kind: 'list', of: { kind: 'word', words: standingWords }, longest: standingWords.length, optional: true },
    raises: { kind: 'list', of: timeRule, longest: mostRaises, optional: true },
  };
}

/** An alarm's memory of version 2, checked. */
export interface Memory2 extends Omit<AlarmMemory, 'told' | 'raises'> {
  readonly told?: readonly (typeof standingWords)[number][];
  readonly raises?: readonly number[];
}

/** The memory of version 2 as it is kept now. */
export function memoryOf2({ told, raises, ...rest }: Memory2): AlarmMemory {
  const memory: { -readonly [Key in keyof AlarmMemory]: AlarmMemory[Key] } = rest;
  if (told !== undefined) memory.told = lettersIn(told);
  if (raises !== undefined) memory.raises = textOfTimes(raises);
  return memory;
}

function textOfTimes(times: readonly number[]): string {
  let text = '';
  for (const time of times) text += packTime(time);
  return text;
}

function lettersIn(told: readonly (typeof standingWords)[number][]): string {
  const is = (word: (typeof standingWords)[number]) => told.indexOf(word) >= 0;
  return lettersOf({ active: is('active'), stale: is('stale'), chattering: is('chattering'), bad: is('bad') });
}

/** The members an alarm's state had in version 1: all of them, always. */
export function memory1Members(): Members {
  const flag = { kind: 'flag' } as const;
  const { since, raises, shelf, silentRaises, value } = memory2Members();
  const time = { ...since, nullable: true } as const;
  return {
    version: { kind: 'number', least: 1, most: 1 },
    time,
    read: time,
    active: flag,
    latched: flag,
    acknowledged: flag,
    changed: time,
    pending: time,
    shelf: { ...shelf, kind: 'object', nullable: true, members: { until: { kind: 'number' }, oneShot: flag } },
    outOfService: flag,
    announced: { kind: 'object', members: { active: flag, stale: flag, chattering: flag } },
    silentRaises,
    value: { ...value, nullable: true },
    heard: time,
    stale: flag,
    raises: { ...raises, shortest: 0 },
    chattering: flag,
    extremes: {
      kind: 'list',
      shortest: 0,
      longest: parts + 1,
      of: { kind: 'list', shortest: 2, longest: 2, of: { kind: 'number', least: -2e60, most: 2e60 } },
    },
  } as Members;
}

/** An alarm's state of version 1, checked. */
export interface Memory1 {
  readonly time: number | null;
  readonly read: number | null;
  readonly active: boolean;
  readonly latched: boolean;
  readonly acknowledged: boolean;
  readonly changed: number | null;
  readonly pending: number | null;
  readonly shelf: { readonly until: number; readonly oneShot: boolean } | null;
  readonly outOfService: boolean;
  readonly announced: { readonly active: boolean; readonly stale: boolean; readonly chattering: boolean };
  readonly silentRaises: number;
  readonly value: number | null;
  readonly heard: number | null;
  readonly stale: boolean;
  readonly raises: readonly number[];
  readonly chattering: boolean;
  readonly extremes: readonly (readonly [number, number])[];
}

/** The memory of version 1 as it is kept now. */
export function memoryOf1(old: Memory1): AlarmMemory {
  const silent = old.shelf !== null || old.outOfService;
  const told = (['active', 'stale', 'chattering'] as const).filter((what) => old.announced[what]);
  const part =
    old.extremes.length === 0 ? undefined : (old.extremes[old.extremes.length - 1] as readonly [number, number])[0];
  const known: { [name: string]: unknown } = {
    active: old.active || undefined,
    latched: old.latched || undefined,
    unacknowledged: !old.acknowledged || undefined,
    since: old.changed ?? undefined,
    pending: old.pending ?? undefined,
    shelf: old.shelf === null ? undefined : old.shelf.oneShot ? old.shelf : { until: old.shelf.until },
    outOfService: old.outOfService || undefined,
    told: silent && told.length > 0 ? lettersIn(told) : undefined,
    silentRaises: old.silentRaises || undefined,
    value: old.value ?? undefined,
    heard: old.heard ?? undefined,
    stale: old.stale || undefined,
    raises: old.raises.length > 0 ? textOfTimes(old.raises) : undefined,
    chattering: old.chattering || undefined,
    part,
    extremes: part === undefined ? undefined : packed(old.extremes, part),
  };
  const memory: { [name: string]: unknown } = {};
  for (const name of Object.keys(known)) if (known[name] !== undefined) memory[name] = known[name];
  return memory as AlarmMemory;
}

/** Those that are not too long ago. */
function packed(extremes: Memory1['extremes'], part: number): string {
  let text = '';
  for (const [at, extreme] of extremes)
    if (at <= part && part - at <= parts) text += packExtreme(Math.floor(part - at), extreme);
  return text;
}

/** Whether a value claims to be a state of a version. */
export function hasVersion(state: unknown, version: number): boolean {
  return isObject(state) && state.version === version;
}
