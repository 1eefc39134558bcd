/**
 * The checks before an acceptance run: of what has to be shown, of what is remembered, and of each reading.
 */
import { requireFilledArray, requireNonNegative, requireObject } from '../checks.ts';
import { requireTable } from '../codes/requireTable.ts';
import { motescaleError } from '../errors.ts';
import type { AcceptanceConfig, AcceptanceReading, AcceptanceRun, AcceptanceState } from './acceptanceTypes.ts';
import { type ConfigurationProblem, note, noteUnknownMembers, throwProblems } from './configuration.ts';
import { noteLimits } from './monitorConfig.ts';
import { requireCode, requireColumns, requireWholeWithin } from './monitorEntries.ts';
import { requireSpan, requireTime } from './time.ts';

const members: readonly string[] = [
  'table',
  'target',
  'columns',
  'readings',
  'leastMs',
  'leastLitres',
  'longestGapMs',
  'limits',
];

/** Throws `bad_configuration` with all that is wrong. */
export function checkAcceptanceConfig(config: AcceptanceConfig): void {
  const problems: ConfigurationProblem[] = [];
  note(problems, () => requireObject(config, 'config', '{ table, target, readings }'));
  throwProblems(problems, 'config', config);
  note(problems, () => {
    requireTable(config.table, 'config.table');
    if (config.columns !== undefined) requireColumns(config.table, config.columns, 'config.columns');
    requireCode(config.table, config.target, 'config.target', config.columns);
  });
  note(problems, () => requireWholeWithin(config.readings, 'config.readings', 2, 10000));
  if (config.leastMs !== undefined) note(problems, () => requireSpan(config.leastMs, 'config.leastMs'));
  if (config.leastLitres !== undefined)
    note(problems, () => requireNonNegative(config.leastLitres, 'config.leastLitres'));
  if (config.longestGapMs !== undefined)
    note(problems, () => requireSpan(config.longestGapMs, 'config.longestGapMs', 1));
  if (config.limits !== undefined) noteLimits(problems, config.limits);
  noteUnknownMembers(problems, config, 'config', members);
  throwProblems(problems, 'config', config);
}

/** Throws `bad_state` unless the state is one that the library made. */
export function checkAcceptanceState(state: AcceptanceState): void {
  const sound =
    typeof state === 'object' &&
    state !== null &&
    state.version === 1 &&
    isFigureOrNull(state.time) &&
    isFigureOrNull(state.litres) &&
    typeof state.same === 'object' &&
    state.same !== null &&
    isFigure(state.same.print) &&
    isFigure(state.same.count) &&
    isFigure(state.restarts) &&
    isFigure(state.notCounted) &&
    typeof state.lastRestart === 'object' &&
    (state.run === null || isRun(state.run)) &&
    (state.accepted === null || (typeof state.accepted === 'object' && isRun(state.accepted.run)));
  if (!sound) {
    throw motescaleError(
      'bad_state',
      'state',
      state,
      'a state of version 1, as startAcceptance or advanceAcceptance gave it',
    );
  }
}

function isRun(run: AcceptanceRun): boolean {
  return (
    typeof run === 'object' &&
    run !== null &&
    [run.readings, run.from, run.to].every(isFigure) &&
    [run.fromLitres, run.toLitres].every(isFigureOrNull) &&
    Array.isArray(run.margins) &&
    run.margins.every((margin) => typeof margin?.column === 'string' && isFigure(margin.classes))
  );
}

function isFigure(value: unknown): boolean {
  return typeof value === 'number' && isFinite(value);
}

function isFigureOrNull(value: unknown): boolean {
  return value === null || isFigure(value);
}

/** Throws unless the reading has its time, and a volume where one is asked for. */
export function checkAcceptanceReading(config: AcceptanceConfig, reading: AcceptanceReading): void {
  requireObject(reading, 'reading', 'a reading { time, counts }');
  requireTime(reading.time, 'reading.time');
  requireObject(reading.counts, 'reading.counts', 'counts as cumulativeCounts makes them');
  requireFilledArray(reading.counts.perMl, 'reading.counts.perMl');
  if (reading.litres !== undefined) requireNonNegative(reading.litres, 'reading.litres');
  else if ((config.leastLitres ?? 0) > 0)
    throw motescaleError(
      'missing_volume',
      'reading.litres',
      undefined,
      'the volume counter in litres, since leastLitres is set',
    );
}
