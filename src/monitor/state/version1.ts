/**
 * The state that version 0.1.0 left, as it is kept now. Its rules stand still, and read no rule of today (as
 * `alarm/earlier.ts`).
 */
import { type Memory1, memory1Members, memoryOf1, oldCount, oldFigure, oldName, oldTime } from '../../alarm/earlier.ts';
import { shorten } from '../../numeric/shorten.ts';
import { requireStateRule } from '../../rules/require.ts';
import type { Members, ObjectRule, Rule } from '../../rules/rule.ts';
import { textPrint } from '../../state/textPrint.ts';
import type { Writable } from '../../state/writable.ts';
import { addDay, startChange } from '../../trend/change/advance.ts';
import { keptTrend } from '../followed/keptTrend.ts';
import { keptChange } from '../followed/means.ts';
import { mostBlocks } from '../rules.ts';
import type { Arrivals, FollowedState, MonitorState, PreparedMonitor, RollingTrend, WatchedAlarm } from '../types.ts';
import { monitorStateVersion, noArrivals } from './state.ts';

interface State1 {
  readonly time: number | null;
  readonly recent: readonly (readonly [number, number])[];
  readonly counted: Omit<Arrivals, 'setAside'>;
  readonly heard: number | null;
  readonly stale: boolean;
  readonly alarms: readonly { readonly id: string; readonly print: number; readonly state: Memory1 }[];
  readonly followed: readonly {
    readonly id: string;
    readonly print: number;
    readonly open: NonNullable<FollowedState['open']> | null;
    readonly last: number;
    readonly means: readonly (number | null)[];
    readonly trend: (Omit<RollingTrend, 'direction'> & { readonly direction: string }) | null;
  }[];
}

/** Throws `bad_state` for one that is damaged. What is not taken over is named in `dropped`. */
export function stateOf1(prepared: PreparedMonitor, state: unknown, dropped: string[]): MonitorState {
  requireStateRule(rule1(), state);
  const { time, recent, counted, heard, stale, alarms, followed } = state as State1;
  const now: Writable<MonitorState> = {
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

/** Half days of 0.1.0, which were its blocks where nothing was said, make the days of now. */
const halfDay = 43200000;

function followedOf1(
  { follow }: PreparedMonitor,
  { id, print, open, last, means, trend }: State1['followed'][number],
  dropped: string[],
): FollowedState {
  dropped.push(`${id}.change`);
  for (const plan of follow) {
    if (plan.id !== id) continue;
    const same = isPrint(plan, plan.blockMs, print);
    if (!same && !(plan.blockMs === 2 * halfDay && isPrint(plan, halfDay, print))) continue;
    const parts = same ? 1 : 2;
    const now: Writable<FollowedState> = { id, of: plan.of };
    const blocks: Block[] = means.map((mean, i) => ({ block: last - means.length + 1 + i, mean, count: 1 }));
    const today = open === null ? null : Math.floor(open.block / parts);
    let change = startChange();
    for (const { block, mean } of joined(blocks, parts))
      if (block !== today) change = addDay(plan.detector, change, block, shorten(mean)).state;
    if (change.last !== null) now.change = keptChange(change);
    if (open !== null) {
      const before = blocks.filter((one) => one.mean !== null && Math.floor(one.block / parts) === today);
      const [day] = joined([...before, { ...open }], parts);
      now.open = { block: today as number, mean: (day as Known).mean, count: open.count * (before.length + 1) };
    }
    if (same && trend !== null) {
      const direction = trend.direction === 'not distinguishable' ? 'not_distinguishable' : trend.direction;
      now.trend = keptTrend({ ...trend, direction: direction as RollingTrend['direction'] });
    }
    return now;
  }
  return { id, of: `print ${print}` };
}

interface Block {
  readonly block: number;
  readonly mean: number | null;
}
interface Known extends Block {
  readonly mean: number;
}

/** The means of so many blocks each as the mean of one; those without a reading are left out. */
function joined(blocks: readonly Block[], parts: number): Known[] {
  const days: { block: number; mean: number; count: number }[] = [];
  for (const { block, mean } of blocks) {
    if (mean === null) continue;
    const number = Math.floor(block / parts);
    const day = days[days.length - 1];
    if (day === undefined || day.block !== number) days.push({ block: number, mean, count: 1 });
    else {
      day.count += 1;
      day.mean += (mean - day.mean) / day.count;
    }
  }
  return days;
}

/** The fingerprint of 0.1.0, whatever the number of blocks. */
function isPrint({ figure }: PreparedMonitor['follow'][number], blockMs: number, print: number): boolean {
  for (let blocks = 8; blocks <= mostBlocks; blocks += 1)
    if (textPrint(`${blockMs} ${blocks} ${figureText(figure)}`) === print) return true;
  return false;
}

function figureText(figure: object): string {
  const kind = Object.keys(figure)[0] as string;
  return `${kind} ${(figure as { readonly [kind: string]: string | number })[kind]}`;
}

function objectOf(members: Members): ObjectRule {
  return { kind: 'object', members };
}

function oldList(longest: number, of: Rule, shortest = 0): Rule {
  return { kind: 'list', shortest, longest, of };
}

/** A function, so that a bundle that resumes nothing has none of it. */
function rule1(): ObjectRule {
  const time: Rule = { ...oldTime, nullable: true };
  const block: Rule = { kind: 'number', whole: true, least: -1.44e11, most: 1.44e11 };
  const edge: Rule = { kind: 'number', whole: true, least: -2e16, most: 2e16 };
  const figureOrNull: Rule = { ...oldFigure, nullable: true };
  const flag: Rule = { kind: 'flag' };
  const arrivals = { inOrder: oldCount, bad: oldCount, late: oldCount, tooLate: oldCount, repeated: oldCount };
  const open = objectOf({ block, mean: oldFigure, count: { ...oldCount, least: 1 } });
  // the level and the sums of the CUSUM that 0.1.0 had
  const squares: Rule = { kind: 'number', least: 0, most: 1e130 };
  const level = objectOf({ count: oldCount, mean: oldFigure, squares });
  const sum = objectOf({ sum: { ...oldFigure, least: 0 }, since: block, count: oldCount });
  const trend = objectOf({
    from: edge,
    to: edge,
    blocks: oldCount,
    perDay: oldFigure,
    low: figureOrNull,
    high: figureOrNull,
    p: { kind: 'number', least: 0, most: 1, nullable: true },
    direction: { kind: 'word', words: ['rising', 'falling', 'not distinguishable'] },
  });
  const followed = objectOf({
    id: oldName,
    print: oldCount,
    open: { ...open, nullable: true },
    last: block,
    means: oldList(63, figureOrNull),
    level,
    up: sum,
    down: sum,
    trend: { ...trend, nullable: true },
  });
  return objectOf({
    version: { kind: 'number', least: 1, most: 1 },
    time,
    // time and fingerprint
    recent: oldList(16, oldList(2, time, 2)),
    same: objectOf({ print: oldCount, count: oldCount }),
    counted: objectOf(arrivals),
    heard: time,
    stale: flag,
    alarms: oldList(64, objectOf({ id: oldName, print: oldCount, state: objectOf(memory1Members()) })),
    followed: oldList(32, followed),
  });
}
