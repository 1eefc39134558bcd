/**
 * Findings that the configuration wants told: once when one has come, and once when it is gone, whatever quality it
 * leaves. Readings in order alone are asked.
 */
import type { Assessment, FindingCode } from '../reading/reading.ts';
import type { Draft } from './passing.ts';
import type { MonitorEvent, MonitorState, PreparedMonitor } from './types.ts';

/** Tells which have come with a reading, and which are gone; where one could not be looked for, it stays as it was. */
export function noteFindings(
  { tell = none, restoredAfter = 1 }: PreparedMonitor,
  next: Draft,
  { findings, unchecked }: Assessment,
  time: number,
  events: MonitorEvent[],
): void {
  const told: Told[] = [];
  for (const finding of tell) {
    const [before] = (next.told ?? none).filter((one) => one.finding === finding);
    if (findings.some(({ code }) => code === finding)) {
      if (before === undefined) events.push({ time, event: 'finding_came', finding });
      told.push({ finding });
    } else if (before !== undefined && unchecked.indexOf(finding) >= 0) told.push(before);
    else if (before !== undefined) {
      const without = (before.without ?? 0) + 1;
      if (without >= restoredAfter) events.push({ time, event: 'finding_gone', finding });
      else told.push({ finding, without });
    }
  }
  setTold(next, told);
}

/** Of those told, the ones that a configuration still names; counts stay short of the number it asks for. */
export function keepTold(state: Draft, { tell = none, restoredAfter = 1 }: PreparedMonitor): void {
  const kept = (state.told ?? none).filter(({ finding }) => tell.indexOf(finding) >= 0);
  setTold(
    state,
    kept.map(({ finding, without = 0 }) => {
      const most = Math.min(without, restoredAfter - 1);
      return most > 0 ? { finding, without: most } : { finding };
    }),
  );
}

function setTold(state: Draft, told: readonly Told[]): void {
  if (told.length > 0) state.told = told;
  else delete state.told;
}

type Told = NonNullable<MonitorState['told']>[number];

const none: readonly never[] = [];

/** Each once. */
export function eachOnce(tell: readonly FindingCode[]): FindingCode[] {
  return tell.filter((code, i) => tell.indexOf(code) === i);
}
