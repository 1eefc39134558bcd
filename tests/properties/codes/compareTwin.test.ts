/** Whether two codes can be those of one sample: sums of intervals, for a class over ranges against two sizes. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { compareCodes, iso4406Microscope, nas1638 } from '../../../src/codes/index.ts';
import { some } from '../../volume.ts';

const at = <T>(list: readonly T[], i: number): T => list[i] as T;

/** Numbers above one and up to another; from 0, which it holds, where there is nothing below. Per 100 mL. */
interface Span {
  readonly above: number;
  readonly upTo: number;
  readonly hasEnd: boolean;
}
const sumOf = (a: Span, b: Span): Span => ({
  above: a.above + b.above,
  upTo: a.upTo + b.upTo,
  // the sum reaches its lower end only where both do
  hasEnd: a.hasEnd && b.hasEnd,
});
const common = (a: Span, b: Span): Span => {
  const above = Math.max(a.above, b.above);
  const ends = [a, b].filter((span) => span.above === above);
  return { above, upTo: Math.min(a.upTo, b.upTo), hasEnd: ends.every((span) => span.hasEnd) };
};
const isPossible = ({ above, upTo, hasEnd }: Span) => above < upTo || (above === upTo && hasEnd);

/** What a scale number says, per 100 mL: the limits have two decimals per mL, so 100 times them is whole. */
function scaleSpan(number: number): Span {
  const per100 = (i: number) => Math.round((at(iso4406Microscope.limits, i)[0] as number) * 100);
  return number === 0
    ? { above: 0, upTo: per100(0), hasEnd: true }
    : { above: per100(number - 1), upTo: per100(number), hasEnd: false };
}

const { classes, columns } = nas1638;

/** One range is of the class, the others of it or cleaner; tried for each range. The last place: beyond all classes. */
function canBe(place: number, at5: number, at15: number): boolean {
  const limits = (nas1638.limits[place] ?? columns.map(() => Infinity)) as number[];
  return limits.some((_, worst) => {
    const spans = limits.map((limit, i): Span => {
      if (i !== worst || place === 0) return { above: 0, upTo: limit, hasEnd: true };
      return { above: at(nas1638.limits, place - 1)[i] as number, upTo: limit, hasEnd: false };
    });
    if (!spans.every(isPossible)) return false;
    const [smallest, ...larger] = spans as [Span, ...Span[]];
    const from15 = common(larger.reduce(sumOf), scaleSpan(at15));
    return isPossible(from15) && isPossible(common(sumOf(smallest, from15), scaleSpan(at5)));
  });
}

test('a class of NAS 1638 against a microscope code: possible where the intervals meet, and nowhere else', () => {
  const seen = { possible: 0, not: 0 };
  const tries = some(3000, 600);
  const codes = fc.tuple(fc.nat(classes.length), fc.integer({ min: 1, max: 24 }), fc.nat(12));
  fc.assert(
    fc.property(codes, ([place, at5, below]) => {
      const at15 = Math.max(0, at5 - below);
      const code = classes[place] ?? '>12';
      const second = { table: iso4406Microscope, code: `-/${at5}/${at15}` };
      const { possible } = compareCodes({ table: nas1638, code }, second);
      const twin = canBe(place, at5, at15);
      seen[twin ? 'possible' : 'not'] += 1;
      expect(possible, `${code} and -/${at5}/${at15}`).toBe(twin);
    }),
    { numRuns: tries },
  );
  expect(Math.min(seen.possible, seen.not)).toBeGreaterThan(tries / 15);
});
