/**
 * Checks a monitor's configuration as a whole: every mistake is named, and what is to be remembered must fit the space for it.
 */

import { alarmDefaults, isRateOfChange } from '../alarm/config.ts';
import { requireFilledArray, requireObject } from '../checks.ts';
import { requireLabels } from '../codes/requireLabels.ts';
import { requireTable } from '../codes/requireTable.ts';
import { motescaleError, type Problem, parameterAt } from '../errors.ts';
import { requireCode } from '../judging/target.ts';
import type { WatchedTable } from '../judging/types.ts';
import { noteLimits } from '../reading/readingLimits.ts';
import { repeatsBytes } from '../reading/repeatsState.ts';
import { type ConfigurationProblem, note, noteUnknownMembers, throwProblems } from '../state/configuration.ts';
import { idBytes } from '../state/names.ts';
import { requireSpan } from '../state/time.ts';
import { asFigureAlarm, checkFollowed, checkMonitorAlarm } from './entries.ts';
import { followDefaults } from './followed.ts';
import type { FollowedFigure, MonitorAlarm, MonitorConfig } from './types.ts';

/** The most bytes a monitor's state takes as JSON. */
export const mostStateBytes = 9984;

/** Throws `bad_configuration` where no one ever checked it: asked at every reading, so only what would else fail in passing is looked at. */
export function requireChecked(config: MonitorConfig): void {
  const { codes, alarms = [], follow = [] } = config;
  const whole =
    Array.isArray(codes) &&
    codes.every((entry) => Array.isArray(entry?.table?.columns)) &&
    [alarms, follow].every((list) => Array.isArray(list) && list.every((one) => typeof one?.figure === 'object'));
  if (!whole) checkMonitorConfig(config);
}

/** Returns the configuration as it came, or throws `bad_configuration` with all that is wrong in it. */
export function checkMonitorConfig(config: MonitorConfig): MonitorConfig {
  const problems: ConfigurationProblem[] = [];
  note(problems, () => requireObject(config, 'config', 'a configuration { codes, alarms, ... }'));
  throwProblems(problems, 'config', config);
  noteUnknownMembers(problems, config, 'config', ['codes', 'limits', 'alarms', 'follow', 'staleAfterMs']);
  const tables = noteCodes(problems, config.codes);
  if (config.limits !== undefined) noteLimitProblems(problems, config.limits);
  if (config.staleAfterMs !== undefined)
    note(problems, () => requireSpan(config.staleAfterMs, 'config.staleAfterMs', 1));
  noteEach(problems, config.alarms, 'config.alarms', (alarm, parameter) =>
    checkMonitorAlarm(alarm as MonitorAlarm, parameter, tables),
  );
  noteEach(problems, config.follow, 'config.follow', (followed, parameter) =>
    checkFollowed(followed as FollowedFigure, parameter),
  );
  if (problems.length === 0) note(problems, () => requireRoom(config));
  throwProblems(problems, 'config', config);
  return config;
}

function noteLimitProblems(problems: ConfigurationProblem[], limits: unknown): void {
  const found: Problem[] = [];
  noteLimits(limits, ['limits'], found);
  for (const { path, received, expected } of found)
    problems.push({ parameter: parameterAt('config', path), received, expected });
}

function noteCodes(problems: ConfigurationProblem[], codes: unknown): WatchedTable[] {
  const tables: WatchedTable[] = [];
  if (!Array.isArray(codes)) {
    note(problems, () => requireFilledArray(codes, 'config.codes', 'an array of { table, target }'));
    return tables;
  }
  // copied, so that a place left empty is not passed over
  [...codes].forEach((entry: WatchedTable, i) => {
    const parameter = `config.codes[${i}]`;
    note(problems, () => {
      requireObject(entry, parameter, '{ table, target, columns }');
      requireTable(entry.table, `${parameter}.table`);
      if (tables.some(({ table }) => table.id === entry.table.id))
        throw motescaleError('unknown_option', `${parameter}.table`, entry.table.id, 'each table once');
      if (entry.columns !== undefined) requireLabels(entry.table, entry.columns, `${parameter}.columns`);
      tables.push(entry);
      if (entry.target !== undefined) requireCode(entry.table, entry.target, `${parameter}.target`, entry.columns);
    });
    if (typeof entry === 'object' && entry !== null)
      noteUnknownMembers(problems, entry, parameter, ['table', 'target', 'columns']);
  });
  return tables;
}

function noteEach(
  problems: ConfigurationProblem[],
  list: unknown,
  parameter: string,
  check: (entry: unknown, parameter: string) => void,
): void {
  if (list === undefined) return;
  if (!Array.isArray(list)) {
    note(problems, () => {
      throw motescaleError('wrong_type', parameter, list, 'an array');
    });
    return;
  }
  const ids: unknown[] = [];
  [...list].forEach((entry: { readonly id?: unknown } | null, i) => {
    note(problems, () => check(entry, `${parameter}[${i}]`));
    const id = entry?.id;
    if (id !== undefined && ids.indexOf(id) >= 0)
      note(problems, () => {
        throw motescaleError('unknown_option', `${parameter}[${i}].id`, id, 'an id that no other one here has');
      });
    ids.push(id);
  });
}

/** The longest each piece of the state can be, as JSON: a block `-0.000001234567,`, a part of an alarm on a rise two numbers in full. */
const bytes = { monitor: 780 + repeatsBytes, alarm: 500, raise: 18, part: 48, followed: 660, block: 16 };

/** How many bytes the state of this configuration takes at most, as JSON, however long it runs. */
export function stateBytes(config: MonitorConfig): number {
  let sum = bytes.monitor;
  for (const alarm of config.alarms ?? []) {
    sum += bytes.alarm + idBytes(alarm.id) + bytes.raise * (alarm.chattering ?? alarmDefaults.chattering).raises;
    if (isRateOfChange(asFigureAlarm(alarm))) sum += 25 * bytes.part;
  }
  for (const { id, blocks } of config.follow ?? [])
    sum += bytes.followed + idBytes(id) + bytes.block * (blocks ?? followDefaults.blocks);
  return sum;
}

function requireRoom(config: MonitorConfig): void {
  const needed = stateBytes(config);
  if (needed <= mostStateBytes) return;
  const expected = `alarms and followed figures whose state fits ${mostStateBytes} bytes (fewer of them, or of their blocks)`;
  throw motescaleError('out_of_range', 'config', `${needed} bytes`, expected);
}
