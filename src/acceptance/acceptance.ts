/**
 * The proof that a flush or a fill is done: so many good readings running at or better than target, over a least time and volume.
 */

import { advanceRepeats } from '../reading/repeats.ts';
import { checkAcceptanceState, freshAcceptance } from './acceptanceState.ts';
import { checkAcceptanceConfig, checkAcceptanceReading } from './config.ts';
import { judge } from './judge.ts';
import { extendRun, recordOf, wantingOf, whyRunEnds } from './run.ts';
import type { AcceptanceConfig, AcceptanceEvent, AcceptanceReading, AcceptanceState } from './types.ts';

/**
 * The state of a proof that has not begun.
 *
 * @throws `bad_configuration`; its `problems` name every mistake.
 *
 * @example
 * ```ts
 * import { iso4406 } from 'motescale/codes';
 * import { startAcceptance } from 'motescale/acceptance';
 * startAcceptance({ table: iso4406, target: '16/14/11', readings: 5 }).accepted; // => null
 * ```
 */
export function startAcceptance(config: AcceptanceConfig): AcceptanceState {
  checkAcceptanceConfig(config, true);
  return freshAcceptance(config);
}

/**
 * Takes one reading into the proof, and returns the new state with what the reading did.
 *
 * - A good reading at or better than target at every size the target asks for counts. The proof is there when so many have counted running,
 *   and the time and the volume from the first to the last of them are long and large enough.
 * - A good or uncertain reading worse than target at a size ends the run: doubt never helps a proof. The next good one begins anew.
 * - A bad reading says nothing, its volume counter neither: it does not count and does not end the run; nor does an uncertain one at or better than target, one that lacks
 *   a size of the target, or one not newer than the last. `not_counted` says why.
 * - Counts that are stuck (see `assessReading`) end the run, since the readings before the one that tells were as frozen.
 * - The run also ends when `longestGapMs` is exceeded between two readings that count, or the volume counter falls.
 *
 * - Of clean oil few particles are counted, which makes a reading uncertain. Where that is its only fault it counts all the same if the target is
 *   met even at the upper limit of the counting statistics (`codeInterval`, 0.95): for that the counts must be raw, with their volume. The record
 *   says how many counted so. Where the limit does not reach: count longer.
 *
 * The record also says what was not looked at (`run.unchecked`): a reading without a flow or a pressure is not known to have had the right one.
 * Once accepted, the record stands; further readings only give `after_acceptance`.
 *
 * A proof rests on one configuration: a state that was made under another one (table, columns, target, readings, time, volume, gap, limits) is
 * refused as `bad_state`, since its readings were held against something else.
 *
 * The record shows that the oil sampled met the target. Whether the machine may run is decided by those who answer for it, with all else
 * they know. The rule of n readings running is common practice; numbers, time and volume are the user's.
 *
 * @throws `missing_volume` where `leastLitres` is set and the reading has no `litres`; `bad_configuration`, `bad_state`; the errors of
 * `assessReading`.
 *
 * @example
 * ```ts
 * import { iso4406 } from 'motescale/codes';
 * import { cumulativeCounts } from 'motescale/counts';
 * import { advanceAcceptance, startAcceptance } from 'motescale/acceptance';
 * const config = { table: iso4406, target: '18/16/13', readings: 2, leastMs: 600000 };
 * const counts = cumulativeCounts({ 4: 18900, 6: 4020, 14: 330 }, { volumeMl: 10 });
 * const first = advanceAcceptance(config, startAcceptance(config), { time: 0, counts, kPa: 32 });
 * first.events[0]?.wanting; // => { readings: 1, ms: 600000, litres: 0 }
 * const second = advanceAcceptance(config, first.state, { time: 600000, counts, kPa: 33 });
 * second.events[0].event; // => 'accepted'
 * second.state.accepted?.run.margins[0]; // => { column: '4', classes: 0 }
 * ```
 */
export function advanceAcceptance(
  config: AcceptanceConfig,
  state: AcceptanceState,
  reading: AcceptanceReading,
): { state: AcceptanceState; events: AcceptanceEvent[] } {
  checkAcceptanceConfig(config, false);
  checkAcceptanceState(config, state);
  checkAcceptanceReading(config, reading);
  const { time } = reading;
  const newer = state.time === null || time > state.time;
  const repeats = newer ? advanceRepeats(state.repeats, reading) : state.repeats;
  const judged = judge(config, reading, newer ? repeats : null);
  const { text, quality, outcome } = judged;
  const told = { time, text, quality, outcome };
  if (state.accepted !== null) return { state, events: [{ ...told, event: 'after_acceptance' }] };
  if (!newer) {
    const why = `not newer than the last, ${state.time}`;
    return {
      state: { ...state, notCounted: state.notCounted + 1 },
      events: [{ ...told, event: 'not_counted', why }],
    };
  }
  const events: AcceptanceEvent[] = [];
  // the volume counter of a bad reading is trusted no more than its counts
  const litres = quality === 'bad' ? state.litres : (reading.litres ?? state.litres);
  let next: AcceptanceState = { ...state, time, litres, repeats };
  const ended = state.run === null ? null : whyRunEnds(config, state, reading, judged);
  if (ended !== null) {
    const lastRestart = { time, why: ended, text };
    next = { ...next, run: null, restarts: next.restarts + 1, lastRestart };
    events.push({ ...told, event: 'restarted', why: ended });
  }
  if (judged.why !== null) {
    events.push({ ...told, event: 'not_counted', why: judged.why });
    return { state: { ...next, notCounted: next.notCounted + 1 }, events };
  }
  const run = extendRun(next.run, time, next.litres, judged);
  next = { ...next, run };
  const wanting = wantingOf(config, run);
  if (wanting.readings > 0 || wanting.ms > 0 || wanting.litres > 0) {
    events.push({ ...told, event: 'counted', wanting });
    return { state: next, events };
  }
  const record = recordOf(config, next, run, judged);
  events.push({ ...told, event: 'accepted', record });
  return { state: { ...next, run: null, accepted: record }, events };
}
