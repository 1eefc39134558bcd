/**
 * The checks before an acceptance run: of what has to be shown, of what is remembered, and of each reading.
 */
import { requireNonNegative, requireObject } from '../checks.ts';
import { requireTable } from '../codes/requireTable.ts';
import { motescaleError } from '../errors.ts';
import type { AcceptanceConfig, AcceptanceReading, AcceptanceState } from './acceptanceTypes.ts';
import { type ConfigurationProblem, note, noteUnknownMembers, throwProblems } from './configuration.ts';
import { noteLimits } from './monitorConfig.ts';
import { requireCode, requireWholeWithin } from './monitorEntries.ts';
import { requireSpan, requireTime } from './time.ts';

const members: readonly string[] = ['table', 'target', 'readings', 'leastMs', 'leastLitres', 'longestGapMs', 'limits'];

/** Throws `bad_configuration` with all that is wrong. */
export function checkAcceptanceConfig(config: AcceptanceConfig): void {
  const problems: ConfigurationProblem[] = [];
  note(problems, () => requireObject(config, 'config', '{ table, target, readings }'));
  throwProblems(problems, 'config', config);
  note(problems, () => {
    requireTable(config.table, 'config.table');
    requireCode(config.table, config.target, 'config.target');
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
    (state.time === null || typeof state.time === 'number') &&
    typeof state.restarts === 'number' &&
    typeof state.notCounted === 'number' &&
    (state.run === null || (typeof state.run === 'object' && Array.isArray(state.run.margins)));
  if (!sound) {
    throw motescaleError(
      'bad_state',
      'state',
      state,
      'a state of version 1, as startAcceptance or advanceAcceptance gave it',
    );
  }
}

/** Throws unless the reading has its time, and a volume where one is asked for. */
export function checkAcceptanceReading(config: AcceptanceConfig, reading: AcceptanceReading): void {
  requireObject(reading, 'reading', 'a reading { time, counts }');
  requireTime(reading.time, 'reading.time');
  if (reading.litres !== undefined) requireNonNegative(reading.litres, 'reading.litres');
  else if ((config.leastLitres ?? 0) > 0)
    throw motescaleError(
      'missing_volume',
      'reading.litres',
      undefined,
      'the volume counter in litres, since leastLitres is set',
    );
}
