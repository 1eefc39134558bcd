/**
 * Random inputs, the same on every run, for both libraries, in the forms of 0.1.0. Each step draws its inputs before it
 * calls.
 */
import { stream } from '../doubles.ts';
import type { Face } from './adapter.ts';

type Call = (...inputs: readonly unknown[]) => unknown;
type Library = Readonly<Record<string, Call>>;
const tableNames = [
  ...['iso4406', 'iso4406Microscope', 'as4059Differential', 'as4059Cumulative', 'nas1638'],
  ...['gost17216', 'sae749d', 'navair', 'cc1246'],
];
const minute = 60000;

/** Counts at sizes, falling, over many orders of magnitude, often none at the large end. */
function fallingCounts(random: () => number, sizes: readonly number[], most: number): Record<number, number> {
  let count = Math.floor(10 ** (most * random()));
  const at: Record<number, number> = {};
  for (const size of sizes) {
    at[size] = count;
    count = Math.floor(count * random() ** 2);
  }
  return at;
}

/** From low to high, evenly over orders of magnitude. */
const spread = (random: () => number, low: number, high: number) => low * (high / low) ** random();

function codes(face: Face, random: () => number): void {
  const library = face as Library;
  const pick = <T>(list: readonly T[]) => list[Math.floor(random() * list.length)] as T;
  const table = face[pick(tableNames)];
  const other = face[pick(tableNames)];
  const sizing = random() < 0.6 ? 'iso11171' : 'microscope';
  const sizes = sizing === 'iso11171' ? [4, 6, 14, 21, 38, 70] : [2, 5, 15, 25, 50, 100];
  const raw = { volumeMl: Math.ceil(random() * 1000) / 8, dilution: 1 + Math.floor(random() * 9), sizing };
  const at = fallingCounts(random, sizes, 7);
  const [size, level, confidence] = [spread(random, 1, 100), spread(random, 1e-3, 1e6), 0.5 + 0.49 * random()];
  const counts = library.cumulativeCounts?.(at, random() < 0.5 ? raw : { sizing, per: '100mL' });
  const found = library.classify?.(table, counts) as { text: string } | undefined;
  if (found !== undefined) {
    library.meets?.(other, found.text, counts);
    library.parseCode?.(table, found.text);
  }
  const bands = library.limitsOf?.(face.iso4406, `${Math.floor(28 * random())}/${Math.floor(20 * random())}/-`);
  library.possibleClasses?.(counts, other);
  library.possibleClasses?.(bands, other);
  library.likelyClasses?.(counts, other);
  library.likelyClasses?.(bands, table);
  library.countAt?.(counts, size, { method: pick(['monotone', 'log-log', 'log-log2']), extrapolate: random() < 0.5 });
  library.countBounds?.(counts, size);
  library.sizeAt?.(counts, level);
  library.convertCounts?.(counts, pick(['iso11171', 'iso11171b', 'iso4402']));
  library.equivalentDustMgPerL?.(counts);
  library.scaleNumber?.(level);
  library.continuousScaleNumber?.(level);
  library.countInterval?.(Math.floor(level), { confidence });
  library.countsDiffer?.({ counted: at[sizes[1] as number], volumeMl: 10 }, { counted: 40, volumeMl: 7.5 });
  const model = pick(['paralyzable', 'non-paralyzable', 'wales-wilson', 'princen-kwolek']);
  library.correctCoincidence?.(level, { sensingVolumeMl: spread(random, 1e-7, 1e-4), model });
}

function oil(face: Face, random: () => number): void {
  const library = face as Library;
  const [at40, share] = [spread(random, 3, 2000), spread(random, 2.2, 30)];
  const line = library.viscosityLine?.([
    { celsius: 40, mm2PerS: at40 },
    { celsius: 100, mm2PerS: at40 / share },
  ]);
  const [celsius, fraction] = [-40 + 190 * random(), random()];
  library.viscosityAt?.(line, celsius);
  library.temperatureAt?.(line, spread(random, 2, 5000));
  library.viscosityIndex?.({ at40, at100: at40 / share });
  const parts = [
    { fraction, mm2PerS: at40 },
    { fraction: 1 - fraction, mm2PerS: 100 },
  ];
  library.blendViscosity?.(parts, random() < 0.5 ? 'astm' : 'refutas');
  library.convertViscosity?.(at40, 'mm2/s', random() < 0.5 ? 'SUS' : 'engler');
  library.densityAt?.(700 + 300 * random(), celsius);
  library.dewPoint?.(celsius, random());
  library.relativeSaturation?.(face.mineralInsulatingOil, spread(random, 1, 1000), celsius);
}

function loops(face: Face, random: () => number): void {
  const library = face as Library;
  const loop = { litres: spread(random, 1, 1e4), litresPerMin: spread(random, 0.1, 1e3), beta: spread(random, 1, 1e4) };
  const tank = {
    ...loop,
    perMl: spread(random, 0.1, 1e6),
    ingressionPerMin: random() < 0.3 ? 0 : spread(random, 1, 1e8),
  };
  const [minutes, target] = [spread(random, 0.1, 1e4), tank.perMl * spread(random, 1e-4, 2)];
  const { beta: _beta, ...withoutBeta } = tank;
  const { litresPerMin: _flow, ...withoutFlow } = tank;
  library.cleanUp?.(tank, minutes);
  library.timeToReach?.(tank, target);
  library.steadyState?.(tank);
  library.flowToReach?.(withoutFlow, target, minutes);
  library.betaToReach?.(withoutBeta, target, minutes);
  library.flowToHold?.(withoutFlow, target);
  const segments = [
    { metres: spread(random, 1, 20), boreMm: spread(random, 2, 30), riseMetres: 2 * random() - 1 },
    { metres: spread(random, 0.1, 5), boreMm: spread(random, 2, 30), k: 3 * random() },
  ];
  const fluid = { mm2PerS: spread(random, 2, 2000), kgPerM3: 800 + 200 * random() };
  const mlPerMin = spread(random, 10, 50000);
  library.lineFlow?.({ segments, mlPerMin, fluid });
  library.suctionLimits?.({ segments, mlPerMin, fluid, inletLimitKPa: 100 * random() });
  library.flowForPressure?.({ segments, kPa: spread(random, 1, 1000), fluid });
  library.settlingVelocity?.({ size: spread(random, 1, 300), particleKgPerM3: 7850, fluid });
  library.countingConfidence?.({ mlPerMin, seconds: spread(random, 1, 1000), perMl: spread(random, 1e-3, 1e3) });
}

/** A unit for some hours: alarms on figures and codes, changes followed, a flush to be proved, and the series of it. */
function watched(face: Face, random: () => number): void {
  const library = face as Library;
  const config = {
    codes: [
      { table: face.iso4406, target: '18/16/13' },
      { table: face.nas1638, target: '7' },
    ],
    limits: { leastKPa: 750, mostMm2PerS: 400, mlPerMin: { low: 30, high: 200 } },
    alarms: [
      { id: 'hot', type: 'high', setpoint: 60 + 10 * random(), deadband: 2, figure: { quantity: 'celsius' } },
      { id: 'code', type: 'high', figure: { code: 'iso4406' }, setpoint: '19/17/14', onDelayMs: 2 * minute },
      { id: 'fast', type: 'rise', setpoint: 1, withinMs: 30 * minute, figure: { continuousScaleNumberAt: 4 } },
    ],
    follow: [{ id: 'at 6', figure: { perMlAt: 6 }, blockMs: 5 * minute, blocks: 24 }],
    staleAfterMs: 12 * minute,
  };
  // flat counts are judged otherwise where few were counted, and would lead the proofs apart: readings and monitor show
  // it
  const limits = { ...config.limits, flattestSteepness: null };
  const proof = { table: face.iso4406, target: '18/16/13', readings: 3, limits };
  const proofs = [
    { ...proof, leastMs: 4 * minute, longestGapMs: 9 * minute },
    { ...proof, readings: 4, leastLitres: 200, longestGapMs: 15 * minute },
    { ...proof, target: '-/15/12', columns: ['6', '14'] },
    { ...proof, target: '15/13/11', readings: 2 + Math.floor(12 * random()) },
  ];
  let state = library.startMonitor?.(config);
  const runs: unknown[] = [];
  const rolled: { time: number; value: number }[] = [];
  let level = spread(random, 300, 3000);
  let time = 1.7e12;
  for (let i = 0; i < 60; i += 1) {
    time += Math.floor(minute * (random() < 0.05 ? 20 : 0.5 + random()));
    level *= 0.8 + 0.41 * random();
    const at = fallingCounts(() => 0.5 + random() / 2, [4, 6, 14], Math.log10(level));
    // none, or hardly any of the smallest size alone, is a counter that has died, for a monitor of today, and would
    // lead the states apart
    const given = {
      time,
      counts: library.cumulativeCounts?.(random() < 0.05 ? { 4: 60, 6: 20, 14: 0 } : at, { volumeMl: 10 }),
      ...(random() < 0.9 ? { celsius: 50 + 20 * random(), kPa: 600 + 400 * random() } : {}),
      ...(random() < 0.8 ? { mlPerMin: 20 + 160 * random(), mm2PerS: spread(random, 20, 500) } : {}),
    };
    rolled.push({ time, value: level });
    library.assessReading?.(given, config.limits, []);
    const step = library.advanceMonitor?.(config, state, given) as { state: unknown } | undefined;
    if (step !== undefined) state = step.state;
    const litres = Math.max(0, 60 * i - (random() < 0.03 ? 100 : 0));
    // begun anew now and then, whatever they have shown
    const late = random() < 0.2 ? 5 * minute : 0;
    proofs.forEach((one, k) => {
      if (i % (11 + k) === 0) runs[k] = library.startAcceptance?.(one);
      const proved = library.advanceAcceptance?.(one, runs[k], { ...given, time: k < 3 ? time : time - late, litres });
      if (proved !== undefined) runs[k] = (proved as { state: unknown }).state;
    });
  }
  const [times, values] = [rolled.map((one) => one.time), rolled.map(({ value }) => value)];
  library.senSlope?.(times, values);
  library.mannKendall?.(values, { times });
  const days = times.map((time) => time / 86400000);
  library.forecastCrossing?.(days, values, { level: 2 * level });
  library.rollUp?.(rolled, { widthMs: 15 * minute, holdMs: 3 * minute });
}

/** Each part so many times over. */
export const randomWalks: Readonly<Record<string, (face: Face, times: number) => void>> = Object.fromEntries(
  Object.entries({ codes, oil, loops, watched }).map(([name, walk], i) => [
    name,
    (face: Face, times: number) => {
      const random = stream(4406 + i);
      for (let k = 0; k < (name === 'watched' ? Math.ceil(times / 50) : times); k += 1) walk(face, random);
    },
  ]),
);
