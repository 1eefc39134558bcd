/**
 * The checks before an acceptance run: of what has to be shown, and of each reading.
 */
import { requireNonNegative, requireObject, requireWholeWithin } from '../checks.ts';
import { requireLabels } from '../codes/requireLabels.ts';
import { requireTable } from '../codes/requireTable.ts';
import { motescaleError, type Problem, parameterAt } from '../errors.ts';
import { requireCode } from '../judging/target.ts';
import { gateReading } from '../reading/gate.ts';
import { noteLimits } from '../reading/readingLimits.ts';
import { type ConfigurationProblem, note, noteUnknownMembers, throwProblems } from '../state/configuration.ts';
import { requireSpan } from '../state/time.ts';
import { acceptanceBytes, mostAcceptanceBytes } from './acceptanceState.ts';
import { acceptanceReadingRule } from './readingRule.ts';
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
  if (config.limits !== undefined) noteLimitProblems(problems, config.limits);
  noteUnknownMembers(problems, config, 'config', members);
  if (starting && problems.length === 0) note(problems, () => requireRoom(config));
  throwProblems(problems, 'config', config);
}

function noteLimitProblems(problems: ConfigurationProblem[], limits: unknown): void {
  const found: Problem[] = [];
  noteLimits(limits, ['limits'], found);
  for (const { path, received, expected } of found)
    problems.push({ parameter: parameterAt('config', path), received, expected });
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
  gateReading(reading, 'reading', acceptanceReadingRule);
  if (reading.litres === undefined && (config.leastLitres ?? 0) > 0)
    throw motescaleError(
      'missing_volume',
      'reading.litres',
      undefined,
      'the volume counter in litres, since leastLitres is set',
    );
}
