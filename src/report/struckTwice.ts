/** Which times of an hour that is struck twice the lines of a file do not settle. */

/** How a list goes: down where its newest time comes first; whether a time may come again in the next line. */
export interface Course {
  readonly falls: boolean;
  readonly repeats: boolean;
}

/** The moments that a line can mean, ascending. */
type Meant = readonly number[];

/**
 * The places of times with two moments of which the lines in order, those of that hour in a row and the one above and
 * below them, allow either; or all of them where no order is possible.
 */
export function unsettled(moments: readonly Meant[], { falls, repeats }: Course): number[] {
  const open: number[] = [];
  const lines = moments
    .map((meant, place) => ({ meant: falls ? mirrored(meant) : meant, place }))
    .filter(({ meant }) => meant.length > 0);
  const isTwice = (at: number) => at < lines.length && (lines[at] as { meant: Meant }).meant.length > 1;
  for (let from = 0; from < lines.length; from += 1) {
    if (!isTwice(from)) continue;
    let end = from + 1;
    while (isTwice(end)) end += 1;
    const near = lines.slice(Math.max(0, from - 1), end + 1);
    const rising = near.map(({ meant }) => meant);
    const earliest = chain(rising, repeats);
    // seen from the other end of time
    const latest = chain(rising.map(mirrored).reverse(), repeats)?.reverse();
    near.forEach(({ meant, place }, i) => {
      if (meant.length > 1 && (earliest === null || earliest[i] !== -(latest?.[i] as number))) open.push(place);
    });
    from = end;
  }
  return open;
}

function mirrored(meant: Meant): Meant {
  return meant.map((moment) => -moment).reverse();
}

/** The earliest moment that each line can mean where all rise; null where they cannot. */
function chain(lines: readonly Meant[], repeats: boolean): number[] | null {
  let before = -Infinity;
  const moments: number[] = [];
  for (const meant of lines) {
    const next = meant.filter((moment) => moment > before || (repeats && moment === before))[0];
    if (next === undefined) return null;
    before = next;
    moments.push(next);
  }
  return moments;
}
