/** What a step of the flow controller reports: each event when it becomes true, and once. */
import { requireFinite, requireObject, requireOneOf, requireText } from '../../checks.ts';
import { shown } from '../../numeric/shown.ts';
import { requireLike } from '../../rules/like.ts';
import { isOscillation } from './oscillation.ts';
import { flowModes, stepsThatTell } from './rules.ts';
import type { FlowControlEvent, FlowControlState } from './types.ts';

/** How many there are, `stepsThatTell` at most; a state of before knew only whether. */
export function lostStepsOf({ lost, lostSteps }: FlowControlState): number {
  return lostSteps ?? (lost ? stepsThatTell : 0);
}

export function isStopped({ mode, percent }: FlowControlState): boolean {
  return mode === 'manual' && percent === 0;
}

type Word = FlowControlEvent['event'];

const startRefusals = ['no_signal', 'too_thick', 'not_ready'] as const;

/** `shown`: what the flow meter shows, whether it can be or not. */
export function eventsBetween(
  before: FlowControlState,
  after: FlowControlState,
  shown: number | null = null,
): FlowControlEvent[] {
  const events: FlowControlEvent[] = [];
  const { mode, percent } = after;
  const turn = (is: (state: FlowControlState) => boolean, on: Word | null, off: Word | null) => {
    const event = is(after) ? on : off;
    if (event === null || is(after) === is(before)) return;
    events.push({ event, mode, percent, ...(event === 'signal_lost' && shown !== null ? { mlPerMin: shown } : {}) });
  };
  turn((state) => lostStepsOf(state) === stepsThatTell, 'signal_lost', 'signal_back');
  turn(isStopped, 'stopped', null);
  turn((state) => isStopped(state) || state.mode === 'starting', null, 'started');
  // a drive that is not ready is no hand
  turn(({ byHand }) => byHand, after.cut === true ? null : 'to_manual', 'to_automatic');
  // a curve that is no longer there has no inside
  turn(({ outside }) => outside, 'viscosity_outside', after.mm2PerS === null ? null : 'viscosity_inside');
  turn(({ swing }) => isOscillation(swing), 'oscillation', 'oscillation_ended');
  turn(({ off }) => off?.told === true, 'off_setpoint', 'at_setpoint');
  turn(({ still }) => still?.told === true, 'signal_frozen', 'signal_frozen_ended');
  turn(({ atLimit }) => atLimit?.told === true, 'speed_at_limit', 'speed_off_limit');
  turn(({ dry }) => dry?.told === true, 'no_flow', 'no_flow_ended');
  return events;
}

/** The sentences of the flow controller, by event; `{percent}` is the output. */
export interface FlowControlTexts {
  /** `below` is added where the meter shows less than there can be: `{mlPerMin}`. */
  readonly signal_lost: {
    readonly manual: string;
    readonly starting: string;
    readonly other: string;
    readonly below: string;
  };
  readonly signal_back: string;
  readonly stopped: string;
  readonly started: string;
  readonly start_refused: Readonly<Record<NonNullable<FlowControlEvent['why']>, string>>;
  /** `{parameter}`: what could not be read. */
  readonly input_unread: string;
  readonly to_manual: string;
  readonly to_automatic: string;
  readonly viscosity_outside: string;
  readonly viscosity_inside: string;
  readonly oscillation: string;
  readonly oscillation_ended: string;
  readonly off_setpoint: string;
  readonly at_setpoint: string;
  readonly signal_frozen: string;
  readonly signal_frozen_ended: string;
  readonly speed_at_limit: string;
  readonly speed_off_limit: string;
  readonly no_flow: string;
  readonly no_flow_ended: string;
}

/** The sentences in English. */
export const flowControlTexts: FlowControlTexts = {
  signal_lost: {
    manual: 'The flow signal is lost; the speed is set by hand.',
    starting: 'There is no flow signal: the pump is not started.',
    other: 'The flow signal is lost: speed held at {percent} %.',
    below: 'The meter shows {mlPerMin} mL/min: its wire is broken, or it is wired or piped backwards.',
  },
  signal_back: 'The flow signal is back.',
  stopped: 'The pump has been stopped, by hand or because its drive is not ready, and stays so until it is started.',
  started: 'The pump starts.',
  start_refused: {
    no_signal:
      'There is no flow signal: the pump is not started. Unless it was stopped, it starts by itself when there is one.',
    too_thick:
      'The oil is thicker than the inlet takes: the pump is not started. Unless it was stopped, it starts by itself ' +
      'when the oil is thinner.',
    not_ready: 'The drive is not ready: the pump is not started.',
  },
  input_unread: 'The pump has been stopped; {parameter} of the same step could not be read.',
  to_manual: 'The speed is set by hand.',
  to_automatic: 'The speed is set by the flow.',
  viscosity_outside: 'The viscosity lies outside the commissioning points: the outer one is used.',
  viscosity_inside: 'The viscosity lies within the commissioning points again.',
  oscillation:
    'The flow swings around the setpoint. If its signal is noisy, take the mean of more samples for each step: a ' +
    'light filter does not help. If not, lower the gain, or work the settings out anew for this pump.',
  oscillation_ended: 'The flow no longer swings.',
  off_setpoint:
    'The flow stays off the setpoint at a speed of {percent} %: the line is shut, or inlet, pump or flow meter is at ' +
    'fault. First stop the pump, lock it out, and release all pressure, including accumulators. Then look for it.',
  at_setpoint: 'The flow is at the setpoint again.',
  signal_frozen:
    'The flow signal has not moved although the speed has: the meter stands still, the line is shut, or the pump ' +
    'starves. The speed goes back to where the signal last moved. First stop the pump, lock it out, and release all ' +
    'pressure, including accumulators. Then look for it.',
  signal_frozen_ended: 'The flow signal moves again, or the pump stands.',
  speed_at_limit:
    'The speed has stood at its limit of {percent} % for long: the pump has nothing left to hold the flow with. The ' +
    'line may be shut or off, or inlet, pump, drive or flow meter at fault. First stop the pump, lock it out, and ' +
    'release all pressure, including accumulators. Then look for it.',
  speed_off_limit: 'The speed is off its limit again.',
  no_flow:
    'The pump runs at {percent} % by hand, and for long no oil flows: it runs dry, the line is shut, or the meter is ' +
    'at fault. First stop the pump, lock it out, and release all pressure, including accumulators. Then look for it.',
  no_flow_ended: 'Oil flows again, or the speed is no longer set by hand.',
};

/**
 * An event in words.
 *
 * @param texts the sentences of another language
 *
 * @example
 * ```ts
 * import { flowControlText } from 'motescale/sampling';
 * flowControlText({ event: 'signal_lost', mode: 'holding', percent: 31 });
 * // => 'The flow signal is lost: speed held at 31 %.'
 * ```
 */
export function flowControlText(event: FlowControlEvent, texts: FlowControlTexts = flowControlTexts): string {
  requireObject(event, 'event', 'an event of advanceFlowControl', [
    'event',
    'mode',
    'percent',
    'mlPerMin',
    'why',
    'parameter',
  ]);
  requireLike(texts, flowControlTexts, 'texts');
  const word = requireOneOf(event.event, 'event.event', Object.keys(flowControlTexts) as Word[]);
  const percent = requireFinite(event.percent, 'event.percent');
  if (word === 'start_refused') return texts[word][requireOneOf(event.why, 'event.why', startRefusals)];
  if (word === 'input_unread')
    return texts[word].replace('{parameter}', () => requireText(event.parameter, 'event.parameter'));
  if (word !== 'signal_lost') return texts[word].replace('{percent}', shown(percent));
  const mode = requireOneOf(event.mode, 'event.mode', flowModes);
  const which = mode === 'manual' || mode === 'starting' ? mode : 'other';
  const lost = texts.signal_lost[which].replace('{percent}', shown(percent));
  if (event.mlPerMin === undefined) return lost;
  const mlPerMin = requireFinite(event.mlPerMin, 'event.mlPerMin');
  return `${lost} ${texts.signal_lost.below.replace('{mlPerMin}', shown(mlPerMin))}`;
}
