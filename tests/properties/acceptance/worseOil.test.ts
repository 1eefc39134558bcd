/** How often oil worse than the target passes a proof that is tried again and again, as docs/flush.md says it. */
import { expect, test } from 'vitest';
import { advanceAcceptance, prepareAcceptance, startAcceptance } from '../../../src/acceptance/index.ts';
import { iso4406 } from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { normalOf, poissonOf, shares } from '../../chance.ts';
import { some } from '../../volume.ts';
import { expectStated } from './statedShare.ts';

const runs = some(400, 30);

/** A factor for each reading of one proof. */
type Proof = (share: () => number) => () => number;

const exact: Proof = () => () => 1;

/** In per cent: accepted within so many readings, at so many times the limit of 20 per mL (ISO 4406:2021, Table 1). */
function accepted(
  readings: number,
  worse: number,
  volumeMl: number,
  tries: number,
  proof: Proof = exact,
  polls = 1,
): number {
  const prepared = prepareAcceptance({ table: iso4406, target: '21/18/11', readings });
  const share = shares(readings);
  let found = 0;
  for (let run = 0; run < runs; run += 1) {
    let state = startAcceptance(prepared);
    const factor = proof(share);
    for (let i = 0; i < tries && state.accepted === undefined; i += 1) {
      const large = poissonOf(20 * worse * volumeMl * factor(), share);
      const middle = large + poissonOf(600 * volumeMl, share);
      const counts = cumulativeCounts(
        { 4: middle + poissonOf(5400 * volumeMl, share), 6: middle, 14: large },
        { volumeMl },
      );
      for (let poll = 0; poll < polls && state.accepted === undefined; poll += 1) {
        const time = (i + poll / polls) * 600000;
        state = advanceAcceptance(prepared, state, { time, mlPerMin: 45, counts }).state;
      }
    }
    if (state.accepted !== undefined) found += 1;
  }
  return (100 * found) / runs;
}

test.each([
  [3, 1.1, 2, 144, 94],
  [3, 1.1, 2, 12, 18],
  [3, 1.1, 10, 144, 10],
  [3, 1.3, 4, 144, 0],
  [5, 1.1, 10, 144, 0],
])(
  '%d readings in a row, %d times the limit, %d mL, %d readings: %d of 100',
  (readings, worse, volume, tries, stated) => {
    expectStated(accepted(readings, worse, volume, tries), stated, runs);
  },
);

test('each count read twice passes no oftener than once', () => {
  const once = accepted(3, 1.1, 2, 48, exact);
  expect(once).toBeGreaterThan(30);
  expect(accepted(3, 1.1, 2, 48, exact, 2)).toBe(once);
});

test.each([
  [25, 8, 1],
  [22, 0.3, 0],
  [2, 0.5, 0.1],
])('clean oil of %d, %d and %d particles a reading, where chance repeats counts, proves within twelve', (...means) => {
  const limits = { qualities: { no_particles: 'good' as const } };
  const prepared = prepareAcceptance({ table: iso4406, target: '16/14/11', readings: 5, limits });
  const share = shares(7);
  for (let k = 0; k < some(200, 20); k += 1) {
    let state = startAcceptance(prepared);
    for (let i = 0; i < 12; i += 1) {
      const [small, middle, large] = means.map((mean) => poissonOf(mean, share)) as [number, number, number];
      const counts = cumulativeCounts({ 4: small + middle + large, 6: middle + large, 14: large }, { volumeMl: 10 });
      state = advanceAcceptance(prepared, state, { time: i * 600000, mlPerMin: 45, counts }).state;
    }
    expect(state.accepted).toBeDefined();
  }
});

/** Sizes off by 3 % at a slope of 3, and a volume off by 3 %: the same through the whole proof. */
const miscalibrated: Proof = (share) => {
  const factor = Math.exp(0.095 * normalOf(share));
  return () => factor;
};

/** Slugs: each reading of its own, with a scatter as large as its mean. */
const slugs: Proof = (share) => () => -Math.log(1 - share());

test.each<[string, Proof, number, number, number, number]>([
  ['counter off by 9.5 %', miscalibrated, 1.1, 10, 12, 10],
  ['counter off by 9.5 %', miscalibrated, 1.1, 10, 48, 16],
  ['counter off by 9.5 %', miscalibrated, 1.1, 50, 48, 17],
  ['counter off by 9.5 %', miscalibrated, 1.05, 10, 48, 33],
  ['readings that scatter by 100 %', slugs, 1.3, 10, 48, 64],
])('five in a row, %s, %d times the limit, %d mL, %d readings: %d of 100', (_name, proof, worse, volume, ...row) => {
  const [tries, stated] = row;
  expectStated(accepted(5, worse, volume, tries, proof), stated, runs);
});
