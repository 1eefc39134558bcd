/**
 * What version 1 of an alarm's state was made of, and how it is kept now.
 *
 * These rules stand still, as they were when that version was written: a bound that moves in the rules of today must
 * not refuse a state that was saved. So they share nothing with them.
 */

import { requireStateRule } from '../rules/require.ts';
import type { Members, Rule } from '../rules/rule.ts';
import { packTime } from '../state/packed.ts';
import { lettersOf } from './memory.ts';
import { parts } from './rules.ts';
import { packExtreme } from './signal.ts';
import { alarmStateVersion } from './state.ts';
import type { AlarmMemory, AlarmState, PreparedAlarm } from './types.ts';

const flag: Rule = { kind: 'flag' };
/** What stood in such states, of a monitor too. */
export const oldTime = {
  kind: 'number',
  whole: true,
  least: -8.64e15,
  most: 8.64e15,
  expected: 'whole milliseconds since 1970-01-01 UTC',
} as const;
export const oldCount = {
  kind: 'number',
  whole: true,
  least: 0,
  most: 9007199254740991,
  expected: 'a whole number',
} as const;
export const oldName: Rule = { kind: 'text', longest: 64, expected: 'a name' };
export const oldFigure = { kind: 'number', least: -2e60, most: 2e60 } as const;

/** The members an alarm's state had in version 1: all of them, always. */
export function memory1Members(): Members {
  const time = { ...oldTime, nullable: true } as const;
  return {
    version: { kind: 'number', least: 1, most: 1 },
    time,
    read: time,
    active: flag,
    latched: flag,
    acknowledged: flag,
    changed: time,
    pending: time,
    shelf: { kind: 'object', nullable: true, members: { until: { kind: 'number' }, oneShot: flag } },
    outOfService: flag,
    announced: { kind: 'object', members: { active: flag, stale: flag, chattering: flag } },
    silentRaises: oldCount,
    value: { ...oldFigure, nullable: true },
    heard: time,
    stale: flag,
    raises: { kind: 'list', of: oldTime, shortest: 0, longest: 20 },
    chattering: flag,
    extremes: { kind: 'list', shortest: 0, longest: 25, of: { kind: 'list', shortest: 2, longest: 2, of: oldFigure } },
  };
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

export function memoryOf1(old: Memory1): AlarmMemory {
  const silent = old.shelf !== null || old.outOfService;
  const told = silent ? lettersOf({ ...old.announced, bad: false }) : '';
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
    told: told || undefined,
    silentRaises: old.silentRaises || undefined,
    value: old.value ?? undefined,
    heard: old.heard ?? undefined,
    stale: old.stale || undefined,
    raises: old.raises.map(packTime).join('') || undefined,
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
  for (const [at, extreme] of extremes) if (part - at <= parts) text += packExtreme(Math.floor(part - at), extreme);
  return text;
}

/** An alarm's state of version 1 as it is kept now. Throws `bad_state` for one that is damaged. */
export function stateOf1(prepared: PreparedAlarm, state: unknown): AlarmState {
  requireStateRule({ kind: 'object', members: memory1Members() }, state);
  const old = state as Memory1;
  const { time, read } = old;
  // a state of version 1 does not say what its figures mean; it is taken at the caller's word, but that only a change
  // has extremes
  const { of } = prepared;
  return {
    version: alarmStateVersion,
    of,
    ...(time === null ? {} : { time }),
    ...(read === null ? {} : { read }),
    ...memoryOf1(old),
  };
}
