/** Who writes into an answer or a configuration changes nothing for the next caller (common practice). */
import { expect, test } from 'vitest';
import * as motescale from '../../src/index.ts';

const counts = motescale.cumulativeCounts({ 4: 1890, 6: 402, 14: 33 });
const flow = { mlPerMin: 45, gain: 0.2, integralSeconds: 4, leastPercent: 8, mostPercent: 92, slewPerSecond: 4 };
const points = [
  { mm2PerS: 24, percent: 46 },
  { mm2PerS: 98, percent: 43 },
];
const response = { gain: 2, lagSeconds: 3, deadSeconds: 1, stepSeconds: 1 };
const config = { ...flow, feedForward: { curve: points, mlPerMin: 45 }, response };
const falling = { sizing: 'iso11171' as const, sizes: [4, 6, 14], perMl: [100, 200, 300] };

const answers: { readonly [name: string]: () => unknown } = {
  assessReading: () => motescale.assessReading({ counts, mlPerMin: 0, waterSaturation: 1, celsius: 40 }),
  countsRise: () => motescale.assessReading({ counts: falling }),
  prepareMonitor: () => motescale.prepareMonitor({ codes: [] }),
  prepareAcceptance: () => motescale.prepareAcceptance({ table: motescale.iso4406, target: '18/16/13', readings: 5 }),
  startMonitor: () => motescale.startMonitor(motescale.prepareMonitor({ codes: [] })),
  startFlowControl: () => motescale.startFlowControl(motescale.prepareFlowControl(flow)),
  prepareFlowControl: () => motescale.prepareFlowControl(config),
  isoGradeLimits: () => motescale.isoGradeLimits(46),
  agmaGradeLimits: () => motescale.agmaGradeLimits('5'),
  saeGearGradeLimits: () => motescale.saeGearGradeLimits('90'),
  saeEngineGradeLimits: () => motescale.saeEngineGradeLimits('10W'),
};

/** Every object that can be written into, set to nonsense. */
function spoil(value: unknown): void {
  if (typeof value !== 'object' || value === null || Object.isFrozen(value)) return;
  for (const name of Object.keys(value)) {
    const members = value as { [name: string]: unknown };
    spoil(members[name]);
    members[name] = 'spoilt';
  }
}

test.each(Object.keys(answers))('%s answers as before when its answer was written into', (name) => {
  const ask = answers[name] as () => unknown;
  const before = JSON.stringify(ask());
  spoil(ask());
  expect(JSON.stringify(ask())).toBe(before);
});
