/** What docs/sure.md and docs/comparison.md say of few particles or none, measured. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import {
  type ClassSpan,
  classify,
  codeUncertainty,
  continuousScaleNumber,
  iso4406,
  likelyClasses,
  nas1638,
  possibleClasses,
  type StandardResult,
  scaleNumber,
  subtractBlank,
  zetaScore,
} from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { poissonOf, shares } from '../../chance.ts';
import { some } from '../../volume.ts';
import { allSizes, type Distribution, randomFrom, shapes } from '../population.ts';

const countingAlone = { volume: 0, sizing: 0 };

/** The cells of a row of a page, as figures. */
function cellsOf(page: string, start: string): number[] {
  const row = readFileSync(page, 'utf8')
    .split('\n')
    .find((line) => line.startsWith(start)) as string;
  return row
    .slice(start.length)
    .split('|')
    .map((cell) => Number.parseFloat(cell))
    .filter((figure) => figure === figure);
}

/** In per cent: how often two counts of one oil have a zeta above 3. */
function falseAlarms(expected: number, a: number, b: number): number {
  const known = new Map<string, StandardResult>();
  const resultOf = (counted: number, volumeMl: number): StandardResult => {
    const key = `${counted} in ${volumeMl}`;
    const [column] = codeUncertainty(iso4406, cumulativeCounts({ 4: counted }, { volumeMl }), countingAlone).columns;
    const { perMl, relative } = column as NonNullable<typeof column>;
    known.set(key, { value: continuousScaleNumber(perMl), standard: relative / Math.LN2 });
    return known.get(key) as StandardResult;
  };
  const result = (counted: number, volumeMl: number) =>
    known.get(`${counted} in ${volumeMl}`) ?? resultOf(counted, volumeMl);
  const share = shares(7);
  const runs = some(20000, 4000);
  let above = 0;
  for (let run = 0; run < runs; run += 1) {
    const one = result(poissonOf(expected, share), a);
    const other = result(poissonOf((expected / a) * b, share), b);
    if (Math.abs(zetaScore(one, other)) > 3) above += 1;
  }
  return (100 * above) / runs;
}

test.each(['0.3', '1', '2', '5', '10', '20 and more'])('zeta above 3 of two counts of one oil: %s expected', (row) => {
  const [alike, unlike] = cellsOf('docs/sure.md', `| ${row} |`) as [number, number];
  // three standard deviations of the draw, and the rounding of the page
  const near = (share: number) => 0.55 + 300 * Math.sqrt(((share / 100) * (1 - share / 100)) / some(20000, 4000));
  const expected = Number.parseFloat(row);
  expect(Math.abs(falseAlarms(expected, 10, 10) - alike)).toBeLessThan(near(alike));
  expect(Math.abs(falseAlarms(expected, 1, 25) - unlike)).toBeLessThan(near(unlike));
});

test('how often the limits of a count hold the truth', () => {
  const means = cellsOf('docs/sure.md', '| particles expected |');
  const held = cellsOf('docs/sure.md', '| held |');
  expect(means).toHaveLength(9);
  means.forEach((mean, i) => {
    let inside = 0;
    let chance = Math.exp(-mean);
    for (let counted = 0; counted < mean + 60; counted += 1) {
      const [column] = codeUncertainty(
        iso4406,
        cumulativeCounts({ 4: counted }, { volumeMl: 1 }),
        countingAlone,
      ).columns;
      const { low, high } = column as NonNullable<typeof column>;
      if (low <= mean && mean <= high) inside += chance;
      chance *= mean / (counted + 1);
    }
    expect(Math.abs(100 * inside - (held[i] as number)), `${mean}`).toBeLessThan(1);
  });
});

test('with a zero more, NAS 1638 is most probably dirtier', () => {
  const of = (at: Record<number, number>) =>
    codeUncertainty(nas1638, cumulativeCounts({ 6: 182, 14: 9, 21: 2, ...at }, { volumeMl: 10 })).mostProbable.text;
  expect([of({ 38: 0 }), of({ 38: 0, 70: 0 })]).toEqual(['3', '6']);
});

const place = (name: string) => (name.startsWith('>') ? nas1638.classes.length : nas1638.classes.indexOf(name));

/** In per cent: how often the class of the oil lies within the likely and the possible classes of what was counted. */
function heldBy(least: number, most: number, volumeMl: number): [likely: number, possible: number] {
  const [next, share] = [randomFrom(11), shares(12)];
  const runs = some(2000, 400);
  const within = [0, 0] as [number, number];
  for (let run = 0; run < runs; run += 1) {
    const draw = Object.values(shapes)[run % 4] as (next: () => number) => Distribution;
    const oil = draw(next);
    const factor = (least * (most / least) ** next()) / oil(4);
    const at = Object.fromEntries(allSizes.map((size) => [size, Number((oil(size) * factor).toPrecision(6))]));
    const truth = place(classify(nas1638, cumulativeCounts(at)).worst);
    const counted = (perMl: number) => poissonOf(perMl * factor * volumeMl, share);
    const at14 = counted(oil(14));
    const at6 = at14 + counted(oil(6) - oil(14));
    const counts = cumulativeCounts({ 4: at6 + counted(oil(4) - oil(6)), 6: at6, 14: at14 }, { volumeMl });
    const holds = ({ lowest, highest }: ClassSpan) => truth >= place(lowest) && truth <= place(highest);
    if (holds(likelyClasses(nas1638, counts))) within[0] += 100 / runs;
    if (holds(possibleClasses(nas1638, counts))) within[1] += 100 / runs;
  }
  return within;
}

test('what counting by chance does to likely and possible classes', () => {
  // three standard deviations of the draw
  const near = 3 * Math.sqrt((66 * 34) / some(2000, 400));
  for (const [least, most, volumeMl, likely, possible] of [
    [20, 100, 1, 66, 81],
    [20, 100, 10, 91, 96],
    [500, 3000, 1, 95, 98],
    [500, 3000, 10, 98, 99.7],
  ] as const) {
    const held = heldBy(least, most, volumeMl);
    expect(Math.abs(held[0] - likely)).toBeLessThan(near);
    expect(Math.abs(held[1] - possible)).toBeLessThan(near);
  }
  const page = readFileSync('docs/comparison.md', 'utf8');
  for (const row of ['| 20 to 100 | 1 mL | 66 % | 81 % |', '| | 10 mL | 91 % | 96 % |', '| | 10 mL | 98 % | 99.7 % |'])
    expect(page).toContain(row);
});

test('a sample may be detected to one side where the limits to both sides reach 0', () => {
  const found = [...Array(60).keys()].map((counted) =>
    subtractBlank({ counted, volumeMl: 10 }, { counted: 20, volumeMl: 10 }),
  );
  expect(found.some(({ detected, low }) => detected && low <= 0)).toBe(true);
});

test('a target judged by the upper limit of a difference, and by the difference alone', () => {
  const page = readFileSync('docs/laboratory.md', 'utf8').replace(/\s+/g, ' ');
  const said = /by the difference in (\S+) %, by `high` in (\S+) %/.exec(page)?.slice(1).map(Number) as [
    number,
    number,
  ];
  const share = shares(4406);
  const runs = some(5000, 1000);
  let [bare, upper] = [0, 0];
  for (let run = 0; run < runs; run += 1) {
    const [counted, blank] = [poissonOf(9, share), poissonOf(4, share)];
    const net = subtractBlank({ counted, volumeMl: 10 }, { counted: blank, volumeMl: 10 });
    if (scaleNumber(Math.max(0, net.perMl)) <= 5) bare += 1;
    if (scaleNumber(Math.max(0, net.high)) <= 5) upper += 1;
  }
  expect(Math.abs((100 * bare) / runs - said[0])).toBeLessThan(3);
  expect(Math.abs((100 * upper) / runs - said[1])).toBeLessThan(0.5);
});
