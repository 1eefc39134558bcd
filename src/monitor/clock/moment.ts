/** What a monitor does with an input that is no reading: the passing of time, a command, the order to learn anew. */
import { relearn } from '../followed/figures.ts';
import { type Draft, passTime, tellSilence, wasHeardOnHost } from '../passing.ts';
import type {
  MonitorCommand,
  MonitorEvent,
  MonitorInput,
  MonitorState,
  PreparedMonitor,
  ReadingInput,
  Relearn,
  WatchedAlarm,
} from '../types.ts';
import { decide } from './aside.ts';
import { newestOf } from './clock.ts';
import { judgeMoment, leastTold, onReadingsClock } from './momentClock.ts';

/** An input that is no reading; of a unit also that another configuration is in force. */
export type Moment = Exclude<MonitorInput, ReadingInput> | { readonly kind: 'configuration'; readonly time: number };

/** Takes it as of its time, or of the monitor's where that is later or the time is doubted. */
export function takeMoment(
  prepared: PreparedMonitor,
  before: MonitorState,
  input: Moment,
  events: MonitorEvent[],
): MonitorState {
  const { time: moment, lagMs } = onReadingsClock(before, input.time);
  const judged = judgeMoment(prepared, before, moment);
  let state = decide(prepared, before, judged, moment, events);
  if (judged.move === 'set') state = withShelves(before, state);
  let time = before.time === undefined ? moment : Math.max(before.time, moment);
  if (judged.move === 'aside') time = before.time as number;
  if (judged.move === 'set') time = moment;
  const next = pass(prepared, state, input, moment, time, events);
  if (lagMs !== before.lagMs && judged.move !== 'set') {
    if (lagMs === undefined) delete next.lagMs;
    else next.lagMs = lagMs;
  }
  const isTold = judged.move === 'aside' && input.kind === 'tick' && !wasHeardOnHost(prepared, before, input.time);
  if (isTold) tellSilence(prepared, next, time, moment, time, events);
  return next;
}

/** No moment makes a shelf longer: where it sets a clock that readings set back again, the end would stay ahead. */
function withShelves(before: MonitorState, state: MonitorState): MonitorState {
  const alarms = state.alarms.map((alarm, i) => {
    const { shelf } = alarm;
    // none ends before the moment
    const until = Math.max(before.alarms[i]?.shelf?.until ?? Infinity, state.time as number);
    return shelf === undefined || shelf.until <= until ? alarm : { ...alarm, shelf: { ...shelf, until } };
  });
  return { ...state, alarms };
}

/** What the kind of the input asks for besides the passing of time. */
function pass(
  prepared: PreparedMonitor,
  state: MonitorState,
  input: Moment,
  given: number,
  time: number,
  events: MonitorEvent[],
): Draft {
  if (input.kind === 'command') {
    const { alarm } = input as MonitorCommand;
    return passTime(prepared, state, time, events, (i) =>
      prepared.alarms[i]?.plan.id === alarm ? { command: input, taken: givenAt(state, i, input.time, given) } : nothing,
    );
  }
  if (input.kind === 'tick') return passTime(prepared, state, time, events, () => ({ mode: input.mode }));
  const next = passTime(prepared, state, time, events, () => nothing);
  if (input.kind === 'configuration') return next;
  next.followed = relearn(prepared.follow, next.followed, input as Relearn, Math.min(given, time), time, events);
  return next;
}

/**
 * When a command was given, on the clock by which its alarm was last told: that of the readings, unless a moment had
 * gone ahead of the reading. Where nothing ties the two clocks, as late as it may have been: a clock less off is right.
 */
function givenAt(state: MonitorState, i: number, time: number, given: number): number {
  const { since = -Infinity, realarmed = since } = state.alarms[i] as WatchedAlarm;
  const newest = newestOf(state);
  const { receivedAt } = state;
  if (receivedAt === undefined) return (realarmed > newest ? Math.max(time, given) : given) + leastTold(state);
  return Math.max(given, realarmed > newest ? time : time + newest - receivedAt);
}

const nothing = {};

/**
 * Sorted by time; what happened at one time stays in the order it came, and what came before the clock was set stays
 * before it.
 */
export function inOrderOfTime(events: MonitorEvent[]): MonitorEvent[] {
  for (let i = 1; i < events.length; i += 1) {
    const event = events[i] as MonitorEvent;
    if (event.event === 'clock_set') continue;
    let place = i;
    while (place > 0 && (events[place - 1] as MonitorEvent).time > event.time) {
      if ((events[place - 1] as MonitorEvent).event === 'clock_set') break;
      events[place] = events[place - 1] as MonitorEvent;
      place -= 1;
    }
    events[place] = event;
  }
  return events;
}
