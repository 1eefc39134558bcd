/** What a proof still wants, asked of a state at any time. */
import { requirePrepared } from '../state/prepared.ts';
import { requireAcceptanceState } from './resume.ts';
import { isWanting, oneMore, wantingOf } from './run.ts';
import type { AcceptanceState, AcceptanceWanting, PreparedAcceptance } from './types.ts';

/**
 * Readings, time and volume that the proof still wants, if all readings from now on are good and at or better than
 * target; one that is not may end the run, and then all is wanted again. All 0 once it is accepted.
 *
 * @throws `not_prepared`, `bad_state`
 *
 * @example
 * ```ts
 * import { iso4406 } from 'motescale/codes';
 * import { acceptanceWanting, prepareAcceptance, startAcceptance } from 'motescale/acceptance';
 * const prepared = prepareAcceptance({ table: iso4406, target: '16/14/11', readings: 7, leastMs: 10800000 });
 * acceptanceWanting(prepared, startAcceptance(prepared)); // => { readings: 7, ms: 10800000, litres: 0 }
 * ```
 */
export function acceptanceWanting(prepared: PreparedAcceptance, state: AcceptanceState): AcceptanceWanting {
  requirePrepared(prepared, 'acceptance', 'prepareAcceptance');
  requireAcceptanceState(prepared, state);
  if (state.accepted !== undefined) return { readings: 0, ms: 0, litres: 0 };
  const wanting = wantingOf(prepared, state.run);
  return isWanting(wanting) ? wanting : oneMore;
}
