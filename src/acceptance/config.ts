/**
 * The checks before an acceptance run: of what has to be shown, and of each reading.
 */
import { requireFilledArray, requireNonNegative, requireObject, requireWholeWithin } from '../checks.ts';
import { requireLabels } from '../codes/requireLabels.ts';
import { requireTable } from '../codes/requireTable.ts';
import { motescaleError } from '../errors.ts';
import { noteLimits } from '../judging/limits.ts';
import { requireCode } from '../judging/target.ts';
import { type ConfigurationProblem, note, noteUnknownMembers, throwProblems } from '../state/configuration.ts';
import { requireSpan, requireTime } from '../state/time.ts';
import { acceptanceBytes, mostAcceptanceBytes } from './acceptanceState.ts';
import type { AcceptanceConfig, AcceptanceReading } from './types.ts';

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

/** Throws `bad_configuration` with all that is wrong; whether it fits the space is asked at the start only. */
export function checkAcceptanceConfig(config: AcceptanceConfig, starting: boolean): void {
  const problems: ConfigurationProblem[] = [];
  note(problems, () => requireObject(config, 'config', '{ table, target, readings }'));
  throwProblems(problems, 'config', config);
  note(problems, () => {
    requireTable(config.table, 'config.table');
    if (config.columns !== undefined) requireLabels(config.table, config.columns, 'config.columns');
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
  if (starting && problems.length === 0) note(problems, () => requireRoom(config));
  throwProblems(problems, 'config', config);
}

/** A table of very many columns, or of long names, would not fit. */
function requireRoom(config: AcceptanceConfig): void {
  const needed = acceptanceBytes(config);
  if (needed <= mostAcceptanceBytes) return;
  const expected = `columns whose names and codes fit a state of ${mostAcceptanceBytes} bytes (judge fewer by \`columns\`)`;
  throw motescaleError('out_of_range', 'config.table', `${needed} bytes`, expected);
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
