/**
 * One alarm on one figure: raised beyond a setpoint, returned when the figure has come back, with all an operator can do in between.
 */
import { requireFinite, requireMembers, requireObject, requireOneOf } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import { laterOf, requireTime } from '../state/time.ts';
import { checkAlarmState, draftOf, freshAlarmState } from './alarmState.ts';
import { takeCommand } from './commands.ts';
import { checkAlarmConfig } from './config.ts';
import { passTime, takeGoodReading } from './signal.ts';
import type { AlarmCommand, AlarmConfig, AlarmEvent, AlarmInput, AlarmReading, AlarmState } from './types.ts';

/**
 * The state of an alarm that has heard nothing yet: normal, and in service.
 *
 * @throws `bad_configuration`; its `problems` name every mistake.
 *
 * @example
 * ```ts
 * import { startAlarm } from 'motescale/alarm';
 * const config = { id: 'tank oil hot', type: 'high', setpoint: 65, deadband: 3 } as const; // `as const`: else 'high' is any text
 * startAlarm(config).active; // => false
 * ```
 */
export function startAlarm(config: AlarmConfig): AlarmState {
  checkAlarmConfig(config);
  return freshAlarmState();
}

/**
 * Takes one input, a reading, a command or only the time, and returns the alarm's new state with what happened.
 *
 * - Raised when a reading lies beyond the setpoint (`high`, `low`: strictly; `rise`, `fall`: the amount is reached) and every good reading
 *   since `onDelayMs` or longer ago has. Returned when it lies beyond the deadband on the other side (strictly), and that for `offDelayMs`. The alarm
 *   changes at readings only, at the first one where the delay has passed, to the millisecond; between two readings the figure is taken to
 *   have stayed where both show it.
 * - A reading of quality `bad`, or without a value, neither raises nor clears nor touches a running delay. `uncertain` is used like `good`.
 *   A signal is stale when its last good reading is older than `staleAfterMs`; then running delays begin anew and the alarm stays as it is.
 * - Shelved or out of service it is silent: tracked, not announced. When the silence ends, an event tells how often it was raised
 *   meanwhile, and `standing` events tell how things stand.
 * - What falls due between two inputs, the end of a shelf, a stale signal, the end of chattering, carries the time it fell due, so an input
 *   with only a time changes nothing but when one hears of it. An input older than the last one counts as of the last one's time; only a
 *   reading older than the last reading changes nothing, and is answered by `refused`.
 *
 * An alarm supports the decision whether a machine may run; it never takes it. It is no protection: a trip that guards people against
 * pressure or heat belongs in a safety system.
 *
 * Time: whole milliseconds since 1970-01-01 UTC. Figure, setpoint and deadband: one unit, the caller's.
 * Sources: OPC 10000-9 (terms of IEC 62682, ANSI/ISA-18.2) 3.1, 4.8, 5.8, B.1.5: deadband on return only, delays, latching, shelving, out of
 * service. OPC 30030 (ASHRAE 135) 8.9, 8.13: strictly above the limit raises, strictly below the limit less the deadband returns; off-delay is
 * the on-delay where left out. Limit, deadband and change are reckoned as decimals: 0.8 is exactly 0.85 less 0.05.
 *
 * @throws `bad_configuration`, `bad_state`; for an input `wrong_type`, `not_a_number`, `infinite`, `not_an_integer` (time), `out_of_range`,
 * `unknown_option`.
 *
 * @example
 * ```ts
 * import { advanceAlarm, startAlarm } from 'motescale/alarm';
 * const config = { id: 'tank oil hot', type: 'high', setpoint: 65, deadband: 3, onDelayMs: 60000 } as const;
 * let step = advanceAlarm(config, startAlarm(config), { time: 0, value: 66 });
 * step.events; // => []
 * step = advanceAlarm(config, step.state, { time: 60000, value: 67 });
 * step.events; // => [{ time: 60000, alarm: 'tank oil hot', event: 'raised', value: 67 }]
 * step = advanceAlarm(config, step.state, { time: 120000, value: 64 });
 * step.state.active; // => true
 * ```
 */
export function advanceAlarm(
  config: AlarmConfig,
  state: AlarmState,
  input: AlarmInput,
): { state: AlarmState; events: AlarmEvent[] } {
  checkAlarmConfig(config);
  checkAlarmState(state);
  requireObject(input, 'input', 'a reading { time, value }, a command { time, command } or { time }');
  requireTime(input.time, 'input.time');
  if ('value' in input) {
    requireMembers(input, 'input', ['time', 'value', 'quality']);
    if (input.value !== null) requireFigure(input.value);
    if (input.quality !== undefined) requireOneOf(input.quality, 'input.quality', ['good', 'uncertain', 'bad']);
  } else {
    requireMembers(input, 'input', 'command' in input ? ['time', 'command', 'forMs', 'oneShot'] : ['time']);
  }
  return stepAlarm(config, state, input);
}

/** No figure of this trade is larger than 1e60; the change of one could else be endless. */
function requireFigure(value: unknown): void {
  const expected = 'a finite number up to a magnitude of 1e60, or null';
  if (Math.abs(requireFinite(value, 'input.value', expected)) > 1e60)
    throw motescaleError('out_of_range', 'input.value', value, expected);
}

/** The same for a configuration, a state and an input already checked. */
export function stepAlarm(
  config: AlarmConfig,
  state: AlarmState,
  input: AlarmInput,
): { state: AlarmState; events: AlarmEvent[] } {
  const isReading = 'value' in input;
  const now = laterOf(state.time, input.time);
  if (isReading && state.read !== null && input.time < state.read) {
    const reason = `older than the last reading, ${state.read}`;
    return { state, events: [{ time: now, alarm: config.id, event: 'refused', reason }] };
  }
  const draft = draftOf(state, now);
  const events: AlarmEvent[] = [];
  passTime(config, draft, now, events);
  if ('command' in input) {
    takeCommand(config, draft, input as AlarmCommand, now, events);
  } else if (isReading) {
    const { value, quality } = input as AlarmReading;
    draft.read = input.time;
    // Plus 0: JSON has no -0, and a restored state shall be the same.
    if (value !== null && quality !== 'bad') takeGoodReading(config, draft, value + 0, now, events);
  }
  return { state: draft, events };
}
