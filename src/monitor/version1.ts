/**
 * The state that version 0.1.0 left, as it is kept now.
 */
import { type Memory1, memory1Members, memoryOf1, requireStateRule } from '../alarm/state.ts';
import type { ObjectRule, Rule } from '../rules/rule.ts';
import { countRule, nameRule, timeRule } from '../state/rules.ts';
import { textPrint } from '../state/textPrint.ts';
import { mostAlarms, mostFollowed } from './rules.ts';
import { monitorStateVersion, noArrivals } from './state.ts';
import { blockMembers, levelRule, openRule, recentRule, sumRule, trendRule } from './stateRules.ts';
import type { FollowedState, MonitorState, PreparedMonitor, RollingTrend, WatchedAlarm } from './types.ts';

interface State1 {
  readonly time: number | null;
  readonly recent: readonly (readonly [number, number])[];
  readonly counted: {
    readonly inOrder: number;
    readonly bad: number;
    readonly late: number;
    readonly tooLate: number;
    readonly repeated: number;
  };
  readonly heard: number | null;
  readonly stale: boolean;
  readonly alarms: readonly { readonly id: string; readonly print: number; readonly state: Memory1 }[];
  readonly followed: readonly {
    readonly id: string;
    readonly print: number;
    readonly open: FollowedState['open'] | null;
    readonly last: number;
    readonly means: readonly (number | null)[];
    readonly trend: (Omit<RollingTrend, 'direction'> & { readonly direction: string }) | null;
  }[];
}

/** Throws `bad_state` for one that is damaged. What is not taken over is named in `dropped`. */
export function stateOf1(prepared: PreparedMonitor, state: unknown, dropped: string[]): MonitorState {
  requireStateRule(rule1(), state, 'state');
  const { time, recent, counted, heard, stale, alarms, followed } = state as State1;
  const now: { -readonly [Key in keyof MonitorState]: MonitorState[Key] } = {
    version: monitorStateVersion,
    arrivals: { ...noArrivals, ...counted },
    alarms: alarms.map(({ id, print, state: memory }): WatchedAlarm => {
      return { id, of: alarmMeaning(prepared, id, print), ...memoryOf1(memory) };
    }),
    followed: followed.map((one) => followedOf1(prepared, one, dropped)),
  };
  if (time !== null) now.time = time;
  // the fingerprints of this version are made of more
  if (recent.length > 0) now.recent = recent.map(([at]) => [at, null] as const);
  if (heard !== null) now.heard = heard;
  if (stale) now.stale = true;
  return now;
}

/** The words of now for a fingerprint of then; a word that no alarm has, where it fits none. */
function alarmMeaning({ alarms }: PreparedMonitor, id: string, print: number): string {
  for (const { plan, figure } of alarms) {
    if (plan.id !== id) continue;
    const within = plan.withinMs === 0 ? '' : plan.withinMs;
    if (textPrint(`${plan.type} ${within} ${figureText(figure)}`) === print) return plan.of;
  }
  return `print ${print}`;
}

function followedOf1(
  { follow }: PreparedMonitor,
  { id, print, open, last, means, trend }: State1['followed'][number],
  dropped: string[],
): FollowedState {
  dropped.push(`${id}.change`);
  let of = `print ${print}`;
  for (const plan of follow) {
    const text = `${plan.blockMs} ${plan.blocks} ${figureText(plan.figure)}`;
    if (plan.id === id && textPrint(text) === print) of = plan.of;
  }
  const now: { -readonly [Key in keyof FollowedState]: FollowedState[Key] } = { id, of };
  if (open !== null && open !== undefined) now.open = open;
  if (means.length > 0) {
    now.last = last;
    now.means = means;
  }
  if (trend !== null) {
    const direction = trend.direction === 'not distinguishable' ? 'not_distinguishable' : trend.direction;
    now.trend = { ...trend, direction: direction as RollingTrend['direction'] };
  }
  return now;
}

function figureText(figure: object): string {
  const kind = Object.keys(figure)[0] as string;
  return `${kind} ${(figure as { readonly [kind: string]: string | number })[kind]}`;
}

function rule1(): ObjectRule {
  const time: Rule = { ...timeRule, nullable: true };
  const flag: Rule = { kind: 'flag' };
  const nullable = { nullable: true } as const;
  return {
    kind: 'object',
    members: {
      version: { kind: 'number', least: 1, most: 1 },
      time,
      recent: recentRule,
      same: { kind: 'object', members: { print: countRule, count: countRule } },
      counted: {
        kind: 'object',
        members: { inOrder: countRule, bad: countRule, late: countRule, tooLate: countRule, repeated: countRule },
      },
      heard: time,
      stale: flag,
      alarms: {
        kind: 'list',
        shortest: 0,
        longest: mostAlarms,
        of: {
          kind: 'object',
          members: { id: nameRule, print: countRule, state: { kind: 'object', members: memory1Members() } },
        },
      },
      followed: {
        kind: 'list',
        shortest: 0,
        longest: mostFollowed,
        of: {
          kind: 'object',
          members: {
            id: nameRule,
            print: countRule,
            open: { ...openRule, ...nullable },
            ...blockMembers(),
            level: levelRule,
            up: sumRule,
            down: sumRule,
            trend: { ...trendRule(['rising', 'falling', 'not distinguishable']), ...nullable },
          },
        },
      },
    },
  };
}
