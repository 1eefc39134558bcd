/**
 * What a monitor does with one reading: assess, classify, hand to the alarms and the followed figures, or tell why not.
 */
import { nameOfState } from '../alarm/memory.ts';
import { isBeyondSetpoint, isDecided } from '../alarm/signal.ts';
import type { Step } from '../alarm/step.ts';
import { iso4406 } from '../codes/tables/iso4406.ts';
import { type Margins, outcomeOf } from '../codes/targetOutcome.ts';
import type { CumulativeCounts } from '../counts/types.ts';
import { assessArrived } from '../judging/assess.ts';
import { classesBeyond, figureBeyond } from '../judging/codePlan.ts';
import { codeVerdicts, inTarget } from '../judging/codeVerdict.ts';
import { figureOf } from '../judging/figures.ts';
import { type Judged, withLiveSizes } from '../judging/liveSizes.ts';
import { withSame1 } from '../judging/same1.ts';
import type { CodeVerdict, MonitorFigure, QualifiedFigure } from '../judging/types.ts';
import { asRemembered } from '../reading/atRest.ts';
import type { OtherFigure, Quality, TimedReading } from '../reading/reading.ts';
import { advanceRepeats, isSizedAnew, noRepeats, type Repeats } from '../reading/remembered/repeats.ts';
import { figureNames } from '../reading/rules.ts';
import { leapTeaches, longestUsual, usualAfter } from '../state/usual.ts';
import type { Writable } from '../state/writable.ts';
import { type Come, comeOf, noneRecent, type Recent, withReading } from './clock/arrivals.ts';
import { asideOf, decide, withAside } from './clock/aside.ts';
import { judgeReading, jumpOf, leastLag } from './clock/clock.ts';
import { forgetOddFirst } from './clock/firstInterval.ts';
import { lagShown } from './clock/momentClock.ts';
import { floorOf } from './fewest.ts';
import { noteFindings } from './findings.ts';
import { addLate, addToBlocks, figuresFollowed, trendsOf } from './followed/figures.ts';
import { type Draft, passTime } from './passing.ts';
import { withProbabilities } from './probability.ts';
import { noteQualities } from './quality.ts';
import { tellsTarget, unheardMs } from './targets.ts';
import type {
  AlarmWatch,
  Arrival,
  ArrivalEvent,
  Arrivals,
  ClockDoubt,
  MonitorEvent,
  MonitorState,
  PreparedMonitor,
  Verdict,
  WatchedAlarm,
} from './types.ts';

/** All that is known of a reading before anything is moved by it. */
interface Known extends Judged {
  readonly codes: readonly CodeVerdict[];
  /** What alarms and followed figures take of it: of counts that are bad for some frozen sizes, the others. */
  readonly live: Judged;
  readonly liveCodes: readonly CodeVerdict[];
  /** By alarm the figure that it judges; null where there is none to be relied on, or it is undecided. */
  readonly figures: readonly (number | null)[];
  /** By alarm: the figure can be relied on, and does not tell on which side of the setpoint it is. */
  readonly undecided: readonly (number | undefined)[];
}

interface Taken {
  readonly state: MonitorState;
  readonly verdict: Verdict;
}

/** Takes a reading that has passed the gate. */
export function takeReading(
  prepared: PreparedMonitor,
  before: MonitorState,
  reading: TimedReading,
  events: MonitorEvent[],
): Taken {
  const come = comeOf(before.recent ?? noneRecent, reading);
  // a reading that is there already shows nothing of the clock
  if (come.kind === 'repeated' && !come.contradicts) return takeOutOfOrder(prepared, before, reading, come, events);
  const judged = judgeReading(prepared, before, reading);
  if (judged.move === 'aside') return takeAside(prepared, before, reading, judged.doubt, come, events);
  const decided = decide(prepared, before, judged, reading.time, events);
  const lagMs = lagShown(before, reading, judged.move === 'set');
  const state = lagMs === undefined ? decided : { ...decided, lagMs };
  const now = judged.move === 'set' ? comeOf(state.recent ?? noneRecent, reading) : come;
  return now.kind === 'in_order'
    ? takeInOrder(prepared, state, reading, now, events)
    : takeOutOfOrder(prepared, state, reading, now, events);
}

function know(
  prepared: PreparedMonitor,
  { alarms: watched }: MonitorState,
  reading: TimedReading,
  repeats: Repeats | null,
): Known {
  const assessment = assessArrived(prepared.limits, reading, repeats, prepared.codes, prepared.needed);
  const codes = withProbabilities(prepared.codes, reading, codeVerdicts(prepared.codes, reading));
  const live = withLiveSizes({ reading, assessment });
  const liveCodes = live.reading === reading ? codes : codeVerdicts(prepared.codes, live.reading);
  const { alarms } = prepared;
  const figures: (number | null)[] = [];
  const undecided: (number | undefined)[] = [];
  for (let i = 0; i < alarms.length; i += 1) {
    const watch = alarms[i] as AlarmWatch;
    const figure = figureOfAlarm(prepared, watch, live, liveCodes);
    const value = figure === null || figure.quality === 'bad' ? null : figure.value;
    const active = (watched[i] as WatchedAlarm).active === true;
    const least = active || watch.plan.type !== 'high' ? value : (figure?.downTo ?? value);
    const decides = value === null || isDecided(watch.plan, active, least as number, figure?.upTo ?? value);
    figures.push(decides ? value : null);
    undecided.push(decides ? undefined : (value as number));
  }
  return { reading, assessment, codes, live, liveCodes, figures, undecided };
}

function figureOfAlarm(
  prepared: PreparedMonitor,
  { figure, onCode }: AlarmWatch,
  { reading, assessment }: Judged,
  codes: readonly CodeVerdict[],
): QualifiedFigure | null {
  if (onCode === null) return figureOf(figure as MonitorFigure, reading, assessment, prepared.limits);
  const { place, wanted } = onCode;
  const { code } = codes[place] as CodeVerdict;
  if (code === null) return null;
  const { table } = prepared.codes[place] as PreparedMonitor['codes'][number];
  const least: Margins = [];
  const value = classesBeyond(outcomeOf(table, wanted, code.parts, reading.counts, least), least);
  if (value === null) return null;
  const quality = assessment.figureQualities.counts as Quality;
  return figureBeyond(table, wanted, code, reading.counts, value, quality);
}

/** What a reading tells an alarm. */
function stepOfAlarm(prepared: PreparedMonitor, known: Known, i: number, unheard: number): Step {
  const { reading, liveCodes } = known;
  const value = usableAt(known, i);
  const { onCode, figure, fewest } = prepared.alarms[i] as AlarmWatch;
  const code = onCode === null ? null : (liveCodes[onCode.place] as CodeVerdict).text;
  const floor = fewest === null ? undefined : floorOf(known.live.reading, figure as MonitorFigure, fewest);
  const undecided = known.undecided[i];
  const unheardMs = value === null && undecided === undefined ? unheard : Infinity;
  return { value, floor, undecided, taken: reading.time, mode: reading.mode, code, unheardMs };
}

function takeInOrder(
  prepared: PreparedMonitor,
  state: MonitorState,
  reading: TimedReading,
  { print }: Come,
  events: MonitorEvent[],
): Taken {
  const time = state.time === undefined ? reading.time : Math.max(state.time, reading.time);
  const earlier = withSame1(state.repeats ?? noRepeats, reading);
  const flowed = asRemembered(reading, prepared.limits, earlier);
  const repeats = advanceRepeats(earlier, flowed, state.usualMs ?? null);
  const known = know(prepared, state, reading, repeats);
  const { assessment, codes, live } = known;
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
  // written out: to spread them slows a step
  next.arrivals = {
    inOrder: arrivals.inOrder + 1,
    bad: assessment.quality === 'bad' ? arrivals.bad + 1 : arrivals.bad,
    late: arrivals.late,
    tooLate: arrivals.tooLate,
    repeated: arrivals.repeated,
    setAside: arrivals.setAside,
  };
  forgetOddFirst(next);
  if (isUsable(live)) {
    if (next.stale === true) {
      events.push({ time, event: 'readings_restored' });
      delete next.stale;
    }
    next.heard = time;
  }
  if (reading.receivedAt !== undefined) next.receivedAt = reading.receivedAt;
  else if (next.receivedAt !== undefined) delete next.receivedAt;
  if (reading.counts === undefined ? reading.codes !== undefined : good)
    noteUnused(prepared, next, known, time, events);
  const { counts } = reading;
  const isAnew = counts !== undefined && isSizedAnew(earlier, repeats) && readsSizes(prepared, counts);
  if (isAnew && !hasUnusedCounts(state)) events.push({ time, event: 'sizing_changed', reading: reading.time });
  const lag = leastLag(state.lagMs, reading.time, reading.receivedAt);
  if (lag !== undefined) next.lagMs = lag;
  noteQualities(prepared, next, reading, assessment, time, events);
  if (prepared.tell !== undefined) noteFindings(prepared, next, assessment, time, events);
  if (prepared.follow.length > 0) {
    const followed = figuresFollowed(prepared, live);
    next.followed = addToBlocks(prepared.follow, next.followed, followed, reading.time);
  }
  return { state: next, verdict: verdictOf(next, known, 'in_order', true) };
}

/** Whether an alarm or a followed figure is of a size that was counted. */
function readsSizes({ needed }: PreparedMonitor, { sizes }: CumulativeCounts): boolean {
  return needed.some((one) => typeof one === 'number' && sizes.indexOf(one) >= 0);
}

function hasUnusedCounts({ unused }: Pick<MonitorState, 'unused'>): boolean {
  return unused === 1 || unused === 2;
}

/** Tells once what nothing reads, counts and codes each by themselves: both may come in turn. */
function noteUnused(prepared: PreparedMonitor, next: Draft, known: Known, time: number, events: MonitorEvent[]): void {
  const { reading } = known;
  const unused = unusedIn(prepared, known);
  if (unused === null && next.unused === undefined) return;
  const told = { codes: next.unused === true || next.unused === 2, counts: hasUnusedCounts(next) };
  const kind = reading.counts === undefined ? 'codes' : 'counts';
  if (unused !== null && !told[kind]) events.push({ time, reading: reading.time, ...unused });
  told[kind] = unused !== null;
  if (told.codes || told.counts) next.unused = told.counts ? (told.codes ? 2 : 1) : true;
  else delete next.unused;
}

/** Counts that nothing of the configuration makes a figure of, or codes without counts that nothing reads. */
function unusedIn(
  prepared: PreparedMonitor,
  { reading: { counts, codes: given = {} }, codes }: Known,
): Pick<ArrivalEvent, 'event' | 'codes'> | null {
  if (counts === undefined) {
    const unused = unusedCodes(prepared, given);
    return unused.length === 0 ? null : { event: 'code_unused', codes: unused };
  }
  if (codes.some(({ code }) => code !== null)) return null;
  const reads = codes.length > 0 || prepared.needed.some((one) => typeof one === 'number');
  return readsSizes(prepared, counts) || !reads ? null : { event: 'counts_unused' };
}

/** The ids of codes in no table of the configuration; a scale number is also taken from a code of ISO 4406. */
function unusedCodes({ codes, alarms, follow }: PreparedMonitor, given: object): string[] {
  const figures: readonly { readonly figure: object }[] = [...alarms, ...follow];
  const takesScaleNumber = figures.some(({ figure }) => 'scaleNumberAt' in figure);
  return Object.keys(given).filter(
    (id) => !codes.some(({ table }) => table.id === id) && !(id === iso4406.id && takesScaleNumber),
  );
}

/** Whether there is a figure in it that can be relied on. */
function isUsable({ reading, assessment: { figureQualities } }: Judged): boolean {
  const isGood = (quality: Quality | undefined) => quality !== undefined && quality !== 'bad';
  if (figureNames.some((name) => isGood(figureQualities[name]))) return true;
  const { others = {} } = reading;
  return Object.keys(others).some((name) => {
    const other = others[name] as OtherFigure;
    return typeof other === 'number' || other.quality !== 'bad';
  });
}

function takeAside(
  prepared: PreparedMonitor,
  state: MonitorState,
  reading: TimedReading,
  doubt: ClockDoubt,
  { print }: Come,
  events: MonitorEvent[],
): Taken {
  const known = know(prepared, state, reading, null);
  const last = asideOf(prepared, known.live, known.figures, print);
  const beyond = beyondOf(prepared, known);
  events.push({ time: state.time as number, event: 'set_aside', reading: reading.time, beyond });
  const next = counted({ ...state, clock: withAside(doubt, last) }, 'setAside');
  return { state: next, verdict: verdictOf(next, known, 'set_aside', false) };
}

function takeOutOfOrder(
  prepared: PreparedMonitor,
  state: MonitorState,
  reading: TimedReading,
  { kind, contradicts, print }: Come,
  events: MonitorEvent[],
): Taken {
  // of a reading out of order nothing is remembered that it would stand beside
  const known = know(prepared, state, reading, null);
  const time = state.time ?? reading.time;
  if (kind === 'repeated') {
    const about = { time, reading: reading.time };
    if (contradicts) events.push({ ...about, event: 'contradicted', beyond: beyondOf(prepared, known) });
    else events.push({ ...about, event: 'repeated' });
    const next = counted(state, 'repeated');
    return { state: next, verdict: verdictOf(next, known, 'repeated', false) };
  }
  const isLate = kind === 'late';
  const news = state.alarms.map((alarm) => isNews(alarm, reading.time, isLate));
  const { follow } = prepared;
  const figures = figuresFollowed(prepared, known.live);
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
 * instrument. Of the very time as of which the alarm heard another, it is if it is no repetition.
 */
function isNews({ heard, value }: WatchedAlarm, taken: number, isKnownNew: boolean): boolean {
  return heard === undefined || taken > heard || (isKnownNew && value !== undefined && taken === heard);
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
  const isBeyond = ({ plan }: AlarmWatch, i: number) => {
    const value = usableAt(known, i);
    return value !== null && news[i] !== true && isBeyondSetpoint(plan, value);
  };
  return alarms.filter(isBeyond).map(({ plan }) => plan.id);
}

/** The figure of an alarm, if it can be relied on and decides. */
function usableAt({ figures }: Known, i: number): number | null {
  return figures[i] as number | null;
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
  const alarms = state.alarms.map((alarm, i) => {
    const isNew = typeof news === 'boolean' ? news : news[i] === true;
    return { id: alarm.id, state: nameOfState(alarm), judged: isNew && usableAt(known, i) !== null };
  });
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
