/**
 * What a monitor does with one reading: assess, classify, hand to the alarms and the followed figures, or tell why not.
 */

import { nameOfState } from '../alarm/alarmState.ts';
import { isBeyondSetpoint } from '../alarm/signal.ts';
import { assess, checkFigures, sameAsBefore } from '../judging/assess.ts';
import { classesBeyond, codeVerdicts, inTarget } from '../judging/codeVerdict.ts';
import { figureOf } from '../judging/figures.ts';
import type { CodeVerdict } from '../judging/types.ts';
import type { TimedReading } from '../reading/reading.ts';
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

/** Takes a reading whose time has been checked. */
export function takeReading(config: MonitorConfig, state: MonitorState, reading: TimedReading): Taken {
  checkFigures(reading);
  const inOrder = comesInOrder(state, reading);
  const same = inOrder ? sameAsBefore(state.same, reading) : state.same;
  // of a reading out of order nothing is remembered that it would stand beside
  const repeats = inOrder ? { same: same.count, known: state.counted.inOrder + 1 } : { same: 1, known: 1 };
  const assessment = assess(config.limits, reading, repeats);
  const arrival = arrivalOf(state, reading);
  const rising = assessment.findings.some((finding) => finding.code === 'counts_rise_with_size');
  const codes = rising ? noCodes(config) : codeVerdicts(config.codes, reading);
  const usable = assessment.quality !== 'bad';
  const figures = (config.alarms ?? []).map((alarm) => figureOfAlarm(config, alarm, reading, codes));
  const events: MonitorEvent[] = [];
  let next: MonitorState;
  if (inOrder) {
    const { quality } = assessment;
    next = takeInOrder(config, state, { reading, quality, figures, recent: arrival.recent, same }, events);
  } else {
    next = takeOutOfOrder(config, state, { reading, usable, figures }, arrival, events);
  }
  const verdict: Verdict = {
    time: reading.time,
    arrival: arrival.kind,
    quality: assessment.quality,
    findings: assessment.findings,
    unchecked: assessment.unchecked,
    codes,
    inTarget: usable ? inTarget(codes) : null,
    alarms: next.alarms.map((alarm, i) => ({
      id: alarm.id,
      state: nameOfState(alarm.state),
      judged: usable && inOrder && figures[i] !== null,
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
    readonly quality: Verdict['quality'];
    readonly figures: readonly (number | null)[];
    readonly recent: MonitorState['recent'];
    readonly same: MonitorState['same'];
  },
  events: MonitorEvent[],
): MonitorState {
  const { reading, quality, figures, recent, same } = taken;
  const time = laterOf(state.time, reading.time);
  const passed = passTime(config, state, time, events, (i) => ({
    time,
    value: figures[i] as number | null,
    quality,
  }));
  const { alarms } = passed;
  const { inOrder, bad, late, tooLate, repeated } = passed.counted;
  const usable = quality !== 'bad';
  const counted = { inOrder: inOrder + 1, bad: usable ? bad : bad + 1, late, tooLate, repeated };
  if (usable && passed.stale) events.push({ time, event: 'readings_restored' });
  const followed = usable ? followEach(config, passed.followed, reading, time, () => true) : passed.followed;
  const heard = usable ? time : passed.heard;
  const stale = usable ? false : passed.stale;
  return { version: 1, time, recent, same, counted, heard, stale, alarms, followed };
}

function takeOutOfOrder(
  config: MonitorConfig,
  state: MonitorState,
  taken: { readonly reading: TimedReading; readonly usable: boolean; readonly figures: readonly (number | null)[] },
  arrival: ReturnType<typeof arrivalOf>,
  events: MonitorEvent[],
): MonitorState {
  const { reading, usable, figures } = taken;
  const { counted } = state;
  const time = state.time ?? reading.time;
  if (arrival.kind === 'repeated') {
    events.push({ time, event: arrival.contradicts ? 'contradicted' : 'repeated', reading: reading.time });
    return { ...state, counted: { ...counted, repeated: counted.repeated + 1 } };
  }
  const beyond: string[] = [];
  const entered: string[] = [];
  (config.alarms ?? []).forEach((alarm, i) => {
    const figure = usable ? (figures[i] ?? null) : null;
    if (figure !== null && isBeyondSetpoint(asFigureAlarm(alarm), figure)) beyond.push(alarm.id);
  });
  if (arrival.kind === 'too late') {
    events.push({ time, event: 'too_late', reading: reading.time, beyond, followed: entered });
    return { ...state, counted: { ...counted, tooLate: counted.tooLate + 1 } };
  }
  const followed = followEach(config, state.followed, reading, reading.time, (follow, { open }) => {
    const enters = usable && open !== null && blockOf(follow, reading.time) === open.block;
    if (enters && figureOf(follow.figure, reading) !== null) entered.push(follow.id);
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
  time: number,
  enters: (follow: FollowedFigure, state: FollowedState) => boolean,
): FollowedState[] {
  return states.map((one, i) => {
    const follow = (config.follow as readonly FollowedFigure[])[i] as FollowedFigure;
    const value = enters(follow, one) ? figureOf(follow.figure, reading) : null;
    return value === null ? one : addToBlock(follow, one, value, time);
  });
}

function figureOfAlarm(
  config: MonitorConfig,
  alarm: MonitorAlarm,
  reading: TimedReading,
  codes: readonly CodeVerdict[],
): number | null {
  return 'code' in alarm.figure
    ? classesBeyond(config.codes, codes, alarm.figure.code, (alarm as CodeAlarm).setpoint)
    : figureOf(alarm.figure, reading);
}

function noCodes(config: MonitorConfig): CodeVerdict[] {
  const reason = 'counts rise with size';
  return config.codes.map(({ table, target }) => {
    const asked = target === undefined ? {} : { target };
    const { id, standard = id } = table;
    return { table: id, standard, text: null, classification: null, reason, ...asked, outcome: null };
  });
}
