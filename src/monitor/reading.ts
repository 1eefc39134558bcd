/**
 * What a monitor does with one reading: assess, classify, hand to the alarms and the followed figures, or tell why not.
 */

import { nameOfState } from '../alarm/alarmState.ts';
import { isBeyondSetpoint } from '../alarm/signal.ts';
import { assessArrived } from '../judging/assess.ts';
import { classesBeyond, codeVerdicts, inTarget } from '../judging/codeVerdict.ts';
import { figureOf } from '../judging/figures.ts';
import type { CodeVerdict, QualifiedFigure } from '../judging/types.ts';
import type { Assessment, TimedReading } from '../reading/reading.ts';
import { wholeLimits } from '../reading/readingLimits.ts';
import { advanceRepeats } from '../reading/repeats.ts';
import { laterOf } from '../state/time.ts';
import { arrivalOf, comesInOrder } from './arrivals.ts';
import { asFigureAlarm } from './entries.ts';
import { addToBlock, blockOf } from './followed.ts';
import { passTime } from './passTime.ts';
import type {
  CodeAlarm,
  FollowedFigure,
  FollowedState,
  MonitorAlarm,
  MonitorConfig,
  MonitorEvent,
  MonitorState,
  Verdict,
} from './types.ts';

interface Taken {
  readonly state: MonitorState;
  readonly verdict: Verdict;
  readonly events: MonitorEvent[];
}

/** Takes a reading that has passed the gate. */
export function takeReading(config: MonitorConfig, state: MonitorState, reading: TimedReading): Taken {
  const inOrder = comesInOrder(state, reading);
  const repeats = inOrder ? advanceRepeats(state.repeats, reading) : state.repeats;
  // of a reading out of order nothing is remembered that it would stand beside
  const assessment = assessArrived(wholeLimits(config.limits), reading, inOrder ? repeats : null);
  const arrival = arrivalOf(state, reading);
  const codes = codeVerdicts(config.codes, reading);
  const usable = assessment.quality !== 'bad';
  const figures = (config.alarms ?? []).map((alarm) => figureOfAlarm(config, alarm, reading, assessment, codes));
  const events: MonitorEvent[] = [];
  let next: MonitorState;
  if (inOrder) {
    const { quality } = assessment;
    const taken = { reading, assessment, quality, figures, recent: arrival.recent, repeats };
    next = takeInOrder(config, state, taken, events);
  } else {
    next = takeOutOfOrder(config, state, { reading, assessment, figures }, arrival, events);
  }
  const verdict: Verdict = {
    time: reading.time,
    arrival: arrival.kind,
    quality: assessment.quality,
    figureQualities: assessment.figureQualities,
    findings: assessment.findings,
    unchecked: assessment.unchecked,
    codes,
    inTarget: usable ? inTarget(codes) : null,
    alarms: next.alarms.map((alarm, i) => ({
      id: alarm.id,
      state: nameOfState(alarm.state),
      judged: inOrder && isUsable(figures[i] ?? null),
    })),
    trends: next.followed.map(({ id, trend }) => ({ id, trend })),
  };
  return { state: next, verdict, events };
}

function takeInOrder(
  config: MonitorConfig,
  state: MonitorState,
  taken: {
    readonly reading: TimedReading;
    readonly assessment: Assessment;
    readonly quality: Verdict['quality'];
    readonly figures: readonly (QualifiedFigure | null)[];
    readonly recent: MonitorState['recent'];
    readonly repeats: MonitorState['repeats'];
  },
  events: MonitorEvent[],
): MonitorState {
  const { reading, assessment, quality, figures, recent, repeats } = taken;
  const time = laterOf(state.time, reading.time);
  const passed = passTime(config, state, time, events, (i) => ({
    time,
    value: figures[i]?.value ?? null,
    quality: figures[i]?.quality ?? quality,
  }));
  const { alarms } = passed;
  const { inOrder, bad, late, tooLate, repeated } = passed.counted;
  const usable = quality !== 'bad';
  const counted = { inOrder: inOrder + 1, bad: usable ? bad : bad + 1, late, tooLate, repeated };
  if (usable && passed.stale) events.push({ time, event: 'readings_restored' });
  const followed = followEach(config, passed.followed, reading, assessment, time, () => true);
  const heard = usable ? time : passed.heard;
  const stale = usable ? false : passed.stale;
  return { version: 1, time, recent, repeats, counted, heard, stale, alarms, followed };
}

function takeOutOfOrder(
  config: MonitorConfig,
  state: MonitorState,
  taken: {
    readonly reading: TimedReading;
    readonly assessment: Assessment;
    readonly figures: readonly (QualifiedFigure | null)[];
  },
  arrival: ReturnType<typeof arrivalOf>,
  events: MonitorEvent[],
): MonitorState {
  const { reading, assessment, figures } = taken;
  const { counted } = state;
  const time = state.time ?? reading.time;
  if (arrival.kind === 'repeated') {
    events.push({ time, event: arrival.contradicts ? 'contradicted' : 'repeated', reading: reading.time });
    return { ...state, counted: { ...counted, repeated: counted.repeated + 1 } };
  }
  const beyond: string[] = [];
  const entered: string[] = [];
  (config.alarms ?? []).forEach((alarm, i) => {
    const figure = figures[i] ?? null;
    if (isUsable(figure) && isBeyondSetpoint(asFigureAlarm(alarm), figure.value)) beyond.push(alarm.id);
  });
  if (arrival.kind === 'too late') {
    events.push({ time, event: 'too_late', reading: reading.time, beyond, followed: entered });
    return { ...state, counted: { ...counted, tooLate: counted.tooLate + 1 } };
  }
  const followed = followEach(config, state.followed, reading, assessment, reading.time, (follow, { open }) => {
    const enters = open !== null && blockOf(follow, reading.time) === open.block;
    if (enters && isUsable(figureOf(follow.figure, reading, assessment))) entered.push(follow.id);
    return enters;
  });
  events.push({ time, event: 'late', reading: reading.time, beyond, followed: entered });
  return { ...state, recent: arrival.recent, counted: { ...counted, late: counted.late + 1 }, followed };
}

/** Adds the reading's figures to the open blocks it may enter. */
function followEach(
  config: MonitorConfig,
  states: readonly FollowedState[],
  reading: TimedReading,
  assessment: Assessment,
  time: number,
  enters: (follow: FollowedFigure, state: FollowedState) => boolean,
): FollowedState[] {
  return states.map((one, i) => {
    const follow = (config.follow as readonly FollowedFigure[])[i] as FollowedFigure;
    const figure = enters(follow, one) ? figureOf(follow.figure, reading, assessment) : null;
    return isUsable(figure) ? addToBlock(follow, one, figure.value, time) : one;
  });
}

function figureOfAlarm(
  config: MonitorConfig,
  alarm: MonitorAlarm,
  reading: TimedReading,
  assessment: Assessment,
  codes: readonly CodeVerdict[],
): QualifiedFigure | null {
  if (!('code' in alarm.figure)) return figureOf(alarm.figure, reading, assessment);
  const value = classesBeyond(config.codes, codes, alarm.figure.code, (alarm as CodeAlarm).setpoint);
  return value === null ? null : { value, quality: assessment.figureQualities.counts ?? 'good' };
}

/** Whether there is a figure, and not a bad one. */
function isUsable(figure: QualifiedFigure | null): figure is QualifiedFigure {
  return figure !== null && figure.quality !== 'bad';
}
