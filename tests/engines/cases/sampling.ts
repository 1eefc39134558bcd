/** The walk through sampling/. */

import type { Reading } from '../../../src/reading/index.ts';
import type { FlowControlState } from '../../../src/sampling/index.ts';
import { type Next, numbersFrom, spoil } from '../inputs.ts';
import type { Library } from '../recorder.ts';
import { countsBySize } from './counts.ts';

const fluids = [
  { mm2PerS: 46, kgPerM3: 870 },
  { mm2PerS: 680, kgPerM3: 905 },
  { mm2PerS: 1, kgPerM3: 1000 },
] as const;
const lines = [
  [{ metres: 2, boreMm: 4, riseMetres: 0.5 }],
  [
    { metres: 0.5, boreMm: 12, riseMetres: -0.5, k: 1.5 },
    { metres: 6, boreMm: 6, roughnessMm: 0.05 },
  ],
  [
    { metres: 3, boreMm: 12, riseMetres: 2, strainer: { kPa: 2, mlPerMin: 500, mm2PerS: 46 } },
    { metres: 4, boreMm: 12, riseMetres: -3, k: 0.4, k1: 800 },
  ],
] as const;
const flowConfig = {
  mlPerMin: 100,
  gain: 0.1,
  integralSeconds: 2.5,
  leastPercent: 5,
  mostPercent: 90,
  slewPerSecond: 5,
  feedForward: {
    curve: [
      { mm2PerS: 70, percent: 31 },
      { mm2PerS: 150, percent: 33 },
    ],
    mlPerMin: 100,
  },
};

export function walk(motescale: Library): void {
  const next = numbersFrom(60);
  walkLines(motescale);
  walkCounting(motescale);
  walkFlowControl(motescale, next);
  walkReadings(motescale, next);
  walkOddInputs(motescale);
}

function walkLines(motescale: Library): void {
  for (const fluid of fluids) {
    for (const segments of lines) {
      for (const mlPerMin of [25, 100, 2500, 60000]) {
        motescale.lineFlow({ segments, mlPerMin, fluid });
        motescale.suctionLift({ segments, mlPerMin, fluid });
        motescale.suctionLimits({ segments, mlPerMin, fluid, inletLimitKPa: 70 });
      }
      for (const kPa of [1, 70, 800]) {
        motescale.flowForPressure({ segments, kPa, fluid });
        motescale.flowForPressure({ segments, kPa, startKPa: kPa + 50, fluid });
      }
    }
    for (const mlPerMin of [100, 30000]) {
      motescale.smallestBore({ metres: 3, riseMetres: 0.5, mlPerMin, kPa: 60, fluid });
      motescale.suspension({ size: 30, particleKgPerM3: 2650, fluid, metres: 3, boreMm: 6, mlPerMin });
    }
    for (const size of [4, 14, 100, 700]) motescale.settlingVelocity({ size, particleKgPerM3: 7800, fluid });
  }
  for (const reynolds of [0, 1, 500, 2300, 3000, 4000, 1e5, 1e8, 1e9]) {
    for (const roughness of [0, 0.001, 0.05, 0.5]) motescale.frictionFactor(reynolds, roughness);
  }
  for (const grade of [32, 320]) {
    const viscosity = motescale.viscosityLineOfGrade(grade, 100);
    const inlet = { mlPerMin: 100, viscosity, kgPerM3: 880, celsius: [40, 10, -5], inletLimitKPa: 70 };
    for (const segments of [lines[0], lines[2]]) motescale.suctionByTemperature({ segments, ...inlet });
  }
}

function walkCounting(motescale: Library): void {
  for (const reynolds of [10, 4000]) motescale.flowForReynolds({ reynolds, boreMm: 25, mm2PerS: 32 });
  const pump = { mlPerRevolution: 0.1, volumetricEfficiency: 0.83 };
  motescale.pumpSpeed({ ...pump, mlPerMin: motescale.pumpFlow({ ...pump, revolutionsPerMin: 750 }) });
  for (const mlPerMin of [10, 62.5, 100]) {
    for (const seconds of [1, 30, 600]) {
      motescale.countedVolume({ mlPerMin, seconds });
      for (const perMl of [0, 0.5, 160])
        motescale.countingConfidence({ mlPerMin, seconds, perMl }, { confidence: 0.9 });
    }
    for (const perMl of [0.1, 10, 5000]) {
      motescale.timeForCount({ perMl, mlPerMin });
      motescale.timeForCount({ perMl, mlPerMin, particles: 40, chance: 0.95 });
    }
    for (const code of ['13/11/8', '18/16/13', '-/14/11']) {
      motescale.timeForTarget({ target: motescale.limitsOf(motescale.iso4406, code), mlPerMin });
    }
    for (const profile of ['laminar', 'plug'] as const) {
      for (const renewal of [0.5, 0.99]) motescale.flush({ volumeMl: 25, mlPerMin, renewal, profile });
      for (const viscosityRatio of [1.5, 7.2, 900])
        motescale.flush({ volumeMl: 25, mlPerMin, viscosityRatio, profile });
    }
  }
  for (const mm2PerS of [10, 70, 100, 150, 500]) motescale.speedForViscosity(flowConfig.feedForward.curve, mm2PerS);
}

function walkFlowControl(motescale: Library, next: Next): void {
  const prepared = motescale.prepareFlowControl({ ...flowConfig, percentStep: 0.5, deadbandMlPerMin: 1.5 });
  let state: FlowControlState = motescale.startFlowControl(prepared);
  motescale.resumeFlowControl(prepared, motescale.startFlowControl(prepared, { percent: 20 }));
  motescale.flowControlFor({ gain: 2.4, lagSeconds: 12, deadSeconds: 5, stepSeconds: 2, percentStep: 0.5 });
  for (let i = 0; i < 150; i += 1) {
    const answer = motescale.advanceFlowControl(prepared, state, {
      elapsedSeconds: next(20) / 8,
      mlPerMin: next(12) === 0 ? null : next(1600) / 8,
      mm2PerS: next(9) === 0 ? null : 40 + next(140),
      manualPercent: i % 40 > 34 ? next(101) : null,
    });
    if (answer !== undefined) state = answer.state;
  }
}

function walkReadings(motescale: Library, next: Next): void {
  const earlier: Reading[] = [];
  for (let i = 0; i < 60; i += 1) {
    const volume = { volumeMl: 10, dilution: 1 };
    const reading: Reading = {
      counts: motescale.cumulativeCounts(countsBySize([4, 6, 14], next, 1), volume),
      time: 1000 * (i - (i % 17 === 16 ? 5 : 0)),
      mlPerMin: next(1600) / 8,
      measuringSeconds: 6 + next(60),
      kPa: next(900),
      celsius: next(120) - 20,
      mm2PerS: 1 + next(500),
      waterSaturation: next(120) / 100,
      coldestCelsius: next(60) - 20,
      flushedMl: next(400),
    };
    const found = motescale.assessReading(reading, { flushMl: 200, coincidencePerMl: 20000 }, earlier.slice(-4));
    if (found !== undefined) motescale.worstQuality(['good', found.quality]);
    for (const finding of found?.findings ?? []) motescale.findingText(finding);
    motescale.parseCounts({ sizes: ['4', 6, 14], perMl: [`${next(900)}`, next(9) === 0 ? null : next(90), next(9)] });
    motescale.codeOfFullCounts({ sizes: [4, 6, 14], perMl: ['>30000', 8100 - earlier.length, 510] });
    earlier.push(reading);
  }
}

function walkOddInputs(motescale: Library): void {
  const segments = lines[0];
  const fluid = fluids[0];
  const counts = { sizing: 'iso11171', sizes: [4, 6, 14], perMl: [1890, 402, 33] };
  const viscosity = { a: 8.6, b: 3.4, form: 'short' };
  const state = {
    ...{ percent: 20, integral: 20, feedForward: 20, mlPerMin: 100, mm2PerS: 90, mode: 'automatic' },
    ...{ byHand: false, lost: false, lostSeconds: 0, outside: false, version: 2 },
    swing: { side: 1, mean: 3, seconds: 40, count: 2 },
  };
  const prepared = motescale.prepareFlowControl(flowConfig);
  const inlet = { segments, mlPerMin: 100, viscosity, kgPerM3: 880, celsius: [40, 10], inletLimitKPa: 70 };
  const tube = { metres: 3, riseMetres: 0.5, k: 1, roughnessMm: 0, mlPerMin: 100, kPa: 60, fluid };
  const particle = { size: 30, particleKgPerM3: 2650, fluid };
  const target = { sizing: 'iso11171', bands: [{ from: 4, to: null, above: 40, upTo: 80 }] };
  spoil(motescale.lineFlow, [{ segments, mlPerMin: 100, fluid }]);
  spoil(motescale.suctionLift, [{ segments, mlPerMin: 100, fluid, atmosphereKPa: 100 }]);
  spoil(motescale.suctionLimits, [{ segments, mlPerMin: 100, fluid, inletLimitKPa: 70 }]);
  spoil(motescale.flowForReynolds, [{ reynolds: 4000, boreMm: 25, mm2PerS: 32 }]);
  spoil(motescale.pumpFlow, [{ mlPerRevolution: 0.4, volumetricEfficiency: 0.9, revolutionsPerMin: 750 }]);
  spoil(motescale.pumpSpeed, [{ mlPerRevolution: 0.4, volumetricEfficiency: 0.9, mlPerMin: 270 }]);
  spoil(motescale.flowForPressure, [{ segments: lines[2], kPa: 70, startKPa: 171, fluid }]);
  spoil(motescale.smallestBore, [tube]);
  spoil(motescale.suspension, [{ ...particle, metres: 3, boreMm: 6, mlPerMin: 100, roughnessMm: 0, lossLimit: 0.05 }]);
  spoil(motescale.settlingVelocity, [particle]);
  spoil(motescale.frictionFactor, [5000, 0.001]);
  spoil(motescale.suctionByTemperature, [inlet]);
  spoil(motescale.countedVolume, [{ mlPerMin: 100, seconds: 60 }]);
  spoil(motescale.countingConfidence, [
    { mlPerMin: 100, seconds: 6, perMl: 5 },
    { particles: 20, confidence: 0.9 },
  ]);
  spoil(motescale.timeForCount, [{ perMl: 10, mlPerMin: 100, particles: 20, chance: 0.9 }]);
  spoil(motescale.timeForTarget, [{ target, mlPerMin: 100, particles: 20, chance: 0.9 }]);
  spoil(motescale.flush, [{ volumeMl: 25, mlPerMin: 100, renewal: 0.99, profile: 'laminar', viscosityRatio: 7.2 }]);
  spoil(motescale.speedForViscosity, [flowConfig.feedForward.curve, 100]);
  spoil(motescale.prepareFlowControl, [flowConfig]);
  spoil(motescale.startFlowControl, [prepared, { percent: 20 }]);
  spoil(motescale.resumeFlowControl, [prepared, state]);
  spoil(motescale.flowControlFor, [{ gain: 2.4, lagSeconds: 12, deadSeconds: 5 }]);
  spoil(motescale.flowControlText, [{ event: 'signal_lost', mode: 'holding', percent: 31 }]);
  spoil(motescale.advanceFlowControl, [
    prepared,
    state,
    { elapsedSeconds: 1, mlPerMin: 90, mm2PerS: 80, manualPercent: 0 },
  ]);
  spoil(motescale.assessReading, [{ counts, time: 1, mlPerMin: 100, kPa: 70, celsius: 40 }, { particles: 20 }, []]);
  spoil(motescale.worstQuality, [['good']]);
}
