/**
 * What a monitor does with one reading: assess, classify, hand to the alarms and the followed figures, or tell why not.
 */
import { nameOfState } from '../alarm/memory.ts';
import { isBeyondSetpoint } from '../alarm/signal.ts';
import type { Step } from '../alarm/step.ts';
import { iso4406 } from '../codes/tables/iso4406.ts';
import { leastMargins, outcomeOf } from '../codes/targetOutcome.ts';
import { assessArrived } from '../judging/assess.ts';
import { classesBeyond } from '../judging/codePlan.ts';
import { codeVerdicts, inTarget } from '../judging/codeVerdict.ts';
import { figureOf, usable } from '../judging/figures.ts';
import type { CodeVerdict, QualifiedFigure } from '../judging/types.ts';
import { asItFlowed } from '../reading/atRest.ts';
import type { Assessment, FigureName, OtherFigure, Quality, TimedReading } from '../reading/reading.ts';
import { advanceRepeats, noRepeats, type Repeats } from '../reading/repeats.ts';
import { figureNames } from '../reading/rules.ts';
import { leapTeaches, longestUsual, usualAfter } from '../state/usual.ts';
import type { Writable } from '../state/writable.ts';
import { type Come, comeOf, noneRecent, type Recent, withReading } from './arrivals.ts';
import { asideOf, decide, withAside } from './aside.ts';
import { isDoubted, judgeReading, jumpOf, leastLag } from './clock.ts';
import { forgetOddFirst } from './firstInterval.ts';
import { addLate, addToBlocks, figuresFollowed, trendsOf } from './followed/figures.ts';
import { lagShown } from './momentClock.ts';
import { passTime } from './passing.ts';
import { withProbabilities } from './probability.ts';
import { noteQualities } from './quality.ts';
import { tellsTarget, unheardMs } from './targets.ts';
import type {
  AlarmWatch,
  Arrival,
  Arrivals,
  ClockDoubt,
  MonitorEvent,
  MonitorState,
  PreparedMonitor,
  Verdict,
  WatchedAlarm,
} from './types.ts';

/** All that is known of a reading before anything is moved by it. */
interface Known {
  readonly reading: TimedReading;
  readonly assessment: Assessment;
  readonly codes: readonly CodeVerdict[];
  /** By alarm; null where the reading lacks the figure. */
  readonly figures: readonly (QualifiedFigure | null)[];
}

/** Takes a reading that has passed the gate. */
export function takeReading(
  prepared: PreparedMonitor,
  before: MonitorState,
  reading: TimedReading,
  events: MonitorEvent[],
): { state: MonitorState; verdict: Verdict } {
  const come = comeOf(before.recent ?? noneRecent, reading);
  // a reading that is there already shows nothing of the clock
  if (come.kind === 'repeated' && !come.contradicts) return takeOutOfOrder(prepared, before, reading, come, events);
  const judged = judgeReading(prepared, before, reading);
  if (judged.move === 'aside') return takeAside(prepared, before, reading, judged.doubt, come, events);
  const decided = isDoubted(judged)
    ? { ...before, clock: judged.doubt }
    : decide(prepared, before, judged, reading.time, events);
  const lagMs = lagShown(before, reading, judged.move === 'set');
  const state = lagMs === undefined ? decided : { ...decided, lagMs };
  const now = judged.move === 'set' ? comeOf(state.recent ?? noneRecent, reading) : come;
  return now.kind === 'in_order'
    ? takeInOrder(prepared, state, reading, now, events)
    : takeOutOfOrder(prepared, state, reading, now, events);
}

function know(prepared: PreparedMonitor, reading: TimedReading, repeats: Repeats | null): Known {
  const assessment = assessArrived(prepared.limits, reading, repeats, prepared.codes, prepared.needed);
  const codes = withProbabilities(prepared.codes, reading, codeVerdicts(prepared.codes, reading));
  const { alarms } = prepared;
  const figures: (QualifiedFigure | null)[] = [];
  for (let i = 0; i < alarms.length; i += 1)
    figures.push(figureOfAlarm(prepared, alarms[i] as AlarmWatch, reading, assessment, codes));
  return { reading, assessment, codes, figures };
}

function figureOfAlarm(
  prepared: PreparedMonitor,
  { figure, onCode }: AlarmWatch,
  reading: TimedReading,
  assessment: Assessment,
  codes: readonly CodeVerdict[],
): QualifiedFigure | null {
  if (onCode === null) return figureOf(figure as never, reading, assessment);
  const { place, wanted } = onCode;
  const { code } = codes[place] as CodeVerdict;
  if (code === null) return null;
  const { table } = prepared.codes[place] as PreparedMonitor['codes'][number];
  const { counts } = reading;
  const outcome = outcomeOf(table, wanted, code.parts, counts);
  const value = classesBeyond(outcome, leastMargins(table, wanted, code.parts, counts));
  return value === null ? null : { value, quality: assessment.figureQualities.counts as Quality };
}

/** What a reading tells an alarm. */
function stepOfAlarm(prepared: PreparedMonitor, known: Known, i: number, unheard: number): Step {
  const { reading, codes } = known;
  const value = usableAt(known, i);
  const { onCode } = prepared.alarms[i] as AlarmWatch;
  const code = onCode === null ? null : (codes[onCode.place] as CodeVerdict).text;
  const unheardMs = value === null ? unheard : Infinity;
  return { value, taken: reading.time, mode: reading.mode, code, unheardMs };
}

function takeInOrder(
  prepared: PreparedMonitor,
  state: MonitorState,
  reading: TimedReading,
  { print }: Come,
  events: MonitorEvent[],
): { state: MonitorState; verdict: Verdict } {
  const time = state.time === undefined ? reading.time : Math.max(state.time, reading.time);
  const earlier = state.repeats ?? noRepeats;
  const flowed = asItFlowed(reading, prepared.limits, earlier);
  const repeats = advanceRepeats(earlier, flowed, state.usualMs ?? null);
  const known = know(prepared, reading, repeats);
  const { assessment, codes } = known;
  const unheard = unheardMs(state);
  const stepOf = (i: number) => stepOfAlarm(prepared, known, i, unheard);
  const good = assessment.figureQualities.counts !== 'bad';
  const tells = (place: number) => good && tellsTarget(codes[place] as CodeVerdict);
  const next = passTime(prepared, state, time, events, stepOf, tells, reading.time);
  const newest = state.recent?.[state.recent.length - 1];
  const interval = newest === undefined ? 0 : reading.time - newest[0];
  // a leap of the clock is no interval
  const taught = Math.min(interval, interval > jumpOf(prepared, state) ? leapTeaches : longestUsual);
  const usual = usualAfter(state.usualMs ?? null, taught);
  if (usual !== null) next.usualMs = usual;
  next.recent = withReading(state.recent ?? noneRecent, reading.time, print);
  next.repeats = repeats;
  const { arrivals } = state;
  next.arrivals = {
    inOrder: arrivals.inOrder + 1,
    bad: assessment.quality === 'bad' ? arrivals.bad + 1 : arrivals.bad,
    late: arrivals.late,
    tooLate: arrivals.tooLate,
    repeated: arrivals.repeated,
    setAside: arrivals.setAside,
  };
  forgetOddFirst(next);
  if (isUsable(reading, assessment)) {
    if (next.stale === true) {
      events.push({ time, event: 'readings_restored' });
      delete next.stale;
    }
    next.heard = time;
  }
  if (reading.receivedAt !== undefined) next.receivedAt = reading.receivedAt;
  else if (next.receivedAt !== undefined) delete next.receivedAt;
  if (reading.codes !== undefined && reading.counts === undefined) {
    const unused = unusedCodes(prepared, reading.codes);
    if (unused.length > 0 && next.unused !== true)
      events.push({ time, event: 'code_unused', reading: reading.time, codes: unused });
    if (unused.length > 0) next.unused = true;
    else delete next.unused;
  }
  const lag = leastLag(state.lagMs, reading.time, reading.receivedAt);
  if (lag !== undefined) next.lagMs = lag;
  noteQualities(prepared, next, reading, assessment, time, events);
  if (prepared.follow.length > 0) {
    const followed = figuresFollowed(prepared.follow, reading, assessment);
    next.followed = addToBlocks(prepared.follow, next.followed, followed, reading.time);
  }
  return { state: next, verdict: verdictOf(next, known, 'in_order', true) };
}

/** The ids of codes in no table of the configuration; a scale number is also taken from a code of ISO 4406. */
function unusedCodes({ codes, alarms, follow }: PreparedMonitor, given: object): string[] {
  const takesScaleNumber = ({ figure }: { readonly figure: object }) => 'scaleNumberAt' in figure;
  return Object.keys(given).filter(
    (id) =>
      !codes.some(({ table }) => table.id === id) &&
      !(id === iso4406.id && (alarms.some(takesScaleNumber) || follow.some(takesScaleNumber))),
  );
}

/** Whether there is a figure in it that can be relied on. */
function isUsable(reading: TimedReading, { figureQualities }: Assessment): boolean {
  for (let i = 0; i < figureNames.length; i += 1) {
    const quality = figureQualities[figureNames[i] as FigureName];
    if (quality !== undefined && quality !== 'bad') return true;
  }
  const { others } = reading;
  if (others === undefined) return false;
  for (const name of Object.keys(others)) {
    const other = others[name] as OtherFigure;
    if (typeof other === 'number' || other.quality !== 'bad') return true;
  }
  return false;
}

function takeAside(
  prepared: PreparedMonitor,
  state: MonitorState,
  reading: TimedReading,
  doubt: ClockDoubt,
  { print }: Come,
  events: MonitorEvent[],
): { state: MonitorState; verdict: Verdict } {
  const known = know(prepared, reading, null);
  const last = asideOf(prepared, reading, known.assessment, known.figures, print);
  events.push({
    time: state.time as number,
    event: 'set_aside',
    reading: reading.time,
    beyond: beyondOf(prepared, known),
  });
  const next = counted({ ...state, clock: withAside(doubt, last) }, 'setAside');
  return { state: next, verdict: verdictOf(next, known, 'set_aside', false) };
}

function takeOutOfOrder(
  prepared: PreparedMonitor,
  state: MonitorState,
  reading: TimedReading,
  { kind, contradicts, print }: Come,
  events: MonitorEvent[],
): { state: MonitorState; verdict: Verdict } {
  // of a reading out of order nothing is remembered that it would stand beside
  const known = know(prepared, reading, null);
  const time = state.time ?? reading.time;
  if (kind === 'repeated') {
    const about = { time, reading: reading.time };
    events.push(
      contradicts
        ? { ...about, event: 'contradicted', beyond: beyondOf(prepared, known) }
        : { ...about, event: 'repeated' },
    );
    const next = counted(state, 'repeated');
    return { state: next, verdict: verdictOf(next, known, 'repeated', false) };
  }
  const isLate = kind === 'late';
  const news = state.alarms.map((alarm) => isNews(alarm, reading.time));
  const { follow } = prepared;
  const figures = figuresFollowed(follow, reading, known.assessment);
  const { followed, entered } = addLate(follow, state.followed, figures, reading.time, time, isLate);
  const beyond = beyondOf(prepared, known, news);
  events.push({ time, event: kind, reading: reading.time, beyond, followed: entered } as MonitorEvent);
  const later: Writable<MonitorState> = { ...counted(state, isLate ? 'late' : 'tooLate'), followed };
  if (isLate) later.recent = withReading(state.recent as Recent, reading.time, print);
  const next = judgeNews(prepared, later, known, news, events);
  return { state: next, verdict: verdictOf(next, known, kind, news) };
}

/**
 * Whether a reading was taken after an alarm last heard its figure, or began to wait for it: a bottle, or another
 * instrument.
 */
function isNews({ heard }: WatchedAlarm, taken: number): boolean {
  return heard === undefined || taken > heard;
}

/** What is news of a figure in a reading that is older than the last one: judged as of now, by when it was taken. */
function judgeNews(
  prepared: PreparedMonitor,
  state: MonitorState,
  known: Known,
  news: readonly boolean[],
  events: MonitorEvent[],
): MonitorState {
  const isJudged = (i: number) => news[i] === true && usableAt(known, i) !== null;
  if (!news.some((_, i) => isJudged(i))) return state;
  const stepOf = (i: number) => (isJudged(i) ? { ...stepOfAlarm(prepared, known, i, Infinity), mode: undefined } : {});
  return passTime(prepared, state, state.time as number, events, stepOf, null, known.reading.time);
}

function counted(state: MonitorState, kind: keyof Arrivals): MonitorState {
  return { ...state, arrivals: { ...state.arrivals, [kind]: state.arrivals[kind] + 1 } };
}

/**
 * The alarms of type high and low whose setpoint a reading lies beyond, by a figure that can be relied on, and that do
 * not judge it.
 */
function beyondOf({ alarms }: PreparedMonitor, known: Known, news: readonly boolean[] = []): string[] {
  const beyond: string[] = [];
  alarms.forEach(({ plan }, i) => {
    const value = usableAt(known, i);
    if (value !== null && news[i] !== true && isBeyondSetpoint(plan, value)) beyond.push(plan.id);
  });
  return beyond;
}

/** The figure of an alarm, if it can be relied on. */
function usableAt({ figures }: Known, i: number): number | null {
  return usable(figures[i] as QualifiedFigure | null);
}

/** The same verdict where time has passed after the reading. */
export function verdictAfter(verdict: Verdict, state: MonitorState): Verdict {
  const alarms = state.alarms.map((alarm) => ({ id: alarm.id, state: nameOfState(alarm), judged: false }));
  return { ...verdict, alarms, trends: trendsOf(state.followed) };
}

/** `news`: whether the figures are news to the alarms, all or each. */
function verdictOf(state: MonitorState, known: Known, arrival: Arrival, news: boolean | readonly boolean[]): Verdict {
  const { reading, assessment, codes } = known;
  const { quality, figureQualities, findings, unchecked } = assessment;
  const alarms: Verdict['alarms'][number][] = [];
  for (let i = 0; i < state.alarms.length; i += 1) {
    const alarm = state.alarms[i] as MonitorState['alarms'][number];
    const isNew = typeof news === 'boolean' ? news : news[i] === true;
    alarms.push({ id: alarm.id, state: nameOfState(alarm), judged: isNew && usableAt(known, i) !== null });
  }
  return {
    time: reading.time,
    arrival,
    quality,
    figureQualities,
    findings,
    unchecked,
    codes,
    inTarget: figureQualities.counts === 'bad' ? null : inTarget(codes),
    alarms,
    trends: trendsOf(state.followed),
  };
}
