/**
 * How many bytes a state takes at most as JSON, however long it runs: counted from the configuration before anything runs.
 */
import { isRateOfChange } from '../alarm/plan.ts';
import { parts } from '../alarm/rules.ts';
import { repeatsBytes } from '../reading/repeatsState.ts';
import { idBytes } from '../state/names.ts';
import { rules } from '../trend/change/rules.ts';
import type { AlarmWatch, FollowPlan } from './types.ts';

/**
 * The longest each piece can be: the table in docs/upgrading.md. A time takes up to 17 bytes, a figure up to 24, a mean of seven digits with
 * its comma up to 16: `-0.000001234567,`.
 */
const bytes = { monitor: 1160, alarm: 340, raise: 18, part: 30, followed: 560, mean: 16 } as const;

/** How many bytes the state of this configuration takes at most. */
export function stateBytes(alarms: readonly AlarmWatch[], follow: readonly FollowPlan[]): number {
  let sum: number = bytes.monitor + repeatsBytes;
  for (const { plan } of alarms) {
    sum += bytes.alarm + idBytes(plan.id) + idBytes(plan.of) + bytes.raise * plan.chattering.raises;
    if (plan.reAlarmAfterMs !== null) sum += 30;
    let longest = 0;
    for (const mode of plan.suppressedInModes) longest = Math.max(longest, idBytes(mode));
    if (longest > 0) sum += longest + 16;
    if (isRateOfChange(plan.type)) sum += 45 + (parts + 1) * bytes.part;
  }
  for (const { id, of } of follow) sum += bytes.followed + idBytes(id) + idBytes(of) + bytes.mean * rules.ringDays;
  return sum;
}
