/** The walk through filtration/. */
import type { Tank, TankBySize } from '../../../src/filtration/index.ts';
import { numbersFrom, spoil } from '../inputs.ts';
import type { Library } from '../recorder.ts';
import { countsBySize } from './counts.ts';

const betas = [1, 1.5, 2, 20, 75, 200, 1000] as const;

export function walk(motescale: Library): void {
  for (const beta of betas) {
    motescale.efficiencyOfBeta(beta);
    motescale.betaOfEfficiency(1 - 1 / beta);
    for (const count of [0, 1, 3, 7]) motescale.shareRemaining(count, beta);
    motescale.combineFilters({ series: [beta, { filter: 75, bypass: 0.125 }] });
    motescale.combineFilters({
      parallel: [
        { litresPerMin: 30, filter: beta },
        { litresPerMin: 10, filter: 200 },
      ],
    });
    for (const ingressionPerMin of [0, 5e6, 1e9]) {
      walkTank(motescale, { litres: 400, litresPerMin: 40, beta, perMl: 9000, ingressionPerMin });
    }
  }
  const element = [
    { size: 6.5, beta: 75 },
    { size: 8, beta: 200 },
  ];
  for (const size of [4, 6.5, 7, 8, 14]) motescale.betaAt(element, size, { below: 'extrapolated' });
  motescale.combineFiltersBySize({ filter: { series: [betas, betas] }, bypass: 0.125 });
  for (const minutes of [0, 10, 45.5]) motescale.turnovers({ litres: 400, litresPerMin: 40 }, minutes);
  for (const count of [0, 1, 7]) motescale.timeForTurnovers({ litres: 400, litresPerMin: 40 }, count);
  walkSizes(motescale);
  walkOddInputs(motescale);
}

function walkTank(motescale: Library, tank: Tank): void {
  const { beta: _beta, ...withoutBeta } = tank;
  const { litresPerMin: _flow, ...withoutFlow } = tank;
  motescale.steadyState(tank);
  for (const minutes of [0, 5, 60]) {
    motescale.cleanUp(tank, minutes);
    motescale.betaToReach(withoutBeta, 160, minutes);
    motescale.flowToReach(withoutFlow, 160, minutes);
  }
  for (const perMl of [20, 640, 9000, 12000]) {
    motescale.timeToReach(tank, perMl);
    motescale.betaToHold(withoutBeta, perMl);
    motescale.flowToHold(withoutFlow, perMl);
  }
  const readings = [0, 10, 25, 60].map((minutes) => ({ minutes, perMl: (9000 * 16) / (16 + minutes) }));
  motescale.estimateIngression(tank, readings);
}

function walkSizes(motescale: Library): void {
  const next = numbersFrom(7);
  for (let i = 0; i < 20; i += 1) {
    const counts = motescale.cumulativeCounts(countsBySize([4, 6, 14], next, 8));
    const tank: TankBySize = { litres: 100 + next(900), litresPerMin: 10 + next(90), counts, beta: [2, 75, 1000] };
    motescale.filtrationRatios(counts, motescale.cumulativeCounts(countsBySize([4, 6, 14], next, 8)));
    motescale.cleanUpCounts(tank, next(100));
    motescale.cleanUpCurve(tank, 50);
    motescale.steadyStateCounts(tank);
    motescale.timeToReachCode(tank, motescale.limitsOf(motescale.iso4406, '16/14/11'));
  }
}

function walkOddInputs(motescale: Library): void {
  const loop = { litres: 400, litresPerMin: 40 };
  const tank = { ...loop, beta: 75, perMl: 9000, ingressionPerMin: 1e6 };
  const counts = { sizing: 'iso11171', sizes: [4, 6, 14], perMl: [9000, 2400, 160] };
  const bySize = { ...loop, counts, beta: [20, 75, 1000], ingressionPerMin: [1e6, 1e5, 1e4] };
  const target = { sizing: 'iso11171', bands: [{ from: 6, to: null, above: 80, upTo: 160 }] };
  spoil(motescale.efficiencyOfBeta, [75]);
  spoil(motescale.betaOfEfficiency, [0.9]);
  spoil(motescale.shareRemaining, [3, 75]);
  spoil(motescale.betaAt, [
    [
      { size: 6.5, beta: 75 },
      { size: 8, beta: 200 },
    ],
    7,
    { below: 'none' },
  ]);
  spoil(motescale.combineFiltersBySize, [{ filter: [20, 75, 1000], bypass: 0.125 }]);
  spoil(motescale.combineFilters, [{ filter: 75, bypass: 0.125 }]);
  spoil(motescale.steadyState, [tank]);
  spoil(motescale.cleanUp, [tank, 10]);
  spoil(motescale.timeToReach, [tank, 160]);
  spoil(motescale.betaToHold, [tank, 160]);
  spoil(motescale.flowToHold, [tank, 160]);
  spoil(motescale.betaToReach, [tank, 160, 30]);
  spoil(motescale.flowToReach, [tank, 160, 30]);
  spoil(motescale.turnovers, [loop, 10]);
  spoil(motescale.timeForTurnovers, [loop, 7]);
  spoil(motescale.estimateIngression, [tank, [{ minutes: 0, perMl: 9000 }]]);
  spoil(motescale.filtrationRatios, [counts, counts]);
  spoil(motescale.cleanUpCounts, [bySize, 10]);
  spoil(motescale.cleanUpCurve, [bySize, 10]);
  spoil(motescale.steadyStateCounts, [bySize]);
  spoil(motescale.timeToReachCode, [bySize, target]);
}
