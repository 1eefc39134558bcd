/**
 * How many bytes a state takes at most as JSON, however long it runs: counted from the configuration before anything
 * runs.
 */
import { isRateOfChange } from '../alarm/plan.ts';
import { repeatsBytes } from '../reading/remembered/repeatsState.ts';
import { idBytes } from '../state/names.ts';
import type { AlarmWatch, FollowPlan } from './types.ts';

/**
 * The longest each piece can be: the table in docs/upgrading.md. A time takes up to 17 bytes, a figure up to 25, one of
 * seven digits up to 15: `-0.000001234567`.
 */
const bytes = {
  monitor: 1235,
  alarm: 359,
  raise: 9,
  reAlarm: 30,
  mode: 43,
  rate: 320,
  followed: 488,
  other: 9,
  restoring: 234,
  restoringOther: 35,
  targets: 12,
  target: 88,
  told: 10,
  finding: 29,
} as const;

/** How many bytes the state of this configuration takes at most. */
export function stateBytes(
  alarms: readonly AlarmWatch[],
  follow: readonly FollowPlan[],
  targets: readonly string[],
  tell: readonly string[],
  isRestoring: boolean,
): number {
  const counts = isRestoring ? 1 : 0;
  let sum = bytes.monitor + repeatsBytes + counts * bytes.restoring;
  /** Of a figure by a name of one's own: that it is bad, and in how many readings it has not been. */
  const badBytes = (figure: object): number => {
    if (!('other' in figure)) return 0;
    const name = idBytes(figure.other as string);
    return bytes.other + name + counts * (bytes.restoringOther + name);
  };
  for (const { plan, figure } of alarms) {
    sum += bytes.alarm + idBytes(plan.id) + idBytes(plan.of) + bytes.raise * plan.chattering.raises + badBytes(figure);
    if (plan.reAlarmAfterMs !== null) sum += bytes.reAlarm;
    let longest = 0;
    for (const mode of plan.suppressedInModes) longest = Math.max(longest, idBytes(mode));
    if (longest > 0) sum += longest + bytes.mode;
    if (isRateOfChange(plan.type)) sum += bytes.rate;
  }
  for (const { id, of, figure } of follow) sum += bytes.followed + idBytes(id) + idBytes(of) + badBytes(figure);
  if (targets.length > 0) sum += bytes.targets;
  for (const id of targets) sum += bytes.target + idBytes(id);
  if (tell.length > 0) sum += bytes.told;
  for (const code of tell) sum += bytes.finding + code.length;
  return sum;
}
