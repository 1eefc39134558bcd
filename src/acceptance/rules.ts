/**
 * What the configuration and the state of a proof may be: bounds, words and members, for the checks, the schemas and
 * the docs.
 */
import { tableOrIdRule } from '../judging/codePlans.ts';
import { findingCodes } from '../reading/findingKinds.ts';
import { largestRead } from '../rules/bounds.ts';
import type { ListRule, NumberRule, ObjectRule, Rule } from '../rules/rule.ts';
import { countRule, nameRule, spanAbove0Rule, spanRule, timeRule } from '../state/rules.ts';

/** What a reading did. */
export const eventWords = [
  'counted',
  'accepted',
  'after_acceptance',
  'worse_after_acceptance',
  'contradicted',
  'restarted',
  'not_counted',
] as const;

/** Why a run ended. */
export const restartWords = [
  'worse_than_target',
  'counts_stuck',
  'gap_too_long',
  'volume_counter_ran_back',
  'clock_set_back',
] as const;

/** Why a reading did not count. */
export const notCountedWords = [
  'bad',
  'uncertain',
  'worse_than_target',
  'not_known',
  'flush_not_shown',
  'few_counted',
  'few_in_all',
  'no_code',
  'not_newer',
  'before_worse',
  'overlapping',
  'same_as_last',
] as const;

/** Why time and volume since the reading before are not proved, though a reading counts. */
export const unprovedWords = [
  'beside_others',
  'long_gap',
  'gap_taken_back',
  'counts_equal',
  'less_by_host',
  'volume_stood',
  'volume_leapt',
] as const;

/** The most columns judged, and the longest code. */
const mostColumns = 64;
const longestCode = 200;

/** How many readings are known again, and by how many characters each. */
const seenKept = 32;
export const seenPrintChars = 5;
/** The most characters that are kept of them. */
export const seenChars: number = seenKept * seenPrintChars;

export const litresRule: NumberRule = { kind: 'number', least: 0, most: largestRead, expected: 'a volume in L' };

const litresPerMinRule: NumberRule = { kind: 'number', above: 0, most: largestRead, expected: 'a flow in L/min' };

/** The configuration; `table` and `limits` are the rules of those. */
export function acceptanceRule(table: Rule, limits: Rule): ObjectRule {
  return {
    kind: 'object',
    expected: 'a configuration { table, target, readings }',
    members: {
      table: tableOrIdRule(table, 'a class table, or its id'),
      tables: { kind: 'list', of: table, longest: 64, expected: 'class tables', optional: true },
      target: { kind: 'text', longest: longestCode, expected: 'a code of the table' },
      columns: { kind: 'list', of: nameRule, longest: mostColumns, expected: 'labels of columns', optional: true },
      readings: { kind: 'number', whole: true, least: 2, most: 10000, expected: 'a whole number of readings' },
      leastMs: { ...spanRule, optional: true },
      leastLitres: { ...litresRule, optional: true },
      mostLitresPerMin: { ...litresPerMinRule, optional: true },
      maxGapMs: { ...spanAbove0Rule, optional: true },
      limits: { ...limits, optional: true },
    },
  };
}

/** What is still wanting. */
export const wantingRule: ObjectRule = {
  kind: 'object',
  members: { readings: countRule, ms: spanRule, litres: litresRule },
};

const text: Rule = { kind: 'text', longest: longestCode };
/** Columns that a reading cannot prove. */
export const unprovableRule: ListRule = {
  kind: 'list',
  of: { kind: 'object', members: { column: text, leastMl: { kind: 'number', least: 0, nullable: true } } },
  shortest: 0,
  longest: mostColumns,
};
const anyText: Rule = { kind: 'text', shortest: 0 };
const checkWords: readonly string[] = [...findingCodes, 'volume_stood'];
const checks: Rule = { kind: 'word', words: checkWords };
const unchecked: Rule = { kind: 'list', of: checks, shortest: 0, longest: checkWords.length };
const margins: Rule = {
  kind: 'list',
  of: { kind: 'object', members: { column: text, classes: { kind: 'number', whole: true, least: -1e6, most: 1e6 } } },
  shortest: 0,
  longest: mostColumns,
};
const orNull = { nullable: true } as const;
const earlyRule: ObjectRule = { kind: 'object', members: { gap: countRule, ms: countRule, litres: litresRule } };
const runRule: ObjectRule = {
  kind: 'object',
  members: {
    readings: countRule,
    fewParticles: countRule,
    withoutCounts: { ...countRule, optional: true },
    withoutVolume: { ...countRule, optional: true },
    notCounted: { ...countRule, optional: true },
    sameAsLast: { ...countRule, optional: true },
    from: timeRule,
    to: timeRule,
    ms: countRule,
    litres: litresRule,
    countedAt: { ...timeRule, optional: true },
    stoodMs: { ...countRule, optional: true },
    early: { kind: 'list', of: earlyRule, longest: 3, optional: true },
    fromLitres: { ...litresRule, ...orNull },
    toLitres: { ...litresRule, ...orNull },
    counts: { kind: 'word', words: ['equal', 'changed'], optional: true },
    margins,
    unchecked,
  },
};
const restartRule: ObjectRule = {
  kind: 'object',
  members: { time: timeRule, why: { kind: 'word', words: restartWords }, text: { ...text, ...orNull } },
};

/** The members of a record. */
const record = {
  table: text,
  title: anyText,
  edition: { ...anyText, ...orNull },
  target: text,
  leftOut: { kind: 'list', of: text, shortest: 0, longest: mostColumns },
  run: runRule,
  worst: text,
  text,
  required: wantingRule,
  readings: { ...countRule, ...orNull },
  began: { ...timeRule, ...orNull },
  notCounted: countRule,
  restarts: countRule,
  lastRestart: { ...restartRule, ...orNull },
  contradicted: { kind: 'object', members: { time: timeRule, text }, optional: true },
} as const;

export const acceptanceRecordRule: ObjectRule = {
  kind: 'object',
  expected: 'the record of an accepted proof',
  members: record,
};

/** As a state of before may have it: `resumeAcceptance` puts in what follows from the rest. */
const recordSavedRule: ObjectRule = {
  kind: 'object',
  members: {
    ...record,
    title: { ...record.title, optional: true },
    edition: { ...record.edition, optional: true },
    leftOut: { ...record.leftOut, optional: true },
    worst: { ...record.worst, optional: true },
    readings: { ...record.readings, optional: true },
    began: { ...record.began, optional: true },
  },
};

/** A state of the present version, but for `repeats`, which `resumeAcceptance` adds. */
export const acceptanceStateRule: ObjectRule = {
  kind: 'object',
  expected: 'a state of startAcceptance, advanceAcceptance or resumeAcceptance',
  members: {
    version: countRule,
    of: { kind: 'text', longest: 1000 },
    print: countRule,
    time: { ...timeRule, optional: true },
    receivedAt: { ...timeRule, optional: true },
    gaps: { kind: 'list', of: countRule, shortest: 0, longest: 5, optional: true },
    older: { kind: 'object', members: { count: countRule, time: timeRule }, optional: true },
    worseAt: { ...timeRule, optional: true },
    litres: { ...litresRule, optional: true },
    seen: { kind: 'text', longest: seenChars, optional: true },
    particlesSeen: { kind: 'flag', optional: true },
    run: { ...runRule, optional: true },
    readings: { ...countRule, optional: true },
    began: { ...timeRule, optional: true },
    notCounted: countRule,
    restarts: countRule,
    lastRestart: { ...restartRule, optional: true },
    accepted: { ...recordSavedRule, optional: true },
  },
};
