/**
 * Checks an alarm's configuration, naming every mistake, and fills in what was left out.
 */
import { requireFinite, requireNonNegative, requireObject, requireOneOf, requirePositive } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import { type ConfigurationProblem, note, noteUnknownMembers, throwProblems } from '../state/configuration.ts';
import { requireName } from '../state/names.ts';
import { requireSpan } from '../state/time.ts';
import type { AlarmConfig } from './types.ts';

/** The settings that may be left out, and what then holds: off-delay is the on-delay. */
export const alarmDefaults: {
  readonly longestShelfMs: number;
  readonly chattering: { readonly raises: number; readonly withinMs: number };
} = { longestShelfMs: 8 * 3600000, chattering: { raises: 3, withinMs: 3600000 } };

/** The most raises that chattering can be told by, and a state remembers. */
export const mostRaises = 20;

const members: readonly string[] = [
  'id',
  'type',
  'setpoint',
  'withinMs',
  'deadband',
  'onDelayMs',
  'offDelayMs',
  'latching',
  'longestShelfMs',
  'staleAfterMs',
  'chattering',
];

/** Whether the alarm looks at a change and not at the figure itself. */
export function isRateOfChange(config: AlarmConfig): boolean {
  return config.type === 'rise' || config.type === 'fall';
}

/** Returns the configuration as it came, or throws `bad_configuration` with all that is wrong in it. */
export function checkAlarmConfig(
  config: AlarmConfig,
  parameter = 'config',
  extra: readonly string[] = [],
): AlarmConfig {
  const problems: ConfigurationProblem[] = [];
  note(problems, () => requireObject(config, parameter, 'an alarm { id, type, setpoint }'));
  throwProblems(problems, parameter, config);
  note(problems, () => requireName(config.id, `${parameter}.id`));
  note(problems, () => requireOneOf(config.type, `${parameter}.type`, ['high', 'low', 'rise', 'fall']));
  note(problems, () =>
    isRateOfChange(config)
      ? requirePositive(config.setpoint, `${parameter}.setpoint`, 'an amount above 0')
      : requireFinite(config.setpoint, `${parameter}.setpoint`),
  );
  note(problems, () => checkWithin(config, `${parameter}.withinMs`));
  note(problems, () => checkDeadband(config, `${parameter}.deadband`));
  noteSpan(problems, config.onDelayMs, `${parameter}.onDelayMs`, 0);
  noteSpan(problems, config.offDelayMs, `${parameter}.offDelayMs`, 0);
  note(problems, () => {
    if (config.latching !== undefined && typeof config.latching !== 'boolean')
      throw motescaleError('wrong_type', `${parameter}.latching`, config.latching, 'true or false');
  });
  noteSpan(problems, config.longestShelfMs, `${parameter}.longestShelfMs`, 1);
  noteSpan(problems, config.staleAfterMs, `${parameter}.staleAfterMs`, 1);
  note(problems, () => checkChattering(config.chattering, `${parameter}.chattering`));
  noteUnknownMembers(problems, config, parameter, extra.length === 0 ? members : members.concat(extra));
  throwProblems(problems, parameter, config);
  return config;
}

function noteSpan(problems: ConfigurationProblem[], value: unknown, parameter: string, shortest: number): void {
  if (value !== undefined) note(problems, () => requireSpan(value, parameter, shortest));
}

function checkWithin(config: AlarmConfig, parameter: string): void {
  if (isRateOfChange(config)) requireSpan(config.withinMs, parameter, 1);
  else if (config.withinMs !== undefined)
    throw motescaleError('unknown_option', parameter, config.withinMs, "nothing, except for type 'rise' or 'fall'");
}

function checkDeadband(config: AlarmConfig, parameter: string): void {
  if (config.deadband === undefined) return;
  const deadband = requireNonNegative(config.deadband, parameter, 'a deadband of 0 or more, in the unit of the figure');
  if (isRateOfChange(config) && deadband >= config.setpoint)
    throw motescaleError('out_of_range', parameter, deadband, `less than the setpoint ${config.setpoint}`);
}

function checkChattering(chattering: unknown, parameter: string): void {
  if (chattering === undefined) return;
  const { raises, withinMs } = requireObject(chattering, parameter, '{ raises, withinMs }') as {
    raises: unknown;
    withinMs: unknown;
  };
  const problems: ConfigurationProblem[] = [];
  note(problems, () => {
    const expected = `a whole number of raises from 2 to ${mostRaises}`;
    const number = requireFinite(raises, `${parameter}.raises`, expected);
    if (number < 2 || number > mostRaises || number !== Math.floor(number))
      throw motescaleError('out_of_range', `${parameter}.raises`, raises, expected);
  });
  note(problems, () => requireSpan(withinMs, `${parameter}.withinMs`, 1));
  noteUnknownMembers(problems, chattering as object, parameter, ['raises', 'withinMs']);
  throwProblems(problems, parameter, chattering);
}
