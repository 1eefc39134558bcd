/** A valid call of each function that takes numbers, words, lists of them or tables: the others are in tests/house. */
import * as codes from '../../../src/codes/index.ts';
import * as counts from '../../../src/counts/index.ts';
import * as filtration from '../../../src/filtration/index.ts';
import * as sampling from '../../../src/sampling/index.ts';
import * as viscosity from '../../../src/viscosity/index.ts';
import type { Call } from '../../house/misspelt/calls.ts';

const known = { sizing: 'iso11171', sizes: [4, 6, 14], perMl: [1890, 402, 33] } as const;

const settings = {
  ...{ mlPerMin: 100, gain: 0.1, integralSeconds: 2.5, leastPercent: 5, mostPercent: 90, slewPerSecond: 5 },
};
const flow = sampling.prepareFlowControl(settings);

export const plainCalls: readonly Call[] = [
  ['convertSizing', counts.convertSizing, [10, 'iso11171', 'iso4402']],
  ['fieldsForPrecision', counts.fieldsForPrecision, [40, 4, 0.1]],
  ['membraneArea', counts.membraneArea, [37]],
  ['testDustCounts', counts.testDustCounts, [2]],
  ['volumeForCount', counts.volumeForCount, [5, 20]],
  ['cc1246Count', codes.cc1246Count, [200, 15]],
  ['cc1246Level', codes.cc1246Level, [1000, 15]],
  ['continuousScaleNumber', codes.continuousScaleNumber, [1890]],
  ['findCodes', codes.findCodes, ['ISO 4406 18/16/13']],
  ['guaranteeingCode', codes.guaranteeingCode, [codes.nas1638, '8']],
  ['indexOfDispersion', codes.indexOfDispersion, [[10, 12, 9]]],
  ['parseCode', codes.parseCode, [codes.iso4406, '18/16/13']],
  ['scaleNumber', codes.scaleNumber, [1890]],
  ['scaleNumbers', codes.scaleNumbers, [Float64Array.of(1890), new Uint8Array(1)]],
  ['possibleClasses', codes.possibleClasses, [codes.nas1638, known]],
  ['agmaGradeLimits', viscosity.agmaGradeLimits, ['5']],
  ['apiOfDensity', viscosity.apiOfDensity, [880]],
  ['apiOfRelativeDensity', viscosity.apiOfRelativeDensity, [0.88]],
  ['compareGrades', viscosity.compareGrades, [100]],
  ['densityAt', viscosity.densityAt, [880, 40]],
  ['densityAt15', viscosity.densityAt15, [865, 40]],
  ['densityOfApi', viscosity.densityOfApi, [29]],
  ['dynamicViscosity', viscosity.dynamicViscosity, [46, 870]],
  ['gradesOfOil', viscosity.gradesOfOil, [46, 6.8]],
  ['isoGrade', viscosity.isoGrade, [46]],
  ['isoGradeLimits', viscosity.isoGradeLimits, [46]],
  ['kinematicViscosity', viscosity.kinematicViscosity, [40, 870]],
  ['pressureViscosityFactor', viscosity.pressureViscosityFactor, [20000, 2e-8]],
  ['referenceViscosities', viscosity.referenceViscosities, [8]],
  ['refutasNumber', viscosity.refutasNumber, [46]],
  ['relativeDensityOfApi', viscosity.relativeDensityOfApi, [29]],
  ['saeEngineGradeLimits', viscosity.saeEngineGradeLimits, ['40']],
  ['viscosityAt100OfIndex', viscosity.viscosityAt100OfIndex, [46, 100]],
  ['viscosityAt100OfIndex', viscosity.viscosityAt100OfIndex, [1000, 100]],
  ['viscosityAt40OfIndex', viscosity.viscosityAt40OfIndex, [70, 100]],
  ...(['SUS', 'SFS', 'redwood1', 'redwood2', 'engler'] as const).flatMap((scale): Call[] => [
    ['convertViscosity', viscosity.convertViscosity, [100, 'mm2/s', scale]],
    ['convertViscosity', viscosity.convertViscosity, [scale === 'engler' ? 10 : 100, scale, 'mm2/s']],
    ['convertViscosity', viscosity.convertViscosity, [scale === 'engler' ? 10 : 100, scale, scale]],
  ]),
  ['viscosityAt40OfIndex', viscosity.viscosityAt40OfIndex, [6.8, 100]],
  ['viscosityLineOfGrade', viscosity.viscosityLineOfGrade, [46, 100]],
  ['betaOfEfficiency', filtration.betaOfEfficiency, [0.98]],
  ['efficiencyOfBeta', filtration.efficiencyOfBeta, [75]],
  ['shareRemaining', filtration.shareRemaining, [3, 75]],
  ['combineFilters', filtration.combineFilters, [{ parallel: [{ litresPerMin: 10, filter: 75 }] }]],
  ['frictionFactor', sampling.frictionFactor, [10000, 0.001]],
  [
    'flowControlFor',
    sampling.flowControlFor,
    [{ gain: 2.4, lagSeconds: 12, deadSeconds: 5.5, stepSeconds: 2, percentStep: 1 }],
  ],
  [
    'prepareFlowControl',
    sampling.prepareFlowControl,
    [{ ...settings, longestStepSeconds: 10, percentStep: 1, deadbandMlPerMin: 2 }],
  ],
  ['resumeFlowControl', sampling.resumeFlowControl, [flow, sampling.startFlowControl(flow)]],
];
