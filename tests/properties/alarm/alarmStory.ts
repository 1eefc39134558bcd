/**
 * A second alarm, written from the rules of OPC 10000-9 (3.1, 4.8, 5.8, B.1.5) and OPC 30030 (8.9, 8.13), and not
 * from the library's code. It remembers nothing: it takes all inputs so far and tells the whole story from the
 * start, as spans of moments in which something held.
 *
 * Where no rule decides, the model follows what the library documents: what is said at the end of a silence, that a
 * reset needs no acknowledgement; and what it does: the order of events of one moment, and when chattering ends.
 * Two readings of one time tell no interval.
 */
import type { AlarmCommand, AlarmConfig, AlarmEvent, AlarmInput, AlarmStateName } from '../../../src/alarm/index.ts';
import { type FigureStory, figureStory, refusedReadings, timesOf } from './alarmStoryFigure.ts';
import {
  before,
  held,
  holds,
  lastWhere,
  type Moment,
  part,
  type Span,
  shelfEnd,
  spans,
  union,
} from './alarmStoryMoments.ts';

/** What the story tells: all events of all inputs so far, and the state it ends in. */
export interface Story {
  readonly events: AlarmEvent[];
  readonly name: AlarmStateName;
}

/** One thing that happened. It is not told in a silence, unless it answers an operator or is the silence itself. */
interface Fact {
  readonly at: Moment;
  readonly event: Omit<AlarmEvent, 'alarm' | 'time'>;
  readonly always: boolean;
}

interface Given {
  readonly input: AlarmCommand;
  readonly at: Moment;
}
type ShelfEnd = 'time' | 'return' | 'command';
type Shelf = Span & { readonly by: ShelfEnd | null };

const lastStanding = (spans: readonly Span[], at: Moment): Span | undefined =>
  lastWhere(spans, ({ from }) => !before(at, from));

/** Each shelf ends by its time, by the next return (one shot) or by a command; none begins within another. */
function shelvesOf(given: readonly Given[], returns: readonly Moment[], longest: number, now: number): Shelf[] {
  const shelves: Shelf[] = [];
  for (const { input, at } of given) {
    if (input.command !== 'shelve' || input.forMs > longest || held(shelves, at)) continue;
    const ends: { at: Moment; by: ShelfEnd }[] = [];
    const until = Math.min(input.time, at[0]) + input.forMs;
    if (until <= now) ends.push({ at: shelfEnd(until), by: 'time' });
    const next = returns.find((one) => before(at, one));
    if (input.oneShot === true && next !== undefined)
      ends.push({ at: [next[0], next[1], part.oneShot, 0], by: 'return' });
    for (const later of given) {
      if (!before(at, later.at)) continue;
      if (later.input.command === 'unshelve') ends.push({ at: later.at, by: 'command' });
    }
    const [end] = ends.sort((a, b) => (before(a.at, b.at) ? -1 : 1));
    shelves.push({ from: at, to: end?.at ?? null, by: end?.by ?? null });
  }
  return shelves;
}

/** Out of service: the last of the two commands decides. */
function serviceSpans(given: readonly Given[]): Span[] {
  return union(
    given
      .filter(({ input }) => input.command === 'remove_from_service')
      .map(({ at }) => ({
        from: at,
        to: given.find((later) => later.input.command === 'return_to_service' && before(at, later.at))?.at ?? null,
      })),
  );
}

type Refused = Omit<AlarmEvent, 'alarm' | 'time'>;

/**
 * Which commands begin or end a silence, and why others begin none: not given after the last that did, or a shelf
 * whose time is over.
 */
function silencing(given: readonly Given[], returns: readonly Moment[], longest: number, now: number) {
  const taken: Given[] = [];
  const refused = new Map<Given, Refused>();
  let last = -Infinity;
  for (const one of given) {
    const { input, at } = one;
    if (input.command === 'acknowledge' || input.command === 'reset') continue;
    const told = Math.min(input.time, at[0]);
    const no = (reason: AlarmEvent['reason'], limit: number) =>
      refused.set(one, { event: 'refused', reason, limit } as Refused);
    if (input.command === 'shelve') {
      if (held(shelvesOf(taken, returns, longest, now), at) || input.forMs > longest) continue;
      if (input.time <= last) no('older_than_last_command', last);
      else if (told + input.forMs <= at[0]) no('shelf_over', told + input.forMs);
    }
    if (input.command === 'remove_from_service') {
      if (held(serviceSpans(taken), at)) continue;
      if (input.time <= last) no('older_than_last_command', last);
    }
    if (refused.has(one)) continue;
    taken.push(one);
    last = Math.max(last, told);
  }
  return { taken, refused };
}

export function tellAlarm(config: AlarmConfig, inputs: readonly AlarmInput[]): Story {
  const times = timesOf(inputs);
  const now = times[times.length - 1] as number;
  const refused = refusedReadings(inputs, times);
  const figure = figureStory(config, inputs, times, refused);
  const { crossings, raises, active, again, stale, bad, chattering, suppressed } = figure;

  const given = inputs.flatMap((input, i): Given[] =>
    input.kind === 'command' ? [{ input, at: [times[i] as number, i, part.main, 0] }] : [],
  );
  const returns = crossings.filter(({ up }) => !up).map(({ at }) => at);
  const longest = config.longestShelfMs ?? 28_800_000;
  const { taken, refused: unsilenced } = silencing(given, returns, longest, now);
  const shelves = shelvesOf(taken, returns, longest, now);
  const service = serviceSpans(taken);
  const silences = union([...shelves, ...service, ...suppressed]);

  const lastCommand = (command: AlarmCommand['command'], at: Moment): Moment | undefined =>
    lastWhere(given, (one) => one.input.command === command && before(one.at, at) && tooOld(one) === null)?.at;
  /** What a command answers that was given before: when the alarm was last raised, or had returned. */
  const tooOld = ({ input, at }: Given): number | null => {
    const last = lastWhere(crossings, (one) => before(one.at, at) && (one.up || input.command === 'reset'));
    const anew = lastWhere(again, (one) => held(active, at) && before(one.at, at));
    const since = Math.max(
      last?.at[0] ?? -Infinity,
      input.command === 'acknowledge' ? (anew?.at[0] ?? -Infinity) : -Infinity,
    );
    return input.time < since ? since : null;
  };
  /** Raised, or raised anew, and not acknowledged since. */
  const unacknowledged = (at: Moment): boolean => {
    const seen = lastCommand('acknowledge', at);
    return [...raises, ...again].some((call) => before(call.at, at) && (seen === undefined || before(seen, call.at)));
  };
  /** Returned, and not reset since. */
  const latched = (at: Moment): boolean => {
    if (config.latching !== true || held(active, at)) return false;
    const last = lastWhere(crossings, (one) => before(one.at, at) && !one.up);
    const reset = lastWhere(
      given,
      (one) => one.input.command === 'reset' && before(one.at, at) && tooOld(one) === null && !held(active, one.at),
    )?.at;
    return last !== undefined && (reset === undefined || before(reset, last.at));
  };

  const facts: Fact[] = [];
  const tell = (at: Moment, event: Fact['event'], always = false): void => {
    facts.push({ at, event, always });
  };
  const change =
    config.type === 'rise' || config.type === 'fall' ? { type: config.type, withinMs: config.withinMs as number } : {};
  // of a change that has passed the figure may stand as it was: its return tells the setpoint too
  const settled = 'type' in change ? { ...change, setpoint: config.setpoint } : {};
  const details = {
    ...change,
    setpoint: config.setpoint,
    priority: config.priority ?? 'medium',
    ...(config.note === undefined ? {} : { note: config.note }),
  };
  const mark = config.latching ? { latched: true as const } : {};
  const fromTo = (of: readonly Span[], begun: AlarmEvent['event'], ended: AlarmEvent['event']): void => {
    for (const { from, to } of of) {
      tell(from, {
        event: begun,
        ...(begun === 'signal_stale' ? { since: stale.find((one) => one.from === from)?.since as number } : {}),
      });
      if (to !== null) tell(to, { event: ended });
    }
  };
  fromTo(bad, 'signal_bad', 'signal_good');
  fromTo(stale, 'signal_stale', 'signal_restored');
  fromTo(chattering, 'chattering', 'chattering_ended');
  for (const { up, at, good } of crossings) {
    tell(
      at,
      up
        ? { event: 'raised', value: good.shown, ...details }
        : { event: 'returned', value: good.shown, ...mark, ...settled },
    );
  }
  tellReAlarms(figure, silences, (at, count) =>
    tell(at, {
      event: 're_alarmed',
      value: figure.lastGood(at).shown,
      ...details,
      ...(count > 1 ? { times: count } : {}),
    }),
  );
  for (const one of refused) {
    if (one !== null) tell(one.at, { event: 'refused', reason: 'older_than_last_reading', limit: one.limit }, true);
  }

  /** Where a silence ends with this moment: how often the alarm was raised in it. */
  const silent = (at: Moment): { silentRaises?: number } => {
    const ended = silences.find(({ to }) => to !== null && !before(to, at) && !before(at, to));
    return ended === undefined ? {} : { silentRaises: raises.filter((one) => spans(ended, one.at)).length };
  };
  for (const { to, by } of shelves) {
    if (to !== null && (by === 'time' || by === 'return')) tell(to, { event: 'unshelved', ...silent(to) }, true);
  }
  for (const { from, to, mode, unsaid } of suppressed) {
    tell(from, { event: 'suppressed', mode }, true);
    const missed = unsaid === null ? {} : { since: unsaid };
    if (to !== null) tell(to, { event: 'unsuppressed', ...silent(to), ...missed }, true);
  }

  /** What a command is answered: by what stood before it. */
  const answer = (one: Given): Omit<AlarmEvent, 'alarm' | 'time'> => {
    const { input, at } = one;
    const no = (reason: AlarmEvent['reason'], extra = {}) => ({ event: 'refused', reason, ...extra }) as Fact['event'];
    const old = tooOld(one);
    const unheard = unsilenced.get(one);
    if (unheard !== undefined) return unheard;
    switch (input.command) {
      case 'acknowledge':
        if (!unacknowledged(at)) return no('nothing_to_acknowledge');
        return old === null ? { event: 'acknowledged' } : no('older_than_alarm', { limit: old });
      case 'reset':
        if (held(active, at) && config.latching) return no('condition_stands');
        if (!latched(at)) return no('not_latched');
        return old === null ? { event: 'reset' } : no('older_than_return', { limit: old });
      case 'shelve':
        if (held(shelves, at)) return no('already_shelved');
        if (input.forMs > longest) return no('longer_than_allowed', { limit: longest });
        return { event: 'shelved', until: Math.min(input.time, at[0]) + input.forMs };
      case 'unshelve':
        return held(shelves, at) ? { event: 'unshelved', ...silent(at) } : no('not_shelved');
      case 'remove_from_service':
        return held(service, at) ? no('already_out_of_service') : { event: 'removed_from_service' };
      case 'return_to_service':
        return held(service, at) ? { event: 'returned_to_service', ...silent(at) } : no('not_out_of_service');
    }
  };
  for (const one of given) {
    const { by, why } = one.input;
    tell(one.at, { ...answer(one), ...(by === undefined ? {} : { by }), ...(why === undefined ? {} : { why }) }, true);
  }

  /** The state that the figure and whoever has acknowledged leave it in. */
  const nameAt = (at: Moment): AlarmStateName => {
    const open = unacknowledged(at);
    if (holds(active, at)) return open ? 'unacknowledged_alarm' : 'acknowledged_alarm';
    if (latched(at)) return open ? 'latched_unacknowledged' : 'latched_acknowledged';
    return open ? 'returned_to_normal_unacknowledged' : 'normal';
  };

  // At the end of a silence: all that stands, and the end of what stood before it and stands no longer. What is
  // latched is still in alarm: raised, and returned but for the reset. What has returned and waits to be acknowledged
  // is told as returned.
  for (const { from, to } of silences) {
    if (to === null) continue;
    const stands = (
      detail: number,
      of: readonly Span[],
      begun: Fact['event'],
      ended: Fact['event'],
      { alsoBoth = false, alsoEnded = false } = {},
    ): void => {
      const at: Moment = [to[0], to[1], to[2], detail];
      const still = holds(of, to);
      if (still || alsoBoth) tell(at, { ...begun, standing: true }, true);
      if ((!still && (held(of, from) || alsoEnded)) || alsoBoth) tell(at, { ...ended, standing: true }, true);
    };
    const value = figure.good.some((one) => before(one.at, to)) ? { value: figure.lastGood(to).shown } : {};
    const since = lastStanding(stale, to) as (typeof stale)[number] | undefined;
    stands(1, bad, { event: 'signal_bad' }, { event: 'signal_good' });
    stands(2, stale, { event: 'signal_stale', since: since?.since ?? 0 }, { event: 'signal_restored' });
    const state = nameAt(to);
    const back = { ...value, ...('value' in value ? settled : {}), ...(latched(to) ? mark : {}) };
    const returned = { event: 'returned', state, ...back } as const;
    const waits = { alsoBoth: latched(to), alsoEnded: unacknowledged(to) };
    stands(3, active, { event: 'raised', state, ...value, ...details }, returned, waits);
    stands(4, chattering, { event: 'chattering' }, { event: 'chattering_ended' });
  }

  const events = facts
    .filter(({ at, always }) => always || !holds(silences, at))
    .sort((a, b) => (before(a.at, b.at) ? -1 : before(b.at, a.at) ? 1 : 0))
    .map(({ at, event }) => ({ time: at[0], alarm: config.id, ...event }) as AlarmEvent);

  const end: Moment = [now, inputs.length, 0, 0];
  const name = (): AlarmStateName => {
    if (holds(service, end)) return 'out_of_service';
    if (holds(suppressed, end)) return 'suppressed_by_design';
    if (holds(shelves, end)) return 'shelved';
    return nameAt(end);
  };
  return { events, name: name() };
}

/** Re-alarms that one input hears of are one event, at the last of them; those in a silence are not told. */
function tellReAlarms(
  { again }: FigureStory,
  silences: readonly Span[],
  tell: (at: Moment, count: number) => void,
): void {
  const told = again.filter(({ at }) => !holds(silences, at));
  told.forEach(({ at, heardBy }, k) => {
    if (told[k + 1]?.heardBy === heardBy) return;
    tell(at, told.filter((one) => one.heardBy === heardBy).length);
  });
}
