/**
 * Whether the counter has shown particles: one that is dead, dark, dry or not connected gives nothing but zeros, and by
 * these alone would prove any target.
 */
import { placeOf } from '../codes/classIndex.ts';
import type { Wanted } from '../codes/targetOutcome.ts';
import { codeGiven } from '../judging/codeVerdict.ts';
import { isEmpty } from '../reading/level.ts';
import type { ReadingLimits } from '../reading/readingLimits.ts';
import type { AcceptanceReading, AcceptanceState, PreparedAcceptance } from './types.ts';

/** Whether zeros from the start prove nothing: asked unless the limits switch off the check for a counter that died. */
export function asksForParticles({ stuckChance, qualities }: ReadingLimits): boolean {
  return stuckChance !== null && qualities.no_particles !== 'good';
}

/** The state with what a reading shows, whatever it is worth otherwise. */
export function noticingParticles(
  prepared: PreparedAcceptance,
  state: AcceptanceState,
  reading: AcceptanceReading,
): AcceptanceState {
  if (state.particlesSeen === true || !showsParticles(prepared, reading)) return state;
  return { ...state, particlesSeen: true };
}

/** A particle at any size or, without counts, a class in the table of the proof that is not the cleanest. */
function showsParticles({ code: { table } }: PreparedAcceptance, reading: AcceptanceReading): boolean {
  if (reading.counts !== undefined) return !isEmpty(reading.counts.perMl);
  const code = codeGiven(table, reading);
  if (typeof code === 'string') return false;
  return code.parts.some((part) => (part.class === null ? part.mark === 'too_many' : placeOf(table, part.class) > 0));
}

/**
 * Whether a state that was saved before this was kept tells of particles: by why a run ended, by the level of the
 * counts, or by a class that is not the cleanest (of few particles the margins are those of the upper limit, and say
 * nothing here).
 */
export function tellsOfParticles({ code }: PreparedAcceptance, state: AcceptanceState): boolean {
  const { run, lastRestart, repeats, accepted } = state;
  if (accepted !== undefined) return false;
  if (lastRestart !== undefined && ofParticles.indexOf(lastRestart.why) >= 0) return true;
  if (repeats?.level !== undefined && repeats.level[0] > 0) return true;
  if (run === undefined || run.fewParticles > 0) return false;
  const asked = (code.wanted as Wanted).filter((place) => place !== null);
  return run.margins.some(({ classes }, i) => classes < (asked[i] as number));
}

/** Why a run ended that zeros never end: they are not worse than a target, and repeat by chance. */
const ofParticles: readonly string[] = ['worse_than_target', 'counts_stuck'];
