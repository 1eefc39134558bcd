/** The door for the state of a monitor from outside: after a restart, an update, or a change of the configuration. */
import { droppedOf, withShelfEnd } from '../../alarm/resume.ts';
import { requireSoundMemory } from '../../alarm/state.ts';
import { motescaleError } from '../../errors.ts';
import { isRepeats } from '../../reading/remembered/repeatsState.ts';
import { figureNames } from '../../reading/rules.ts';
import { isVersion1, requireStateRule } from '../../rules/require.ts';
import { requireNoLater, requireNoneLater } from '../../state/noLater.ts';
import { requirePrepared } from '../../state/prepared.ts';
import { asideFor, isAside, withAside } from '../clock/aside.ts';
import { keepTold } from '../findings.ts';
import { requireBlocks, requireKept } from '../followed/figures.ts';
import type { ClockDoubt, FollowedState, MonitorEvent, MonitorState, PreparedMonitor, WatchedAlarm } from '../types.ts';
import { figureWords } from '../words.ts';
import { freshMonitorState, isSame } from './state.ts';
import { monitorStateRule } from './stateRules.ts';
import { stateOf1 } from './version1.ts';

/** What `resumeMonitor` returns. */
export interface ResumedMonitor {
  readonly state: MonitorState;
  /**
   * `dropped` for each alarm that stood, or whose signal was stale or that chattered, and that the configuration has
   * no longer, or has with another meaning; `shelved` for each whose shelf now ends sooner.
   */
  readonly events: MonitorEvent[];
  /**
   * Ids of alarms and followed figures that go on, that are gone, and that begin. One that begins anew is both dropped
   * and added.
   */
  readonly kept: string[];
  readonly dropped: string[];
  readonly added: string[];
}

/**
 * The state to go on from after it was saved: of this version of the library or of any before, under this configuration
 * or another.
 *
 * What is known of the readings goes on, and every alarm and followed figure that has the same id and means the same:
 * type, figure and `withinMs` of an alarm, figure and `blockMs` of a followed figure. Their order does not matter. The
 * others begin anew. Setpoints, deadbands, delays, targets, limits and tables may have changed: they apply from the
 * next input on, so an alarm that stands returns, or one is raised, at the next reading that says so, and nothing falls
 * due before the last input: a re-alarm that would have is reckoned from that. So may `restoredAfter`: what has been
 * counted counts, and where the new number is reached the next reading with the figure restores it. A shelf that lasts
 * longer than `longestShelfMs` after the last input ends then, and `shelved` tells until when. Findings told go on, but
 * for those that `tell` no longer names. The levels that a CUSUM learned in version 0.1.0 are not taken over: `dropped`
 * names them as `id.change`, and the detector of now learns from the means.
 *
 * @param state what a monitor's function returned once, through JSON or not; checked as a whole
 * @throws `not_prepared`; `bad_state` that names the member that is damaged
 *
 * @example
 * ```ts
 * import { iso4406 } from 'motescale/codes';
 * import { advanceMonitor, prepareMonitor, resumeMonitor, startMonitor } from 'motescale/monitor';
 * const hot = { id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 65 } as const;
 * const wet = { id: 'wet', type: 'high', figure: { quantity: 'waterSaturation' }, setpoint: 0.8 } as const;
 * const before = prepareMonitor({ codes: [{ table: iso4406 }], alarms: [hot] });
 * const { state } = advanceMonitor(before, startMonitor(before), { time: 0, celsius: 70 });
 * const saved = JSON.stringify(state);
 * const after = prepareMonitor({ codes: [{ table: iso4406 }], alarms: [wet] });
 * const { events, kept, dropped, added } = resumeMonitor(after, JSON.parse(saved));
 * events; // => [{ time: 0, alarm: 'hot', event: 'dropped', state: 'unacknowledged_alarm' }]
 * [kept, dropped, added]; // => [[], ['hot'], ['wet']]
 * ```
 */
export function resumeMonitor(prepared: PreparedMonitor, state: unknown): ResumedMonitor {
  requirePrepared(prepared, 'monitor', 'prepareMonitor');
  const dropped: string[] = [];
  let now = state as MonitorState;
  if (isVersion1(state)) now = stateOf1(prepared, state, dropped);
  requireStateRule(monitorStateRule(), now);
  requireSound(prepared, now);
  requireBlocks(prepared.follow, now.followed, now.time);
  const events: MonitorEvent[] = [];
  const kept: string[] = [];
  const added: string[] = [];
  const fresh = freshMonitorState(prepared);
  const alarms = takeOver(fresh.alarms, now.alarms, kept, added);
  const followed = takeOver(fresh.followed, now.followed, kept, added);
  for (const alarm of now.alarms) {
    if (alarms.some((one) => isSame(one, alarm))) continue;
    dropped.push(alarm.id);
    const gone = droppedOf(alarm, alarm.id, now.time ?? 0);
    if (gone !== null) events.push(gone);
  }
  for (const one of now.followed) if (!followed.some((other) => isSame(other, one))) dropped.push(one.id);
  const ended = alarms.map((alarm, i) => {
    const { plan } = prepared.alarms[i] as PreparedMonitor['alarms'][number];
    return withShelfEnd(plan, alarm, now.time ?? 0, events as never);
  });
  const next = withBad({ ...now, alarms: ended, followed }, prepared);
  keepTold(next, prepared);
  return { state: withClock(next, now), events, kept, dropped, added };
}

/**
 * Figures that are bad go on, but for those by names of one's own that nothing looks at now. Counts of readings do,
 * short of the number that the configuration asks for: the next one then restores.
 */
function withBad(state: MonitorState, { alarms, follow, restoredAfter = 1 }: PreparedMonitor): MonitorState {
  const { bad = [], restoring = [], ...rest } = state;
  const figures = (alarms as readonly { figure: object }[]).concat(follow).map(({ figure }) => figureWords(figure));
  const watched = (figureNames as readonly string[]).concat(figures);
  const goesOn = (figure: string): boolean => watched.indexOf(figure) >= 0;
  const stillBad = bad.filter(goesOn);
  const counts = restoring
    .filter(({ figure }) => restoredAfter > 1 && goesOn(figure))
    .map(({ figure, readings }) => ({ figure, readings: Math.min(readings, restoredAfter - 1) }));
  return {
    ...rest,
    ...(stillBad.length > 0 ? { bad: stillBad } : {}),
    ...(counts.length > 0 ? { restoring: counts } : {}),
  };
}

/** The figures of a reading set aside, in the order of the configuration. */
function withClock(next: MonitorState, before: MonitorState): MonitorState {
  const { clock } = before;
  const last = clock?.ahead?.last;
  return last === undefined ? next : { ...next, clock: withAside(clock as ClockDoubt, asideFor(last, before, next)) };
}

/** In the order of the configuration: those with the same id and meaning go on, the others begin. */
function takeOver<Entry extends WatchedAlarm | FollowedState>(
  wanted: readonly Entry[],
  entries: readonly Entry[],
  kept: string[],
  added: string[],
): Entry[] {
  return wanted.map((entry) => {
    const earlier = entries.filter((one) => isSame(one, entry))[0];
    (earlier === undefined ? added : kept).push(entry.id);
    return earlier ?? entry;
  });
}

/** What rules of single members cannot say. */
function requireSound({ alarms: watches }: PreparedMonitor, state: MonitorState): void {
  const { time, recent = [], repeats, bad = [], restoring = [], alarms, followed, clock } = state;
  let before = -Infinity;
  recent.forEach(([at, print], i) => {
    const sound = at !== null && at >= before && (print === null || print >= 0);
    const expected = 'times, oldest first, and fingerprints, as a state keeps them';
    if (!sound) throw motescaleError('bad_state', `state.recent[${i}]`, at, expected);
    requireNoLater(`state.recent[${i}]`, at, time, 'time');
    before = at;
  });
  if (repeats !== undefined && !isRepeats(repeats))
    throw motescaleError('bad_state', 'state.repeats', repeats, 'counts, as a state keeps them');
  requireNoneLater(state, 'state', time);
  restoring.forEach(({ figure }, i) => {
    if (bad.indexOf(figure) < 0 || restoring.some((other, k) => k < i && other.figure === figure))
      throw motescaleError('bad_state', `state.restoring[${i}].figure`, figure, 'each figure once, if it is bad');
  });
  const last = clock?.ahead?.last;
  if (last !== undefined && !isAside(last))
    throw motescaleError('bad_state', 'state.clock.ahead.last', last, 'figures, as a state keeps them');
  alarms.forEach((alarm, i) => {
    const [watch] = watches.filter(({ plan }) => isSame(plan, alarm));
    requireSoundMemory(alarm, `state.alarms[${i}]`, time, watch?.plan);
  });
  requireKept(followed);
  requireOnce('state.alarms', alarms);
  requireOnce('state.followed', followed);
  requireOnce('state.targets', state.targets ?? []);
}

function requireOnce(parameter: string, entries: readonly { readonly id: string }[]): void {
  entries.forEach(({ id }, i) => {
    if (entries.some((other, k) => k < i && other.id === id))
      throw motescaleError('bad_state', `${parameter}[${i}].id`, id, 'each id once');
  });
}
