/**
 * The state of version 2, which kept raises, changes and trends as objects and lists, as it is kept now.
 */
import {
  type Memory2,
  memory2Members,
  memoryOf2,
  oldCount,
  oldMeaning,
  oldName,
  oldTime,
} from '../../alarm/earlier.ts';
import { motescaleError } from '../../errors.ts';
import { repeatsRule } from '../../reading/repeatsState.ts';
import type { ObjectRule, Rule } from '../../rules/rule.ts';
import { requireStateRule } from '../../state/saved.ts';
import type { ChangeState } from '../../trend/change/types.ts';
import { keptFigures } from '../aside.ts';
import { keptTrend } from '../keptTrend.ts';
import { areMeans, keptChange, meansIn } from '../means.ts';
import type { ClockDoubt, FollowedState, MonitorState, RollingTrend, WatchedAlarm } from '../types.ts';
import { oldBlock, oldFigureOrNull, oldList, oldOpen, oldRecent, oldTrend } from './earlier.ts';
import { monitorStateVersion } from './state.ts';

interface Change2 extends Omit<ChangeState, 'ring'> {
  readonly unit: number;
  readonly means: string;
}

interface Clock2 extends Omit<ClockDoubt, 'ahead'> {
  readonly ahead?: Omit<NonNullable<ClockDoubt['ahead']>, 'last'> & {
    readonly last?: {
      readonly print: number;
      readonly alarms: readonly (number | null)[];
      readonly followed: readonly (number | null)[];
    };
  };
}

interface State2 extends Omit<MonitorState, 'version' | 'alarms' | 'followed' | 'clock'> {
  readonly clock?: Clock2;
  readonly alarms: readonly (Memory2 & Pick<WatchedAlarm, 'id' | 'of'>)[];
  readonly followed: readonly (Omit<FollowedState, 'change' | 'trend'> & {
    readonly change?: Change2;
    readonly trend?: RollingTrend;
  })[];
}

/** Throws `bad_state` for one that is damaged. */
export function stateOf2(state: unknown): MonitorState {
  requireStateRule(rule2(), state);
  const { alarms, followed, clock, ...rest } = state as State2;
  return {
    ...rest,
    ...(clock === undefined ? {} : { clock: clockOf2(clock) }),
    version: monitorStateVersion,
    alarms: alarms.map(({ id, of, ...memory }) => ({ id, of, ...memoryOf2(memory) })),
    followed: followed.map(({ change, trend, ...one }, i) => ({
      ...one,
      ...(change === undefined ? {} : { change: changeOf2(change, `state.followed[${i}].change`) }),
      ...(trend === undefined ? {} : { trend: keptTrend(trend) }),
    })),
  };
}

function clockOf2({ ahead, ...rest }: Clock2): ClockDoubt {
  if (ahead === undefined) return rest;
  const { last, ...one } = ahead;
  if (last === undefined) return { ...rest, ahead: one };
  const { print, alarms, followed: means } = last;
  return { ...rest, ahead: { ...one, last: { print, alarms: keptFigures(alarms), followed: keptFigures(means) } } };
}

function changeOf2({ unit, means, ...learned }: Change2, parameter: string): string {
  const sound = areMeans(means) && (means === '' || (learned.last !== null && learned.since !== null));
  if (!sound) throw motescaleError('bad_state', parameter, means, 'means that begin and end with a value');
  return keptChange({ ...learned, ring: meansIn(means, 0, unit) });
}

/** What the change detector remembered. */
const changeRule: ObjectRule = {
  kind: 'object',
  members: {
    last: { ...oldBlock, nullable: true },
    unit: { kind: 'number', whole: true, least: -18, most: 54 },
    means: { kind: 'text', shortest: 0, longest: 252 },
    since: { ...oldBlock, nullable: true },
    settled: { kind: 'flag' },
    level: oldFigureOrNull,
    steps: {
      kind: 'object',
      members: { count: { ...oldCount, most: 8280 }, square: { kind: 'number', least: 0, most: 1e130 } },
    },
  },
};

function clockRule(): ObjectRule {
  const figures = (longest: number): Rule => ({ kind: 'list', shortest: 0, longest, of: oldFigureOrNull });
  const one = { time: oldTime, count: oldCount };
  const last: Rule = {
    kind: 'object',
    members: { print: oldCount, alarms: figures(64), followed: figures(32) },
    optional: true,
  };
  const readings: Rule = { kind: 'list', shortest: 0, longest: 4, of: oldTime };
  return {
    kind: 'object',
    members: {
      ahead: { kind: 'object', members: { ...one, readings, last }, optional: true },
      behind: { kind: 'object', members: { ...one, receivedAt: { ...oldTime, optional: true } }, optional: true },
    },
  };
}

function rule2(): ObjectRule {
  const optional = { optional: true } as const;
  const time: Rule = { ...oldTime, ...optional };
  const stands: Rule = { kind: 'flag' };
  return {
    kind: 'object',
    expected: 'a state of startMonitor, advanceMonitor or resumeMonitor',
    members: {
      version: { kind: 'number', least: 2, most: 2 },
      time,
      recent: oldRecent,
      repeats: { ...repeatsRule, ...optional },
      arrivals: {
        kind: 'object',
        members: {
          inOrder: oldCount,
          bad: oldCount,
          late: oldCount,
          tooLate: oldCount,
          repeated: oldCount,
          setAside: oldCount,
        },
      },
      heard: time,
      receivedAt: time,
      usualMs: { ...oldCount, ...optional },
      stale: {
        kind: 'either',
        forms: [],
        choose: (is) => (is === true ? stands : null),
        expected: 'true',
        ...optional,
      },
      bad: { kind: 'list', of: { kind: 'text', longest: 80 }, longest: 106, ...optional },
      clock: { ...clockRule(), ...optional },
      alarms: oldList(64, { id: oldName, of: oldMeaning, ...memory2Members() }),
      followed: oldList(32, {
        id: oldName,
        of: oldMeaning,
        open: { ...oldOpen, ...optional },
        change: { ...changeRule, ...optional },
        trend: { ...oldTrend(['rising', 'falling', 'not_distinguishable']), ...optional },
      }),
    },
  };
}
