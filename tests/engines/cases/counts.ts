/** The walk through counts/. */
import type { CumulativeCounts, Sizing } from '../../../src/counts/index.ts';
import { type Next, numbersFrom, spoil } from '../inputs.ts';
import type { Library } from '../recorder.ts';

const sizings: readonly Sizing[] = ['iso11171', 'iso11171b', 'iso4402', 'microscope'];
const sizeSets: readonly (readonly number[])[] = [
  [4, 6, 14],
  [4, 6, 14, 21, 38, 70],
  [2, 4.6, 6.4, 9.8, 21.2, 38.2],
  [5, 15],
  [5, 15, 25, 50, 100],
  [4],
  [1, 3, 10, 30],
];
const methods = ['monotone', 'log_log', 'log_log2'] as const;
const models = ['paralyzable', 'non_paralyzable', 'wales_wilson', 'princen_kwolek'] as const;

/** Counts by size that fall with size, each a whole number over `divisor`; some of the largest sizes hold nothing. */
export function countsBySize(sizes: readonly number[], next: Next, divisor: number): Record<number, number> {
  const at: Record<number, number> = {};
  let whole = 0;
  for (let i = sizes.length - 1; i >= 0; i -= 1) {
    if (i === 0 || next(4) > 0) whole += next(40 * (whole + 10));
    at[sizes[i] as number] = whole / divisor;
  }
  return at;
}

export function walk(motescale: Library): void {
  const next = numbersFrom(14);
  for (let i = 0; i < 140; i += 1) walkSample(motescale, next, sizeSets[i % sizeSets.length] as readonly number[]);
  walkStatistics(motescale, next);
  walkSizings(motescale);
  walkCoincidence(motescale);
  walkDilution(motescale, next);
  walkOddInputs(motescale);
}

function walkSample(motescale: Library, next: Next, sizes: readonly number[]): void {
  const sizing = sizings[next(sizings.length)] as Sizing;
  const perMl = motescale.cumulativeCounts(countsBySize(sizes, next, 8), { sizing });
  motescale.cumulativeCounts(countsBySize(sizes, next, 1), { sizing, per: '100mL' });
  motescale.cumulativeCounts(countsBySize(sizes, next, 1), { volumeMl: (1 + next(400)) / 8, dilution: 1 + next(9) });
  motescale.fromDifferential(motescale.toDifferential(perMl));
  motescale.equivalentDustMgPerL(perMl);
  motescale.sizeAt(perMl, (perMl.perMl[0] as number) / (1 + next(7)));
  for (const method of methods) {
    motescale.countAt(perMl, 7, { method });
    motescale.countAt(perMl, 3 + next(100) / 4, { method, extrapolate: true });
  }
  motescale.countBounds(perMl, next(80) / 2);
}

function walkStatistics(motescale: Library, next: Next): void {
  for (const n of [0, 1, 2, 3, 5, 7, 10, 19, 20, 30, 50, 100, 400]) {
    for (const confidence of [0.5, 0.95, 0.999]) motescale.countInterval(n, { confidence });
  }
  // the limits of many take a small engine a tenth of a second and more
  for (const n of [1000, 12345, 1e6, 1e9, 1e10]) motescale.countInterval(n);
  for (let i = 0; i < 60; i += 1) {
    const a = { counted: next(1 + i * i), volumeMl: (1 + next(40)) / 4 };
    motescale.countsDiffer(a, { counted: next(1 + i * i), volumeMl: 10 });
    motescale.volumeForCount((1 + next(10000)) / 64, 1 + next(100));
  }
  const own = numbersFrom(15);
  const sample = () => motescale.cumulativeCounts(countsBySize([4, 6, 14], own, 1), { volumeMl: (1 + own(40)) / 4 });
  for (let i = 0; i < 20; i += 1) motescale.compareCounts(sample(), sample(), { confidence: 0.9 });
}

function walkSizings(motescale: Library): void {
  for (const from of sizings) {
    for (const to of sizings) {
      for (const size of [0.5, 1, 2.5, 4, 5, 6.4, 14, 15.5, 30, 61, 100]) motescale.convertSizing(size, from, to);
      motescale.convertCounts({ sizing: from, sizes: [5, 15.5, 30], perMl: [640, 80, 7] }, to);
    }
  }
}

function walkCoincidence(motescale: Library): void {
  for (const model of models) {
    for (const loss of [0.01, 0.05, 0.25]) {
      const sensingVolumeMl = motescale.sensingVolume({ limitPerMl: 24000, model, loss });
      for (const perMl of [0, 1, 640, 9000, 24000, 90000, 5e6]) {
        motescale.coincidenceLoss(perMl, { sensingVolumeMl, model });
        motescale.correctCoincidence(perMl, { sensingVolumeMl, model });
      }
    }
  }
}

function walkDilution(motescale: Library, next: Next): void {
  for (let i = 0; i < 40; i += 1) {
    motescale.testDustCounts(next(2000) / 64);
    const volumes = { sampleMl: (1 + next(100)) / 4, diluentMl: next(400) / 4 };
    motescale.undilute({ mixturePerMl: next(100000) / 8, diluentPerMl: next(1000) / 8, ...volumes });
  }
}

function walkOddInputs(motescale: Library): void {
  const counts: CumulativeCounts = { sizing: 'iso11171', sizes: [4, 6, 14], perMl: [1890, 402, 33] };
  const counted = { counted: 12, volumeMl: 10 };
  spoil(motescale.cumulativeCounts, [
    { 4: 1890, 6: 402 },
    { volumeMl: 10, dilution: 2 },
  ]);
  spoil(motescale.toDifferential, [counts]);
  spoil(motescale.fromDifferential, [{ sizing: 'iso11171', ranges: [{ from: 4, to: null, perMl: 3 }] }]);
  spoil(motescale.convertSizing, [5, 'iso4402', 'iso11171']);
  spoil(motescale.convertCounts, [counts, 'iso4402']);
  spoil(motescale.countAt, [counts, 10, { method: 'monotone', extrapolate: true }]);
  spoil(motescale.countBounds, [counts, 10]);
  spoil(motescale.sizeAt, [counts, 100]);
  spoil(motescale.equivalentDustMgPerL, [counts]);
  spoil(motescale.countInterval, [20, { confidence: 0.9 }]);
  spoil(motescale.volumeForCount, [2.5, 20]);
  spoil(motescale.countsDiffer, [counted, counted, { confidence: 0.9 }]);
  const raw = motescale.cumulativeCounts({ 4: 1890, 6: 402 }, { volumeMl: 10 });
  spoil(motescale.compareCounts, [raw, raw, { confidence: 0.9 }]);
  spoil(motescale.coincidenceLoss, [100, { sensingVolumeMl: 0.001, model: 'paralyzable' }]);
  spoil(motescale.correctCoincidence, [100, { sensingVolumeMl: 0.001, model: 'paralyzable' }]);
  spoil(motescale.sensingVolume, [{ limitPerMl: 24000, model: 'paralyzable', loss: 0.05 }]);
  spoil(motescale.testDustCounts, [10]);
  spoil(motescale.undilute, [{ mixturePerMl: 520, diluentPerMl: 5, sampleMl: 10, diluentMl: 90 }]);
  spoil(motescale.isMotescaleError, [{ name: 'MotescaleError', code: 'negative' }]);
}
