/** In which order events happened: by their times, and across a clock that was set as they were handed in. */

interface Told {
  readonly time: number;
  readonly event?: string | undefined;
  /** Of a clock that was set: what it showed before. */
  readonly from?: number | undefined;
}

/** Whether the clock was set: what is told after it came after what was told before, whatever the times say. */
export function isLeap({ event }: Pick<Told, 'event'>): boolean {
  return event === 'clock_set' || event === 'clock_set_back';
}

/** In order of time, and of one time as handed in; but nothing is moved across a clock that was set. */
export function asTheyCame<T extends Told>(events: readonly T[]): T[] {
  return inOrder(isNewestFirst(events) ? events.slice().reverse() : events, ({ time }) => time);
}

/** The same of events that stand in the order they came, by another time of theirs. */
export function inOrder<T extends Told>(came: readonly T[], timeOf: (event: T) => number): T[] {
  let stretch = 0;
  return came
    .map((event, place) => {
      if (isLeap(event)) stretch += 1;
      // the clock was set before all that was told by it
      return { event, stretch, time: isLeap(event) ? -Infinity : timeOf(event), place };
    })
    .sort((a, b) => a.stretch - b.stretch || (a.time < b.time ? -1 : a.time > b.time ? 1 : a.place - b.place))
    .map(({ event }) => event);
}

function isNewestFirst(events: readonly Told[]): boolean {
  let rises = 0;
  for (let i = 1; i < events.length; i += 1) {
    const [before, event] = [events[i - 1] as Told, events[i] as Told];
    if (isLeap(before) || isLeap(event) || before.time === event.time) continue;
    rises += event.time > before.time ? 1 : -1;
  }
  return rises < 0;
}

/**
 * How many events came before a time: all up to the first of that time or later. But one that is followed by an earlier
 * one nearer to the time was told by a clock that was ahead.
 */
export function countBefore(events: readonly Told[], time: number): number {
  let before = events.length;
  let newest = -Infinity;
  for (let i = events.length - 1; i >= 0; i -= 1) {
    const { time: own, from = own } = events[i] as Told;
    for (const shown of [own, from]) {
      if (shown < time) newest = Math.max(newest, shown);
      else if (shown - time <= time - newest) before = i;
    }
  }
  return before;
}
