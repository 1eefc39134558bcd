/**
 * The tables of what an alarm and a monitor may be told, in docs/alarms.md and docs/monitor.md: each member of the
 * rules that check a configuration, and no other.
 */
import { alarmDefaults, alarmRule } from '../../src/alarm/rules.ts';
import { followRule } from '../../src/monitor/followed/plan.ts';
import { followDefaults, monitorRule, mostStateBytes } from '../../src/monitor/rules.ts';
import type { ListRule, Members, ObjectRule } from '../../src/rules/rule.ts';

/** What it is, with its unit, and what holds where it is left out. */
type Words = Readonly<Record<string, readonly [what: string, leftOut: string]>>;

const hour = 3600000;
const { raises, withinMs } = alarmDefaults.chattering;
const figures = '[its figure](monitor.md#figures-of-alarms)';

const alarmWords: Words = {
  id: ['its name, for good ([upgrading](upgrading.md#what-you-may-rely-on))', 'required'],
  type: ['`high`, `low`, `rise` or `fall`; on a code `high`', 'required'],
  figure: [`in a monitor: ${figures}`, 'required there'],
  setpoint: [
    'unit of the figure, or a code: `high` raises strictly above it, `low` strictly below; `rise` and `fall` when ' +
      'the figure has changed by it, or more, within `withinMs`',
    'required',
  ],
  withinMs: ['ms that a `rise` or `fall` looks back over', 'required there'],
  deadband: ['unit of the figure: how far it must come back to return; it never delays raising', '0'],
  onDelayMs: ['ms for which every good reading must be beyond the setpoint; a shorter excursion gives no alarm', '0'],
  offDelayMs: ['ms for which it must be back', '`onDelayMs`'],
  latching: ['`true`: the cause has gone, and the alarm stays until it is reset', '`false`'],
  priority: ['how soon to act: `low`, `medium`, `high`, `urgent`', `\`${alarmDefaults.priority}\``],
  staleAfterMs: [
    'ms; the signal is stale when the last good reading is older: the alarm stays as it is, delays begin anew. ' +
      '`null`: never',
    'ten usual intervals, a day at least',
  ],
  reAlarmAfterMs: [
    'ms after it was raised until an alarm that still stands is raised anew, and not acknowledged any more',
    'never',
  ],
  longestShelfMs: ['ms, the longest that it may be shelved', `${alarmDefaults.longestShelfMs / hour} hours`],
  chattering: [
    '`{ raises, withinMs }`: told at so many raises within so many ms, for a deadband or a delay is too small; its ' +
      '`withinMs` has nothing to do with that of a `rise`',
    `${raises} in ${withinMs / hour} hour`,
  ],
  suppressedInModes: ['modes of the machine in which it is [suppressed](#suppressed-by-design)', 'none'],
  note: ['what to do; it comes with `raised`', 'none'],
};

const monitorWords: Words = {
  codes: ['the tables to write codes in, `[]` for none; of each:', 'required'],
  'codes[].table': ['a class table, or its id', 'required'],
  'codes[].target': ['the code to be kept', 'not judged'],
  'codes[].columns': ['labels of the columns that are judged', 'all'],
  'codes[].errors': ['what makes counts [unsure](sure.md) beside their number, `{}` for its defaults', 'nothing'],
  limits: ['[limits of your data sheets](limits.md)', 'most checks are not made'],
  alarms: ['at most 64, [each setting](alarms.md#settings)', 'none'],
  follow: ['[followed figures](#followed-figures), at most 32; of each:', 'none'],
  'follow[].id': ['its name, for good', 'required'],
  'follow[].figure': ['[a figure](#figures-of-alarms)', 'required'],
  'follow[].blockMs': ['ms of which one mean is made', `${followDefaults.blockMs / hour / 24} day`],
  'follow[].blocks': ['how many blocks the trend looks back over', String(followDefaults.blocks)],
  'follow[].least': [
    'the smallest step worth telling, in the unit of the figure',
    '0.5 of scale numbers; else no change is told',
  ],
  'follow[].season': ['the half-swing over the year, in that unit', '0.6 times `least`'],
  'follow[].resolution': ['the step in which rounded values come', '1 of whole scale numbers, else none'],
  staleAfterMs: [
    'ms; readings are late when the last usable one is older. Also for alarms without their own. `null`: never',
    'ten usual intervals, a day at least',
  ],
  clockJumpMs: [
    'ms; an input further ahead is [set aside](clocks.md#a-clock-that-was-set)',
    'ten usual intervals, a day at least',
  ],
  restoredAfter: ['readings in a row until a figure [is told as restored](#a-figure-that-comes-and-goes)', '1'],
  tell: ['[findings that are told](#a-finding-that-stands)', 'none'],
  tables: ['class tables of your own that `codes` name by their ids', 'none'],
  maxStateBytes: ['the most bytes of the state as JSON', String(mostStateBytes)],
};

/** A table of the words, which name just the members: those that a rule asks for are required. */
function settingsTable(words: Words, members: Members): string {
  const named = Object.keys(words);
  const unnamed = Object.keys(members).filter((name) => !named.includes(name));
  const unknown = named.filter((name) => members[name] === undefined);
  if (unnamed.length + unknown.length > 0) throw new Error(`no words: ${unnamed}; no members: ${unknown}`);
  const rows = Object.entries(words).map(([name, [what, leftOut]]) => {
    if ((members[name]?.optional === true) === (leftOut === 'required')) throw new Error(`${name}: may be left out?`);
    return `| \`${name}\` | ${what} | ${leftOut} |`;
  });
  return ['| member | what, and its unit | left out |', '| --- | --- | --- |', ...rows].join('\n');
}

function below(path: string, { members }: ObjectRule): Members {
  return Object.fromEntries(Object.entries(members).map(([name, rule]) => [`${path}[].${name}`, rule]));
}

const anything = { kind: 'flag' } as const;

/** Those of an alarm alone and of one in a monitor. */
export function alarmSettingsTable(): string {
  const figure = { ...anything, optional: true } as const;
  return settingsTable(alarmWords, { ...alarmRule().members, figure });
}

export function monitorSettingsTable(): string {
  const { members } = monitorRule(anything, anything, followRule());
  const { codes } = members;
  const code = (codes as ListRule).of as ObjectRule;
  return settingsTable(monitorWords, { ...members, ...below('codes', code), ...below('follow', followRule()) });
}
