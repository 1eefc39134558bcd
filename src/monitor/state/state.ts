/** The state of a monitor: its version, its beginning, and the short question asked of it at every step. */
import { motescaleError } from '../../errors.ts';
import type { Arrivals, MonitorState, PreparedMonitor, WatchedAlarm } from '../types.ts';

/** The version of the state, here and nowhere else. */
export const monitorStateVersion = 3;

export const noArrivals: Arrivals = { inOrder: 0, bad: 0, late: 0, tooLate: 0, repeated: 0, setAside: 0 };

/** The memory of a monitor that has heard nothing yet. */
export function freshMonitorState({ alarms, follow }: PreparedMonitor): MonitorState {
  return {
    version: monitorStateVersion,
    arrivals: { ...noArrivals },
    alarms: alarms.map(({ plan }) => ({ id: plan.id, of: plan.of })),
    followed: follow.map(({ id, of }) => ({ id, of })),
  };
}

/** Throws `bad_state` unless it has this version, and the alarms and followed figures of the configuration. */
export function requireMonitorState({ alarms, follow }: PreparedMonitor, state: MonitorState): void {
  if (typeof state !== 'object' || state === null)
    throw motescaleError('bad_state', 'state', state, 'a state of startMonitor, advanceMonitor or resumeMonitor');
  if (state.version !== monitorStateVersion) {
    const expected = `the version, which resumeMonitor brings: ${monitorStateVersion}`;
    throw motescaleError('bad_state', 'state.version', state.version, expected);
  }
  requireSame('state.alarms', state.alarms, alarms.length, (i) => (alarms[i] as { readonly plan: Entry }).plan);
  requireSame('state.followed', state.followed, follow.length, (i) => follow[i] as Entry);
}

/** What an alarm or a followed figure is known again by: its id, and what it means. */
export type Entry = Pick<WatchedAlarm, 'id' | 'of'>;

/** Whether two are one: of the same id and meaning. */
export function isSame(one: Entry, other: Entry): boolean {
  return one.id === other.id && one.of === other.of;
}

/** One for one, in the order of the configuration. */
function requireSame(parameter: string, entries: readonly Entry[], length: number, wanted: (i: number) => Entry): void {
  const remedy = 'resumeMonitor goes on from others';
  if (!Array.isArray(entries) || entries.length !== length)
    throw motescaleError('bad_state', parameter, entries, `${length} of them, as in the configuration; ${remedy}`);
  for (let i = 0; i < length; i += 1) {
    const asked = wanted(i);
    const entry = entries[i] as Entry | null;
    if (entry?.id === asked.id && entry.of === asked.of) continue;
    const member = entry?.id === asked.id ? 'of' : 'id';
    const place = `${parameter}[${i}].${member}`;
    throw motescaleError('bad_state', place, entry?.[member], `'${asked[member]}'; ${remedy}`);
  }
}
