/** What an alarm remembers, lean as it is kept and whole as it is worked on, and the name of the state it is in. */
import { packTime, timeAt, timeChars } from '../state/packed.ts';
import type { Writable } from '../state/writable.ts';
import type { AlarmMemory, AlarmStateName } from './types.ts';

/** What events can tell to stand. */
export interface Standing {
  active: boolean;
  stale: boolean;
  chattering: boolean;
  bad: boolean;
}

/** A memory while it is being worked on: every member there, so that engines are quick with it. */
export interface Draft {
  active: boolean;
  latched: boolean;
  unacknowledged: boolean;
  since: number | null;
  realarmed: number | null;
  pending: number | null;
  shelf: { readonly until: number; readonly oneShot?: true } | null;
  outOfService: boolean;
  suppressed: string | null;
  modeAt: number | null;
  /** Only while silent; else all that stands has been told. */
  told: Standing | null;
  /** When the last command was given that begins or ends a silence. */
  commanded: number | null;
  silentRaises: number;
  value: number | null;
  heard: number | null;
  usualMs: number | null;
  stale: boolean;
  bad: boolean;
  /** Times, oldest first, as the memory keeps them. */
  raises: string;
  chattering: boolean;
  part: number | null;
  extremes: string;
  /** The code of the reading that is being taken. */
  code: string | null;
}

/** The whole of a memory. */
export function open(memory: AlarmMemory): Draft {
  const draft: Draft = {
    active: memory.active === true,
    latched: memory.latched === true,
    unacknowledged: memory.unacknowledged === true,
    since: memory.since ?? null,
    realarmed: memory.realarmed ?? null,
    pending: memory.pending ?? null,
    shelf: memory.shelf ?? null,
    outOfService: memory.outOfService === true,
    suppressed: memory.suppressed ?? null,
    modeAt: memory.modeAt ?? null,
    told: null,
    commanded: null,
    silentRaises: memory.silentRaises ?? 0,
    value: memory.value ?? null,
    heard: memory.heard ?? null,
    usualMs: memory.usualMs ?? null,
    stale: memory.stale === true,
    bad: memory.bad === true,
    raises: memory.raises ?? '',
    chattering: memory.chattering === true,
    part: memory.part ?? null,
    extremes: memory.extremes ?? '',
    code: null,
  };
  const { told = '' } = memory;
  if (told.length >= timeChars) draft.commanded = timeAt(told, told.length - timeChars);
  if (isSilent(draft)) {
    const letters = lettersIn(told);
    draft.told = {
      active: letters.indexOf('a') >= 0,
      stale: letters.indexOf('s') >= 0,
      chattering: letters.indexOf('c') >= 0,
      bad: letters.indexOf('b') >= 0,
    };
  }
  return draft;
}

/** The lean memory: a member at its beginning is left out. `into` has the members that stand before it. */
export function close<Into extends object>(draft: Draft, into: Into): Into & AlarmMemory {
  const memory = into as Into & Writable<AlarmMemory>;
  if (draft.active) memory.active = true;
  if (draft.latched) memory.latched = true;
  if (draft.unacknowledged) memory.unacknowledged = true;
  if (draft.since !== null) memory.since = draft.since;
  if (draft.realarmed !== null) memory.realarmed = draft.realarmed;
  if (draft.pending !== null) memory.pending = draft.pending;
  if (draft.shelf !== null) memory.shelf = draft.shelf;
  if (draft.outOfService) memory.outOfService = true;
  if (draft.suppressed !== null) memory.suppressed = draft.suppressed;
  if (draft.modeAt !== null) memory.modeAt = draft.modeAt;
  let told = draft.told === null ? '' : lettersOf(draft.told);
  if (draft.commanded !== null) told += packTime(draft.commanded);
  if (told !== '') memory.told = told;
  if (draft.silentRaises > 0) memory.silentRaises = draft.silentRaises;
  if (draft.value !== null) memory.value = draft.value;
  if (draft.heard !== null) memory.heard = draft.heard;
  if (draft.usualMs !== null) memory.usualMs = draft.usualMs;
  if (draft.stale) memory.stale = true;
  if (draft.bad) memory.bad = true;
  if (draft.raises !== '') memory.raises = draft.raises;
  if (draft.chattering) memory.chattering = true;
  if (draft.part !== null) memory.part = draft.part;
  if (draft.extremes !== '') memory.extremes = draft.extremes;
  return memory;
}

/** What had been told, without the time that may follow. */
export function lettersIn(told: string): string {
  return told.length < timeChars ? told : told.slice(0, -timeChars);
}

/** What stands, a letter each. */
export function lettersOf({ active, stale, chattering, bad }: Standing): string {
  return `${active ? 'a' : ''}${stale ? 's' : ''}${chattering ? 'c' : ''}${bad ? 'b' : ''}`;
}

/** Shelved, suppressed or out of service: what happens is tracked and not announced. */
export function isSilent(draft: Draft): boolean {
  return draft.shelf !== null || draft.outOfService || draft.suppressed !== null;
}

/**
 * The name of the state. Out of service goes before suppressed, that before shelved, and all before what the figure
 * does.
 */
export function nameOfState(memory: AlarmMemory): AlarmStateName {
  if (memory.outOfService === true) return 'out_of_service';
  if (memory.suppressed !== undefined) return 'suppressed_by_design';
  if (memory.shelf !== undefined) return 'shelved';
  return nameOfStanding(memory);
}

type Flags = { readonly [Name in 'active' | 'latched' | 'unacknowledged']?: boolean };

/** The name by what the figure does and whether someone has seen it, silent or not. */
export function nameOfStanding(memory: Flags): AlarmStateName {
  const seen = memory.unacknowledged !== true;
  if (memory.active === true) return seen ? 'acknowledged_alarm' : 'unacknowledged_alarm';
  if (memory.latched === true) return seen ? 'latched_acknowledged' : 'latched_unacknowledged';
  return seen ? 'normal' : 'returned_to_normal_unacknowledged';
}
