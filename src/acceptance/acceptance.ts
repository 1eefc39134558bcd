/**
 * The proof that a flush or a fill is done: consecutive good readings at or better than target, over a least time and
 * volume.
 */
import type { TargetOutcome } from '../codes/targetOutcome.ts';
import { motescaleError } from '../errors.ts';
import { asRemembered } from '../reading/atRest.ts';
import { gateReading } from '../reading/gate.ts';
import { advanceRepeats, movedRepeats, noRepeats } from '../reading/remembered/repeats.ts';
import { requireTableIds } from '../reading/tableIds.ts';
import { requirePrepared } from '../state/prepared.ts';
import { type Judged, judge } from './judge.ts';
import { acceptanceReadingRule } from './readingRule.ts';
import { requireAcceptanceState } from './resume.ts';
import {
  addedBy,
  comesAgain,
  courseOf,
  extendRun,
  gapsAfter,
  isWanting,
  mayBeFrozen,
  oneMore,
  overlaps,
  recordOf,
  usualGap,
  wantingOf,
  whyRunEnds,
} from './run.ts';
import { isSeen, withSeen } from './seen.ts';
import type {
  AcceptanceEvent,
  AcceptanceReading,
  AcceptanceRecord,
  AcceptanceRestart,
  AcceptanceState,
  PreparedAcceptance,
} from './types.ts';

interface Step {
  readonly state: AcceptanceState;
  readonly events: AcceptanceEvent[];
}

/** So many are enough where the host's clock goes on: one may have been overtaken on its way. */
const timedThatTell = 2;
/** So many older readings in a row, each newer than the one before, show that the clock was set back. */
const olderThatTell = 3;

/**
 * Takes one reading into the proof, and returns the new state with what the reading did.
 *
 * - A good reading at or better than target at every size the target asks for counts. The proof is there when enough
 *   consecutive ones have counted, and cover enough time and volume. Good means the counts, or the code where there are
 *   none: doubt about another figure is none about these.
 * - A reading worse than target at a size ends the run, whatever its time and though it is bad: doubt never helps a
 *   proof. Not so where the oil counted was not that of the machine (no flow, a line not flushed, oil that stood).
 *   The next good one begins anew. Counts that are stuck end it too, since the readings before the one that tells were
 *   as frozen.
 * - Any other bad reading says nothing: it does not count and does not end the run. Nor does an uncertain one at or
 *   better than target, one that lacks a size of the target, or one not newer than the last. `not_counted` says why.
 * - A reading with fewer than 20 particles in all, at the smallest size counted, does not count: a counter that is
 *   dead, dark, dry or not connected gives a stray particle now and then (`few_in_all`). Of a code without counts that
 *   is each class the cleanest, or `>=` at its smallest size. Count a larger volume. For oil that clean, `limits: {
 *   qualities: { no_particles: 'good' } }` asks for none; nor does `stuckChance: null`.
 * - Time and volume count only between neighbouring readings that both count, and only over gaps that are not too long
 *   (`maxGapMs`): a night without flow, a pause or a step of the clock proves nothing. Without `maxGapMs` no gap counts
 *   that is longer than three usual ones; the first three are held against each other, and what a longer one had proved
 *   is taken back. Nor does time count in which the volume counter stands or leaps, or a volume beyond
 *   `mostLitresPerMin`. `unproved` says why. Three older readings, each newer than the one before, show a clock set
 *   back: the run ends, and the proof goes on with that clock. One of the last 32 that comes again is not newer, and
 *   shows nothing.
 * - A reading dated before the last worse one does not count (`before_worse`): a buffer may hand out old ones. Only
 *   `receivedAt` can show that a clock was set back and the reading is of now; without it begin a new proof.
 * - Where `limits.flushMl` is set, a reading counts once `flushedMl`, or the flow of the readings before it, shows that
 *   so much has passed (`flush_not_shown`).
 * - The run also ends when a `maxGapMs` of the configuration is exceeded between two readings that count, or the volume
 *   counter falls.
 * - A reading that shares more than half of its `measuringSeconds` with the last that counted is no reading of its own:
 *   its time and volume count, it does not. Nor does one that has the counts of the reading before, where chance would
 *   bring them less than every second time (`same_as_last`): one count that was read again. `stuckChance: null` asks
 *   for none of it. Of codes alone no one can tell: set `leastMs` to the time the counter takes for (`readings` - 1)
 *   counts or more.
 * - Of clean oil few particles are counted, which makes a reading uncertain. Where that is its only fault it counts all
 *   the same if the target is met even at the upper limit of the counting statistics (`codeInterval`, 0.95): for that
 *   the counts must be raw, with their volume. The record says how many counted so. Where the limit does not reach:
 *   count longer.
 *
 * Tries without end let worse oil pass: three readings of 2 mL, 1.1 times the limit of 20 per mL at one size, are
 * accepted within 12 readings in 18 % and within 144 in 94 %; of 10 mL in 1 and 10 %; five readings of 10 mL in none of
 * 400 and 0.3 % (simulated, docs/flush.md has more). Take a larger volume, more readings and few tries. **That is of
 * independent readings of an exact counter.** With one that is off by 9.5 % (sizes by 3 %) five of 10 mL at 1.1 times
 * the limit are accepted within 48 in 19 %, of any volume. Oil that wavers slowly passes far more often: five readings
 * of 10 mL, 1.1 times the limit, with a swing of 20 % and a correlation of 0.9 from one to the next, within 12 readings
 * in 32 %, within 144 in 98 %; at 1.3 times the limit in 7 and 61 %.
 *
 * A proof all of whose counts are equal waits for one more reading until they change, or until so many are enough to
 * tell that they are stuck. Codes alone never tell a frozen counter.
 *
 * The record also says what was not looked at (`run.unchecked`). Once accepted, it stands: further readings give
 * `after_acceptance`, worse ones `worse_after_acceptance`. A worse one from within the run that comes late gives
 * `contradicted`, and the record keeps the first such: then the oil was not shown to meet the target.
 *
 * The record shows that the oil sampled met the target, and no more: turbulence in every branch is to be shown
 * separately (ISO 23309). **The tap of a flush lies in the return, before the flushing filter** (common practice; ISO
 * 23309, from memory): behind it the count is smaller by the filtration ratio (ISO 16889), which proves the filter, and
 * dirty pipes are accepted. Whether the machine may run is decided by those who answer for it. The rule of n
 * consecutive readings is common practice; numbers, time and volume are the user's.
 *
 * @throws `not_prepared`; `bad_state` for a state of another configuration or version (see `resumeAcceptance`);
 * `missing_volume` where `leastLitres` is set and the reading has no `litres`; the errors of a reading.
 *
 * @example
 * ```ts
 * import { iso4406 } from 'motescale/codes';
 * import { cumulativeCounts } from 'motescale/counts';
 * import { advanceAcceptance, prepareAcceptance, startAcceptance } from 'motescale/acceptance';
 * const prepared = prepareAcceptance({ table: iso4406, target: '18/16/13', readings: 2, leastMs: 900000 });
 * const counts = cumulativeCounts({ 4: 18900, 6: 4020, 14: 330 }, { volumeMl: 10 });
 * const first = advanceAcceptance(prepared, startAcceptance(prepared), { time: 0, counts });
 * first.events[0]?.wanting; // => { readings: 1, ms: 900000, litres: 0 }
 * const more = cumulativeCounts({ 4: 18950, 6: 4007, 14: 341 }, { volumeMl: 10 });
 * const second = advanceAcceptance(prepared, first.state, { time: 900000, counts: more });
 * second.events[0]?.event; // => 'accepted'
 * second.state.accepted?.run.margins[0]; // => { column: '4', classes: 0 }
 * ```
 */
export function advanceAcceptance(
  prepared: PreparedAcceptance,
  state: AcceptanceState,
  reading: AcceptanceReading,
): { state: AcceptanceState; events: AcceptanceEvent[] } {
  requirePrepared(prepared, 'acceptance', 'prepareAcceptance');
  requireAcceptanceState(prepared, state);
  requireTableIds(gateReading(reading, 'reading', acceptanceReadingRule), prepared.tableIds, 'reading');
  if (prepared.leastLitres > 0 && reading.litres === undefined) {
    const expected = 'the volume counter in litres, since leastLitres is set';
    throw motescaleError('missing_volume', 'reading.litres', undefined, expected);
  }
  if (state.accepted !== undefined) {
    return takeAfter(state, state.accepted, reading, judge(prepared, reading, null));
  }
  const tried = withOneMore(state, reading);
  const seen = state.seen ?? '';
  if (isSeen(seen, reading)) return takeOlder(prepared, tried, reading, state.older);
  const known = { ...tried, seen: withSeen(seen, reading) };
  if (state.time === undefined || reading.time > state.time) return takeInOrder(prepared, known, reading);
  const { older } = state;
  const count = older !== undefined && reading.time > older.time ? older.count + 1 : 1;
  const came = state.receivedAt !== undefined && reading.receivedAt !== undefined;
  const isLater = came && (reading.receivedAt as number) > (state.receivedAt as number);
  const setBack = came ? isLater && count >= timedThatTell : count >= olderThatTell;
  if (setBack && reading.time < state.time) return setClock(prepared, known, reading);
  return takeOlder(prepared, known, reading, { count, time: reading.time });
}

function told(
  { time }: AcceptanceReading,
  { text, quality, outcome }: Judged,
  event: AcceptanceEvent['event'],
): AcceptanceEvent {
  return { time, event, text, quality, outcome };
}

function takeInOrder(prepared: PreparedAcceptance, state: AcceptanceState, reading: AcceptanceReading): Step {
  const earlier = state.repeats ?? noRepeats;
  const flowed = asRemembered(reading, prepared.limits, earlier);
  const repeats = advanceRepeats(earlier, flowed, usualGap(state.gaps ?? []));
  const found = judge(prepared, reading, repeats);
  const judged: Judged = found.why === null && isOld(state, reading) ? { ...found, why: 'before_worse' } : found;
  const events: AcceptanceEvent[] = [];
  const ended = whyRunEnds(prepared, state, reading, judged);
  const kept = ended === null ? state : endRun(state, reading, judged, ended, events);
  const added = addedBy(prepared, kept, reading);
  // the volume counter of a bad reading is trusted no more than its counts
  const litres = judged.quality === 'bad' ? kept.litres : (reading.litres ?? kept.litres);
  const { older: _older, receivedAt: _received, ...before } = kept;
  const next: AcceptanceState = {
    ...withWorse(before, reading, judged),
    time: reading.time,
    gaps: gapsAfter(state, reading.time),
    repeats,
    ...(reading.receivedAt === undefined ? {} : { receivedAt: reading.receivedAt }),
    ...(litres === undefined ? {} : { litres }),
  };
  if (judged.why !== null) return { state: notCounted(next), events: [...events, whyNot(reading, judged)] };
  const again = comesAgain(prepared, state, next, reading) ? 'same_as_last' : null;
  const taken: Judged = { ...judged, why: overlaps(next.run, reading) ? 'overlapping' : again };
  const extended = extendRun(next.run, reading, litres ?? null, taken, added);
  const run = { ...extended, ...courseOf(state, next, reading) };
  const short = wantingOf(prepared, run);
  const isHeld = !isWanting(short) && mayBeFrozen(prepared, run, reading, taken);
  const wanting = isHeld ? oneMore : short;
  const unproved = isHeld ? 'counts_equal' : added.unproved;
  const doubt = unproved === undefined ? {} : { unproved };
  if (isWanting(wanting)) {
    if (taken.why !== null) {
      events.push({ ...whyNot(reading, taken), wanting, ...doubt });
      return { state: notCounted({ ...next, run }), events };
    }
    events.push({ ...told(reading, taken, 'counted'), wanting, ...doubt });
    return { state: { ...next, run }, events };
  }
  const record = recordOf(prepared, next, run, taken);
  events.push({ ...told(reading, taken, 'accepted'), record, ...doubt });
  const { run: _run, repeats: _repeats, gaps: _gaps, seen: _seen, worseAt: _worse, ...rest } = next;
  const { readings: _readings, began: _began, ...last } = rest;
  return { state: { ...last, accepted: record }, events };
}

/** The record stands; a worse reading from within its run is marked in it. */
function takeAfter(
  state: AcceptanceState,
  accepted: AcceptanceRecord,
  reading: AcceptanceReading,
  judged: Judged,
): Step {
  if (!judged.worse) return { state, events: [told(reading, judged, 'after_acceptance')] };
  const { time } = reading;
  const { run, contradicted = { time, text: judged.text as string } } = accepted;
  if (time < run.from || time > run.to) return { state, events: [told(reading, judged, 'worse_after_acceptance')] };
  const marked = { ...state, accepted: { ...accepted, contradicted } };
  return { state: marked, events: [told(reading, judged, 'contradicted')] };
}

/** A reading that is not newer than the last, or came before: it can end the run, but never help. */
function takeOlder(
  prepared: PreparedAcceptance,
  state: AcceptanceState,
  reading: AcceptanceReading,
  older: AcceptanceState['older'],
): Step {
  const judged = judge(prepared, reading, null);
  const events: AcceptanceEvent[] = [];
  const worse = judged.worse && state.run !== undefined;
  const kept = worse ? endRun(state, reading, judged, 'worse_than_target', events) : state;
  const why = judged.worse ? 'worse_than_target' : 'not_newer';
  events.push({ ...told(reading, judged, 'not_counted'), why });
  const known = withWorse(kept, reading, judged);
  return { state: { ...notCounted(known), ...(older === undefined ? {} : { older }) }, events };
}

/** The state with when oil was last known to be worse than the target, by the latest that any clock said. */
function withWorse(state: AcceptanceState, { time }: AcceptanceReading, { worse }: Judged): AcceptanceState {
  return worse ? { ...state, worseAt: Math.max(time, state.worseAt ?? time) } : state;
}

/**
 * Whether a reading is dated before oil that was worse, and nothing shows that it is of now: that about as much time
 * has passed by the host's clock as by its own since the one before, half to twice as much (our choice).
 */
function isOld({ worseAt, time, receivedAt }: AcceptanceState, reading: AcceptanceReading): boolean {
  if (worseAt === undefined || reading.time > worseAt) return false;
  if (time === undefined || receivedAt === undefined || reading.receivedAt === undefined) return true;
  const passed = reading.time - time;
  const byHost = reading.receivedAt - receivedAt;
  return 2 * byHost < passed || byHost > 2 * passed;
}

/** The proof goes on with the clock that the readings show; what was proved by the other is let go. */
function setClock(prepared: PreparedAcceptance, state: AcceptanceState, reading: AcceptanceReading): Step {
  const events: AcceptanceEvent[] = [];
  const judged = judge(prepared, reading, null);
  const ended = state.run === undefined ? state : endRun(state, reading, judged, 'clock_set_back', events);
  const { time: _time, gaps: _gaps, receivedAt: _received, older: _older, ...begun } = ended;
  // of the counts seen all is kept but when
  const repeats = movedRepeats(state.repeats ?? noRepeats, reading.time - (state.time as number));
  const step = takeInOrder(prepared, { ...begun, repeats }, reading);
  return { state: step.state, events: [...events, ...step.events] };
}

function endRun(
  state: AcceptanceState,
  reading: AcceptanceReading,
  judged: Judged,
  why: AcceptanceRestart['why'],
  events: AcceptanceEvent[],
): AcceptanceState {
  events.push({ ...told(reading, judged, 'restarted'), why });
  const { run: _run, ...rest } = state;
  return { ...rest, restarts: state.restarts + 1, lastRestart: { time: reading.time, why, text: judged.text } };
}

function notCounted(state: AcceptanceState): AcceptanceState {
  const { run } = state;
  const within = run === undefined ? {} : { run: { ...run, notCounted: (run.notCounted ?? 0) + 1 } };
  return { ...state, ...within, notCounted: state.notCounted + 1 };
}

/** All readings are counted, whatever they are worth: many tries prove less. */
function withOneMore(state: AcceptanceState, { time }: AcceptanceReading): AcceptanceState {
  const { readings, began = time } = state;
  return readings === undefined ? state : { ...state, readings: readings + 1, began };
}

/** Why a reading in order did not count, with what was found. */
function whyNot(reading: AcceptanceReading, judged: Judged): AcceptanceEvent {
  const { findings, reason, outcome, unprovable } = judged;
  const why = judged.why as NonNullable<Judged['why']>;
  const event = { ...told(reading, judged, 'not_counted'), why, ...(unprovable.length === 0 ? {} : { unprovable }) };
  if (why === 'bad' || why === 'uncertain') return { ...event, findings };
  if (why === 'no_code') return { ...event, reason: reason as string };
  if (why === 'not_known') return { ...event, missing: (outcome as TargetOutcome).missing };
  return why === 'few_counted' ? { ...event, missing: (outcome as TargetOutcome).uncertain } : event;
}
