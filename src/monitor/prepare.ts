/** A monitor's configuration checked as a whole, with every mistake named, and all worked out that follows from it. */
import { noteAlarmMistakes, planOf } from '../alarm/plan.ts';
import type { AlarmType } from '../alarm/types.ts';
import { isObject, requireMembers, requireObject } from '../checks.ts';
import { hasSizes } from '../codes/columnSizes.ts';
import type { ClassColumn, ClassTable } from '../codes/index.ts';
import { anyTableRule } from '../codes/ownTable/tableRule.ts';
import type { Wanted } from '../codes/targetOutcome.ts';
import { noteProblem, type Path, type Problem, throwProblems } from '../errors.ts';
import type { CodePlan } from '../judging/codePlan.ts';
import {
  hasMistake,
  type KnownTables,
  notingTables,
  planCode,
  readCode,
  tablesOf,
  withoutTables,
} from '../judging/codePlans.ts';
import type { Needed } from '../reading/assess/check.ts';
import { limitsRule } from '../reading/limitsRule.ts';
import { filledLimits, noteLimits } from '../reading/ownLimits.ts';
import type { ReadingLimits } from '../reading/readingLimits.ts';
import { mostSaturation } from '../reading/rules.ts';
import { idsWith } from '../reading/tableIds.ts';
import { checkRule } from '../rules/check.ts';
import { requireName } from '../state/names.ts';
import { markOf } from '../state/prepared.ts';
import { textOf, textPrint } from '../state/textPrint.ts';
import { stateBytes } from './budget.ts';
import { fewestToShow } from './fewest.ts';
import { followPlan, followRule } from './followed/plan.ts';
import { deadbandBelow, noteUnreachable } from './reach.ts';
import { monitorRule, mostAlarms, mostStateBytes } from './rules.ts';
import { targetsAlone } from './targets.ts';
import type {
  AlarmWatch,
  CodeAlarm,
  FigureAlarm,
  FollowPlan,
  MonitorAlarm,
  MonitorCode,
  MonitorConfig,
  PreparedMonitor,
} from './types.ts';
import { figureWords } from './words.ts';

/**
 * Checks a configuration, reads its targets, fills in what it leaves out, and returns it for `startMonitor`,
 * `advanceMonitor` and `resumeMonitor`. Plain data with nothing of the configuration in it, so that this may change
 * afterwards. It is made, and never loaded: what is kept is the configuration, and of a prepared one that was stored no
 * more than its version is checked.
 *
 * A table stands in the configuration by itself, or by its id: then it is looked for in `config.tables` and in
 * `options.tables`, so that a bundle holds only the tables it uses. Tables with `standardTables` of `motescale/codes`
 * are all those of the standards.
 *
 * @param config what to do with the readings
 * @param options `tables`: where tables named by id are found. `configuration`: a name for this version of the
 * configuration, for `startUnit` and `advanceUnit`; a fingerprint of it where left out.
 * @throws `bad_configuration`; `problemsOf` gives every mistake, alarms that would not fit the space of the state, that
 *   can never be raised or never return among them.
 *
 * @example
 * ```ts
 * import { iso4406, standardTables } from 'motescale/codes';
 * import { prepareMonitor, problemsOf } from 'motescale/monitor';
 * prepareMonitor({ codes: [{ table: iso4406, target: '18/16/13' }] }).codes[0]?.wanted; // => [18, 16, 13]
 * prepareMonitor({ codes: [{ table: 'nas1638' }] }, { tables: standardTables }).codes[0]?.table.title; // => 'NAS 1638'
 * let places: string[] = [];
 * try {
 *   prepareMonitor({ codes: [{ table: iso4406, target: '18/16' }], staleAfterMs: -1 });
 * } catch (error) {
 *   places = problemsOf(error).map(({ path }) => path.join('.'));
 * }
 * places; // => ['staleAfterMs', 'codes.0.target']
 * ```
 */
export function prepareMonitor(
  config: MonitorConfig,
  options: { readonly tables?: readonly ClassTable[] | undefined; readonly configuration?: string | undefined } = {},
): PreparedMonitor {
  requireObject(options, 'options', 'options { tables, configuration }');
  requireMembers(options, 'options', ['tables', 'configuration']);
  const { configuration } = options;
  if (configuration !== undefined) requireName(configuration, 'options.configuration');
  const given = tablesOf(options.tables ?? []);
  const problems: Problem[] = [];
  const { codes, watches, followed, targets, bytes } = workedOut(config, { tables: given, open: false }, problems);
  throwProblems('bad_configuration', 'config', config, problems);
  const print = printOf(config, codes as CodePlan[]);
  const { restoredAfter = 1, tell = [] } = config;
  return {
    ...markOf('monitor'),
    configuration: configuration ?? `print-${print}`,
    print,
    codes: codes as CodePlan[],
    tableIds: idsWith(given.concat(config.tables ?? [], ...(codes as CodePlan[]).map(({ table }) => table))),
    limits: filledLimits(config.limits ?? {}),
    needed: neededOf(codes as CodePlan[], watches, followed),
    alarms: watches,
    follow: followed,
    targets,
    staleAfterMs: config.staleAfterMs === undefined ? 'usual' : config.staleAfterMs,
    clockJumpMs: config.clockJumpMs ?? 'usual',
    ...(restoredAfter > 1 ? { restoredAfter } : {}),
    ...(tell.length > 0 ? { tell: tell.filter((code, i) => tell.indexOf(code) === i) } : {}),
    maxStateBytes: config.maxStateBytes ?? mostStateBytes,
    stateBytes: bytes,
  };
}

/** Notes every mistake in a configuration; `problems` may hold those of its tables already. */
export function noteMonitor(config: unknown, known: KnownTables, problems: Problem[]): void {
  workedOut(config, known, problems);
}

interface WorkedOut {
  readonly codes: readonly (CodePlan | null)[];
  readonly watches: readonly AlarmWatch[];
  readonly followed: readonly FollowPlan[];
  readonly targets: readonly number[];
  readonly bytes: number;
}

/** What follows from a configuration, whole where no mistake is noted. */
function workedOut(config: unknown, known: KnownTables, problems: Problem[]): WorkedOut {
  checkRule(monitorRule(anyTableRule, limitsRule(), followRule()), withoutTables(config), [], problems);
  const sound = isObject(config) ? (config as unknown as MonitorConfig) : ({} as MonitorConfig);
  const { codes: wanted, alarms = [], follow = [], limits, maxStateBytes = mostStateBytes } = sound;
  const { restoredAfter = 1, tell = [] } = sound;
  const own = notingTables(sound.tables, problems);
  const codes = codePlans(wanted, { ...known, tables: known.tables.concat(own) }, problems);
  if (limits !== undefined && !hasMistake(problems, ['limits'])) noteLimits(limits, ['limits'], problems);
  noteTwice(alarms, 'alarms', problems);
  noteTwice(follow, 'follow', problems);
  const whole = hasMistake(problems, ['limits']) ? null : filledLimits(limits ?? {});
  const watches = alarmWatches(alarms, codes, whole, sound.staleAfterMs ?? undefined, problems);
  if (problems.length > 0) return { codes, watches, followed: [], targets: [], bytes: 0 };
  const followed = follow.map(followPlan);
  const targets = targetsAlone(codes, watches);
  const tables = targets.map((place) => (codes[place] as CodePlan).table.id);
  const bytes = stateBytes(watches, followed, tables, tell, restoredAfter > 1);
  const figures = (watches as readonly { figure: object }[]).concat(followed);
  if (whole?.solubility === null && figures.some(({ figure }) => 'waterSaturationAt' in figure)) {
    const expected = 'a solubility line, which the figure waterSaturationAt needs';
    noteProblem(problems, ['limits', 'solubility'], 'wrong_type', limits?.solubility, expected);
  }
  if (bytes > maxStateBytes) {
    const ways = 'fewer of them, fewer blocks, or maxStateBytes';
    const expected = `alarms and followed figures whose state fits ${maxStateBytes} bytes (${ways})`;
    noteProblem(problems, [], 'out_of_range', bytes, expected);
  }
  return { codes, watches, followed, targets, bytes };
}

/** The sizes of figures, and the columns that a target or a setpoint asks for, each once. */
function neededOf(
  codes: readonly CodePlan[],
  watches: readonly AlarmWatch[],
  followed: readonly FollowPlan[],
): readonly Needed[] {
  const needed: Needed[] = [];
  const add = (one: Needed) => {
    if (needed.indexOf(one) < 0) needed.push(one);
  };
  const addWanted = ({ table }: CodePlan, wanted: Wanted | null) => {
    for (let i = 0; wanted !== null && i < wanted.length; i += 1)
      if (wanted[i] !== null) add(table.columns[i] as ClassColumn);
  };
  for (const plan of codes) addWanted(plan, plan.wanted);
  for (const { onCode } of watches) if (onCode !== null) addWanted(codes[onCode.place] as CodePlan, onCode.wanted);
  for (const { figure } of (watches as readonly { figure: object }[]).concat(followed))
    for (const kind of ['perMlAt', 'scaleNumberAt', 'continuousScaleNumberAt'] as const)
      if (kind in figure) add((figure as { readonly [name: string]: number })[kind] as number);
  return needed;
}

/**
 * The configuration's fingerprint, with the ids of its tables: two that prepare alike have one, whatever the order of
 * their members.
 */
function printOf(config: MonitorConfig, codes: readonly CodePlan[]): number {
  const named = codes.map(({ table, target, columns, errors }) => ({ table: table.id, target, columns, errors }));
  return textPrint(textOf({ ...config, tables: undefined, codes: named }));
}

/** One plan for each code; null where it has a mistake. */
function codePlans(wanted: unknown, known: KnownTables, problems: Problem[]): (CodePlan | null)[] {
  if (!Array.isArray(wanted)) return [];
  const plans: (CodePlan | null)[] = [];
  const seen: string[] = [];
  for (let i = 0; i < wanted.length && i < 100; i += 1) {
    const entry: MonitorCode = wanted[i];
    plans.push(isObject(entry) ? planCode(entry, known, seen, ['codes', i], problems) : null);
  }
  return plans;
}

function noteTwice(list: readonly { readonly id: string }[], name: string, problems: Problem[]): void {
  if (!Array.isArray(list) || list.length > mostAlarms) return;
  const ids: unknown[] = [];
  for (let i = 0; i < list.length; i += 1) {
    const id: unknown = isObject(list[i]) ? list[i].id : undefined;
    if (typeof id === 'string' && ids.indexOf(id) >= 0)
      noteProblem(problems, [name, i, 'id'], 'unknown_option', id, 'an id that no other one here has');
    ids.push(id);
  }
}

/** Those that keep their rules are held against each other and against the codes. */
function alarmWatches(
  alarms: readonly MonitorAlarm[],
  codes: readonly (CodePlan | null)[],
  limits: ReadingLimits | null,
  staleAfterMs: number | undefined,
  problems: Problem[],
): AlarmWatch[] {
  const watches: AlarmWatch[] = [];
  if (!Array.isArray(alarms) || alarms.length > mostAlarms) return watches;
  for (let i = 0; i < alarms.length; i += 1) {
    const path: Path = ['alarms', i];
    if (hasMistake(problems, path)) continue;
    const given: MonitorAlarm = alarms[i];
    const alarm = staleAfterMs === undefined || given.staleAfterMs !== undefined ? given : { ...given, staleAfterMs };
    const watch =
      'code' in alarm.figure
        ? codeWatch(alarm as CodeAlarm, codes, path, problems)
        : figureWatch(alarm as FigureAlarm, limits, path, problems);
    if (watch !== null) watches.push(watch);
  }
  return watches;
}

function figureWatch(
  alarm: FigureAlarm,
  limits: ReadingLimits | null,
  path: Path,
  problems: Problem[],
): AlarmWatch | null {
  const { figure, type, setpoint, withinMs } = alarm;
  const before = problems.length;
  noteAlarmMistakes(alarm, path, problems);
  // a setpoint on the saturation is a share, as the figure is: one in percent would never be reached
  const isWater = 'waterSaturationAt' in figure || ('quantity' in figure && figure.quantity === 'waterSaturation');
  if (isWater && setpoint > mostSaturation)
    noteProblem(problems, [...path, 'setpoint'], 'out_of_range', setpoint, 'a share, 0.45 for 45 %');
  if (problems.length > before) return null;
  const whole = 'scaleNumberAt' in figure;
  const raising = whole ? besideWhole(type, setpoint) : setpoint;
  if (limits !== null) noteUnreachable(alarm, raising, limits, path, problems);
  if (problems.length > before) return null;
  const words = figureWords(figure);
  return {
    figure: { ...figure },
    plan: planOf(alarm, { type, setpoint: raising, withinMs, figure: words, told: setpoint }),
    onCode: null,
    fewest: fewestToShow(type, figure, setpoint),
  };
}

/**
 * Classes and scale numbers are whole, so their setpoint is taken half a class beyond itself: a figure on the setpoint
 * is back.
 */
function besideWhole(type: AlarmType, setpoint: number): number {
  if (type === 'high') return Math.floor(setpoint) + 1 / 2;
  return type === 'low' ? Math.ceil(setpoint) - 1 / 2 : setpoint;
}

function codeWatch(
  alarm: CodeAlarm,
  codes: readonly (CodePlan | null)[],
  path: Path,
  problems: Problem[],
): AlarmWatch | null {
  const { figure, setpoint } = alarm;
  const place = codes.map((code) => code?.table.id).lastIndexOf(figure.code);
  if (place < 0) {
    const expected = 'the id of a table in config.codes';
    // where a code of the list has a mistake, it may be the one
    if (codes.every((code) => code !== null))
      noteProblem(problems, [...path, 'figure', 'code'], 'unknown_option', figure.code, expected);
    return null;
  }
  const { table, columns } = codes[place] as CodePlan;
  const wanted = readCode(table, setpoint, columns, [...path, 'setpoint'], problems);
  if (wanted === null || !canReturn(alarm, table, wanted, path, problems)) return null;
  const plan = planOf(alarm, { type: 'high', setpoint: 1 / 2, figure: figureWords(figure), told: setpoint });
  return { figure: { ...figure }, plan, onCode: { place, wanted }, fewest: null };
}

/** Whether the cleanest oil is cleaner than asked by more than the deadband, at each size that a counter tells. */
function canReturn(
  { deadband = 0 }: CodeAlarm,
  { columns }: ClassTable,
  wanted: Wanted,
  path: Path,
  problems: Problem[],
): boolean {
  const asked = wanted.filter((place) => place !== null) as number[];
  const counted = wanted.filter((place, i) => place !== null && hasSizes(columns[i] as ClassColumn)) as number[];
  const room = Math.min(...(counted.length > 0 ? counted : asked)) + 1 / 2;
  if (deadband < room) return true;
  noteProblem(problems, [...path, 'deadband'], 'out_of_range', deadband, deadbandBelow(room));
  return false;
}
