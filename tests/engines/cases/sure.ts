/** The walk through what says how sure a count and a code are, and the laboratory's arithmetic. */
import type { ClassTable } from '../../../src/codes/index.ts';
import { numbersFrom, spoil } from '../inputs.ts';
import type { Library } from '../recorder.ts';

export function walk(motescale: Library): void {
  walkCodes(motescale);
  walkVerdict(motescale);
  walkCounts(motescale);
  walkLaboratory(motescale);
  walkBuckets(motescale);
  walkOddInputs(motescale);
}

/** Few particles, where the sums are short, and many, where a formula takes their place; between lie the slow ones. */
function walkCodes(motescale: Library): void {
  const { iso4406, nas1638 } = motescale;
  const samples: [ClassTable, Record<number, number>, number][] = [
    [iso4406, { 4: 21, 6: 3, 14: 0 }, 10],
    [iso4406, { 4: 45000, 6: 9000, 14: 1200 }, 10],
    [iso4406, { 4: 3e8, 6: 3e8, 14: 2000 }, 500],
    [nas1638, { 6: 60000, 14: 12000, 21: 3000 }, 25],
  ];
  for (const [table, at, volumeMl] of samples) {
    const counts = motescale.cumulativeCounts(at, { volumeMl });
    const found = motescale.codeUncertainty(table, counts, { coincidence: 0.05, sampling: 0.1, certificate: 0.01 });
    if (found !== undefined) motescale.probabilityChart(found, { width: 300 });
    motescale.codeUncertainty(table, counts, { volume: 0, sizing: 0 }, { confidence: 0.8 });
    for (const target of table === iso4406 ? ['14/13/10', '12/8/3', '18/-/-'] : ['6', '8']) {
      motescale.targetProbability(table, target, counts, { flow: 0.02 });
    }
  }
  for (const code of ['-/18/13', '-/16/12', '-/3/3']) {
    for (const name of ['00', '6', '8', '>12']) {
      motescale.compareCodes({ table: nas1638, code: name }, { table: motescale.iso4406Microscope, code });
    }
  }
}

/** What a verdict and a period say of a target. */
function walkVerdict(motescale: Library): void {
  const { iso4406 } = motescale;
  const counts = motescale.cumulativeCounts({ 4: 12600, 6: 4700, 14: 12 }, { volumeMl: 10 });
  const codes = [{ table: iso4406, target: '17/16/10', errors: { volume: 0.02 } }];
  const prepared = motescale.prepareMonitor({ codes });
  motescale.advanceMonitor(prepared, motescale.startMonitor(prepared), { time: 0, counts });
  motescale.periodSummary(motescale.periodFigures([{ time: 0, counts }], { target: '17/16/10', errors: {} }));
}

function walkCounts(motescale: Library): void {
  const next = numbersFrom(17);
  for (let i = 0; i < 40; i += 1) {
    const a = { counted: next(10 + i * i), volumeMl: (1 + next(40)) / 4 };
    const b = { counted: next(10 + i), volumeMl: (1 + next(40)) / 4 };
    motescale.subtractBlank(a, b);
    motescale.subtractDiluent(a, b, { sampleMl: 1 + next(9), diluentMl: 1 + next(90) }, { confidence: 0.9 });
    motescale.countChange(a, { counted: b.counted, volumeMl: b.volumeMl, dilution: 1 + next(10) });
    motescale.detectionLimits(b, a.volumeMl);
    const repeats: number[] = [];
    for (let k = 0; k < 2 + (i % 9); k += 1) repeats.push(next(100) + i * i);
    motescale.indexOfDispersion(repeats);
    motescale.blandAltman(repeats.map((n) => ({ line: n / 8, laboratory: (n + next(20)) / 8 })));
    const [u, v] = [next(100) / 16, (1 + next(100)) / 16];
    motescale.enScore({ value: next(1000), expanded: u }, { value: next(1000), expanded: v });
    motescale.zetaScore({ value: next(1000), standard: u }, { value: next(1000), standard: v });
  }
}

function walkLaboratory(motescale: Library): void {
  const next = numbersFrom(3);
  for (let i = 0; i < 20; i += 1) {
    const effectiveMm2 = motescale.membraneArea(20 + next(30)) ?? 1000;
    const fields = 1 + next(30);
    motescale.microscopeCount({ counted: next(500), fields, fieldMm2: 0.75, effectiveMm2, volumeMl: 1 + next(100) });
    motescale.fieldsForPrecision(1 + next(90), fields, (1 + next(50)) / 100);
    const [beforeMg, afterMg] = [80 + next(100) / 128, 80 + next(300) / 128];
    motescale.gravimetricLevel({ beforeMg, afterMg, volumeMl: 1 + next(100), balanceMg: 0.05 });
    const control = { controlBeforeMg: beforeMg, controlAfterMg: beforeMg - next(9) / 128 };
    motescale.gravimetricLevel({ beforeMg, afterMg, ...control, volumeMl: 100, balanceMg: 0.02, volume: 0.01 });
  }
}

function walkBuckets(motescale: Library): void {
  const next = numbersFrom(5);
  const how = { widthMs: 60000, holdMs: 90000 };
  const readings: { time: number; value: null; counted: number[]; volumeMl: number }[] = [];
  for (let i = 0; i < 60; i += 1) {
    const n = next(400);
    readings.push({ time: i * 17000, value: null, counted: [n, n - next(n + 1)], volumeMl: (1 + next(40)) / 7 });
  }
  const parts = [motescale.rollUp(readings.slice(0, 31), how), motescale.rollUp(readings.slice(31), how)] as const;
  for (const bucket of motescale.mergeRollUps(parts[0], parts[1], how) ?? []) {
    motescale.bucketCounts(bucket, [4, 14], { sizing: 'iso11171', dilution: 2 });
  }
  spoil(motescale.bucketCounts, [{ counted: [3, 1], volumeMl: 10 }, [4, 14], { sizing: 'iso11171' }]);
}

function walkOddInputs(motescale: Library): void {
  const { iso4406 } = motescale;
  const counts = { sizing: 'iso11171', sizes: [4], perMl: [2], counted: [4], volumeMl: 2 };
  const one = { counted: 12, volumeMl: 10 };
  const code = { table: iso4406, code: '18/16/13' };
  const none = { volume: 0, sizing: 0 };
  spoil(motescale.codeUncertainty, [iso4406, counts, none, { confidence: 0.9 }]);
  spoil(motescale.probabilityChart, [
    motescale.codeUncertainty(iso4406, counts as never, none),
    { title: 'A', width: 300 },
  ]);
  spoil(motescale.targetProbability, [iso4406, '1/-/-', counts, none, { columns: ['4'] }]);
  spoil(motescale.compareCodes, [code, code, { sizing: 'iso11171' }]);
  spoil(motescale.subtractBlank, [one, one, { confidence: 0.9 }]);
  spoil(motescale.subtractDiluent, [one, one, { sampleMl: 1, diluentMl: 9 }, { confidence: 0.9 }]);
  spoil(motescale.countChange, [one, one, { confidence: 0.9 }]);
  spoil(motescale.detectionLimits, [one, 10]);
  spoil(motescale.indexOfDispersion, [[3, 4]]);
  spoil(motescale.blandAltman, [[{ line: 1, laboratory: 2 }]]);
  spoil(motescale.enScore, [
    { value: 1, expanded: 1 },
    { value: 2, expanded: 1 },
  ]);
  spoil(motescale.zetaScore, [
    { value: 1, standard: 1 },
    { value: 2, standard: 1 },
  ]);
  spoil(motescale.microscopeCount, [
    { counted: 9, fields: 3, fieldMm2: 1, effectiveMm2: 900, volumeMl: 50, dilution: 2 },
    { confidence: 0.9 },
  ]);
  spoil(motescale.fieldsForPrecision, [31, 5, 0.1]);
  spoil(motescale.membraneArea, [38.5]);
  spoil(motescale.gravimetricLevel, [
    {
      beforeMg: 80,
      afterMg: 81,
      controlBeforeMg: 79,
      controlAfterMg: 79,
      volumeMl: 100,
      balanceMg: 0.05,
      volume: 0.01,
    },
  ]);
}
