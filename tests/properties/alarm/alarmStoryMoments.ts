/** Moments and spans of the alarm model's story: when things happened, in which order, and how long they held. */

/**
 * A point in the story: the time, the input that brings it, and the order within the input. What falls due at a
 * time comes before the inputs of that time; what is due only when something is older than so long comes behind
 * them.
 */
export type Moment = readonly [time: number, input: number, part: number, detail: number];

/**
 * The order in which one input has its effects. A mode that suppresses comes before the reading is judged, others
 * after.
 */
export const part = { suppress: 0, signal: 1, main: 2, chattering: 3, oneShot: 4, release: 5 } as const;

const behind = Number.POSITIVE_INFINITY;
export const shelfEnd = (time: number): Moment => [time, -1, 0, 0];
export const reAlarm = (time: number): Moment => [time, -1, 1, 0];
export const goneStale = (time: number): Moment => [time, behind, 0, 0];
export const chatterEnd = (time: number): Moment => [time, behind, 1, 0];

export function before(a: Moment, b: Moment): boolean {
  for (let i = 0; i < 4; i += 1) if (a[i] !== b[i]) return (a[i] as number) < (b[i] as number);
  return false;
}

/** From a moment up to, not including, another; `to` is null while it lasts. */
export interface Span {
  readonly from: Moment;
  readonly to: Moment | null;
}

export const spans = ({ from, to }: Span, at: Moment): boolean => !before(at, from) && (to === null || before(at, to));
export const holds = (of: readonly Span[], at: Moment): boolean => of.some((span) => spans(span, at));
/** Whether it held up to a moment, whatever the moment itself changed. */
export const held = (of: readonly Span[], at: Moment): boolean =>
  of.some(({ from, to }) => before(from, at) && (to === null || !before(to, at)));

/** Spans joined where they overlap or touch. */
export function union(of: readonly Span[]): Span[] {
  const joined: Span[] = [];
  for (const span of [...of].sort((a, b) => (before(a.from, b.from) ? -1 : 1))) {
    const last = joined[joined.length - 1];
    if (last === undefined || (last.to !== null && before(last.to, span.from))) joined.push(span);
    else if (last.to !== null && (span.to === null || before(last.to, span.to))) {
      joined[joined.length - 1] = { from: last.from, to: span.to };
    }
  }
  return joined;
}

/** The last that fits. */
export function lastWhere<T>(of: readonly T[], fits: (one: T) => boolean): T | undefined {
  for (let i = of.length - 1; i >= 0; i -= 1) if (fits(of[i] as T)) return of[i];
  return undefined;
}
