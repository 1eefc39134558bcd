/**
 * Oils as they may be: the size distributions over which an estimate of classes is measured. Sizes in µm(c), counts of
 * a size and larger per mL.
 */
import {
  as4059Cumulative,
  type ClassSpan,
  type ClassTable,
  classify,
  gost17216,
  iso4406,
  likelyClasses,
  limitsOf,
  nas1638,
  navair,
  possibleClasses,
} from '../../src/codes/index.ts';
import { cumulativeCounts } from '../../src/counts/index.ts';
import dusts from '../reference/sampling/dusts.json' with { type: 'json' };

/** Particles of a size and larger, per mL. */
export type Distribution = (size: number) => number;

/** All sizes at which a table asks in µm(c), and some between. */
export const allSizes: readonly number[] = [4, 4.2, 4.6, 6, 6.4, 9.8, 10, 13.6, 14, 21, 21.2, 38, 38.2, 70];

/**
 * The shapes, each with the range of what is drawn. Every one starts at 5 to 100,000 particles per mL of 4 µm(c) and
 * larger.
 */
export const shapes: Readonly<Record<string, (next: () => number) => Distribution>> = {
  'power law, exponent 1.5 to 4.5': (next) => power(startOf(next), 1.5 + 3 * next()),
  'log-log², slope 0.6 to 2': (next) => {
    const [start, slope] = [startOf(next), 0.6 + 1.4 * next()];
    return (size) => start * 10 ** (-slope * (Math.log10(size) ** 2 - Math.log10(4) ** 2));
  },
  'ISO medium test dust': (next) => {
    const start = startOf(next);
    return (size) => (start * dust(size)) / dust(4);
  },
  'wear: a power law of 2.5 to 4.5, and 0.1 to 5 % of one of 1.5 to 2.5': (next) => worn(next, 0.05, 1.5),
};

/** Beyond those that the estimate is chosen over: it holds less often. */
export const harsherShapes: typeof shapes = {
  'harsher wear: a power law of 2.5 to 4.5, and 0.1 to 10 % of one of 1 to 2': (next) => worn(next, 0.1, 1),
};

/** Fine particles, and a share of coarse ones, a thousandth or more, whose exponent is up to one above the least. */
function worn(next: () => number, greatestShare: number, leastExponent: number): Distribution {
  const start = startOf(next);
  const share = 0.001 * (greatestShare / 0.001) ** next();
  const fine = power(start * (1 - share), 2.5 + 2 * next());
  const coarse = power(start * share, leastExponent + next());
  return (size) => fine(size) + coarse(size);
}

function startOf(next: () => number): number {
  return 5 * 20000 ** next();
}

function power(start: number, exponent: number): Distribution {
  return (size) => start * (size / 4) ** -exponent;
}

const { sizes, limits } = dusts.isoMediumTestDust;
const middles = limits['10mgL'].map(([low, high]) => ((low as number) + (high as number)) / 2);

/** Straight between the printed sizes on logarithmic scales, and on beyond 50 µm(c). */
function dust(size: number): number {
  let i = 0;
  while (i + 2 < sizes.length && (sizes[i + 1] as number) < size) i += 1;
  const [x0, x1, y0, y1] = [sizes[i], sizes[i + 1], middles[i], middles[i + 1]] as [number, number, number, number];
  return y0 * (y1 / y0) ** (Math.log(size / x0) / Math.log(x1 / x0));
}

/** Numbers from 0 up to 1, the same for the same seed. */
export function randomFrom(seed: number): () => number {
  let state = seed % 2147483647 || 1;
  return () => {
    state = (state * 48271) % 2147483647;
    return state / 2147483647;
  };
}

/**
 * How an estimate did: how often the truth lay within, and the mean number of classes it named; those that must hold
 * beside it.
 */
export interface Coverage {
  readonly within: number;
  readonly width: number;
  readonly certainWidth: number;
}

/** The tables that the estimate is measured in, from ISO 4406 sizes. */
export const measuredTables: readonly ClassTable[] = [nas1638, as4059Cumulative, gost17216, navair];

/** So many oils of one shape, each known at 4, 6 and 14 µm(c) only: by its counts, or by their code. */
export function measure(
  known: 'counts' | 'code',
  table: ClassTable,
  draw: (next: () => number) => Distribution,
  runs: number,
  seed: number,
): Coverage {
  const next = randomFrom(seed);
  const at = (distribution: Distribution, sizes: readonly number[]) =>
    cumulativeCounts(Object.fromEntries(sizes.map((size) => [size, Number(distribution(size).toPrecision(6))])));
  const place = (name: string) => (name.startsWith('>') ? table.classes.length : table.classes.indexOf(name));
  const width = ({ lowest, highest }: ClassSpan) => place(highest) - place(lowest) + 1;
  const sum = { within: 0, width: 0, certainWidth: 0 };
  for (let run = 0; run < runs; run += 1) {
    const oil = draw(next);
    const truth = place(classify(table, at(oil, allSizes)).worst);
    const counts = at(oil, [4, 6, 14]);
    const seen = known === 'counts' ? counts : limitsOf(iso4406, classify(iso4406, counts));
    const likely = likelyClasses(table, seen);
    sum.within += truth >= place(likely.lowest) && truth <= place(likely.highest) ? 1 : 0;
    sum.width += width(likely);
    sum.certainWidth += width(possibleClasses(table, seen));
  }
  return { within: sum.within / runs, width: sum.width / runs, certainWidth: sum.certainWidth / runs };
}
