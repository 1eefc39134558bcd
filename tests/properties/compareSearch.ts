/**
 * A second search for a sample of two codes, in whole numbers without end: every limit in units of 1e-13 per 100 mL
 * times a thousand, so that "more than" is one unit more. All choices of the column that decides are tried one by one,
 * and shortest paths between all places are taken with Floyd and Warshall's loops (T. Cormen and others, Introduction
 * to Algorithms, 2009, section 25.2). It reads codes and tables by itself.
 */
import type { ClassTable } from '../../src/codes/index.ts';
import type { Sizing } from '../../src/counts/index.ts';

/** A limit as printed, in those units. */
function unitsOf(table: ClassTable, limit: number): bigint {
  const [digits = '0', exponent = '0'] = limit.toExponential().split('e');
  const [whole = '0', decimals = ''] = digits.split('.');
  const places = 16 + Number(exponent) - decimals.length + (table.perVolumeMl === 1 ? 2 : 0);
  return BigInt(whole + decimals) * 10n ** BigInt(places);
}

/** count(of) - count(minus) is at most so much. */
type Bound = readonly [of: string, minus: string, most: bigint];

const order: readonly Sizing[] = ['iso11171', 'microscope', 'iso4402', 'iso11171b'];

/** Whether some counts have all these codes: one class over all columns or a span, or a class for each. */
export function canBeOneSample(codes: readonly (readonly [ClassTable, string])[], sizing: Sizing): boolean {
  const bounds: Bound[] = [];
  /** Of each code the lists of which one must hold. */
  const choices: Bound[][][] = [];
  const sized = new Set<number>();
  const places = new Set<string>(['none']);
  for (const [table, code] of codes) {
    const nameOf = (ends: Partial<Record<Sizing, number>> | undefined, label: string): string => {
      if (ends === undefined) return 'none';
      const known = order.filter((one) => ends[one] !== undefined);
      if (ends[sizing] !== undefined) sized.add(ends[sizing]);
      const name =
        ends[sizing] !== undefined
          ? `size ${ends[sizing]}`
          : known[0] === undefined
            ? `${table.id} ${label}`
            : `${table.id} ${known[0]} ${ends[known[0]]}`;
      places.add(name);
      bounds.push(['none', name, 0n]);
      return name;
    };
    const columns = table.columns.map(({ label, from, to }) => ({
      label,
      from: nameOf(from, label),
      to: nameOf(to, label),
      counted: Object.keys(from).length > 0,
    }));
    // every two boundaries of the table, by each sizing that both have, but those that both have the sizing chosen
    const all = table.columns.flatMap(({ label, from, to }) =>
      [from, to].flatMap((ends) => (ends === undefined ? [] : [{ ends, name: nameOf(ends, label) }])),
    );
    for (const one of all)
      for (const other of all)
        for (const way of order) {
          const [small, large] = [one.ends[way], other.ends[way]];
          if (small === undefined || large === undefined || small > large) continue;
          if (one.ends[sizing] !== undefined && other.ends[sizing] !== undefined) continue;
          bounds.push([other.name, one.name, 0n]);
        }
    const atMost = (i: number, limit: number | null | undefined): Bound[] => {
      const { from, to } = columns[i] as (typeof columns)[0];
      return limit === null || limit === undefined ? [] : [[from, to, unitsOf(table, limit)]];
    };
    const exact = (i: number, index: number): Bound[][] => {
      const { from, to } = columns[i] as (typeof columns)[0];
      const upper = atMost(i, table.limits[index]?.[i]);
      if (index === 0) return [upper];
      const before = table.limits[index - 1]?.[i];
      if (before === null || before === undefined) return [];
      return [[...upper, [to, from, -unitsOf(table, before) - 1n]]];
    };
    const indexOf = (name: string) => (name.startsWith('>') ? table.classes.length : table.classes.indexOf(name));
    if (table.notation === 'scale_numbers' || table.notation === 'scale_numbers_after_dash') {
      const parts = code.split('/').slice(-columns.length);
      parts.forEach((name, i) => {
        if (name !== '-') choices.push(exact(i, indexOf(name)));
      });
      continue;
    }
    const span = /^(.*?)([A-F])-([A-F])$/.exec(code);
    const index = indexOf(span === null ? code : (span[1] as string));
    const within = columns
      .map((_column, i) => i)
      .filter((i) => span === null || ('ABCDEF'[i] as string) >= (span[2] as string));
    for (const i of within) if (columns[i]?.counted) bounds.push(...atMost(i, table.limits[index]?.[i]));
    const others = within.filter((i) => !columns[i]?.counted).flatMap((i) => atMost(i, table.limits[index]?.[i]));
    choices.push(
      within.flatMap((i) => exact(i, index).map((way) => (columns[i]?.counted ? way : [...way, ...others]))),
    );
  }
  const sizes = [...sized].sort((a, b) => a - b);
  for (let i = 1; i < sizes.length; i += 1) bounds.push([`size ${sizes[i]}`, `size ${sizes[i - 1]}`, 0n]);
  const tryAll = (i: number, chosen: readonly Bound[]): boolean => {
    const list = choices[i];
    if (list === undefined) return isFeasible([...places], chosen);
    return list.some((way) => tryAll(i + 1, [...chosen, ...way]));
  };
  return tryAll(0, bounds);
}

function isFeasible(places: readonly string[], bounds: readonly Bound[]): boolean {
  const n = places.length;
  const at = new Map(places.map((name, i) => [name, i]));
  const far: (bigint | null)[][] = places.map((_, i) => places.map((_one, k) => (i === k ? 0n : null)));
  for (const [of, minus, most] of bounds) {
    const row = far[at.get(minus) as number] as (bigint | null)[];
    const k = at.get(of) as number;
    const old = row[k] as bigint | null;
    if (old === null || most < old) row[k] = most;
  }
  for (let via = 0; via < n; via += 1)
    for (const row of far) {
      const start = row[via] as bigint | null;
      if (start === null) continue;
      for (let k = 0; k < n; k += 1) {
        const rest = far[via]?.[k] as bigint | null;
        if (rest === null) continue;
        const old = row[k] as bigint | null;
        if (old === null || start + rest < old) row[k] = start + rest;
      }
    }
  return far.every((row, i) => (row[i] as bigint) >= 0n);
}
