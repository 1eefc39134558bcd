/**
 * Findings that the configuration wants told: once when one has come, and once when it is gone, whatever quality it
 * leaves. Readings in order alone are asked.
 */
import type { Assessment } from '../reading/reading.ts';
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
    const before = next.told?.filter((one) => one.finding === finding)[0];
    if (findings.some(({ code }) => code === finding)) {
      if (before === undefined) events.push({ time, event: 'finding_came', finding });
      told.push({ finding });
    } else if (before !== undefined) {
      const without = (before.without ?? 0) + 1;
      if (unchecked.indexOf(finding) >= 0) told.push(before);
      else if (without < restoredAfter) told.push({ finding, without });
      else events.push({ time, event: 'finding_gone', finding });
    }
  }
  next.told = told;
  if (told.length === 0) delete next.told;
}

/** Of those told, the ones that a configuration still names go on. */
export function keepTold(state: Draft, { tell = none }: PreparedMonitor): void {
  const told = state.told?.filter(({ finding }) => tell.indexOf(finding) >= 0) ?? none;
  state.told = told;
  if (told.length === 0) delete state.told;
}

type Told = NonNullable<MonitorState['told']>[number];

const none: readonly never[] = [];
