/** A valid call of each function that takes numbers, words, lists of them or tables: the others are in tests/house. */
import * as acceptance from '../../../src/acceptance/index.ts';
import * as alarm from '../../../src/alarm/index.ts';
import * as codes from '../../../src/codes/index.ts';
import * as counts from '../../../src/counts/index.ts';
import * as filtration from '../../../src/filtration/index.ts';
import * as history from '../../../src/history/index.ts';
import * as monitor from '../../../src/monitor/index.ts';
import * as reading from '../../../src/reading/index.ts';
import * as sampling from '../../../src/sampling/index.ts';
import * as trend from '../../../src/trend/index.ts';
import * as viscosity from '../../../src/viscosity/index.ts';
import * as water from '../../../src/water/index.ts';
import type { Call } from '../../house/misspelt/calls.ts';

const known = { sizing: 'iso11171', sizes: [4, 6, 14], perMl: [1890, 402, 33] } as const;

const settings = {
  ...{ mlPerMin: 100, gain: 0.1, integralSeconds: 2.5, leastPercent: 5, mostPercent: 90, slewPerSecond: 5 },
};
const flow = sampling.prepareFlowControl(settings);

const proof = acceptance.prepareAcceptance({ table: codes.iso4406, target: '18/16/13', readings: 3, leastLitres: 20 });
/** A run half-way, with a reading that lacks a size. */
const proving = [
  { time: 0, counts: known, mlPerMin: 60, litres: 0 },
  { time: 60000, counts: known, mlPerMin: 60, litres: 12.5 },
  { time: 120000, counts: { ...known, sizes: [4, 6], perMl: [1890, 402] }, mlPerMin: 60, litres: 25 },
].reduce(
  (state, one) => acceptance.advanceAcceptance(proof, state, one as acceptance.AcceptanceReading).state,
  acceptance.startAcceptance(proof),
);
const hot = alarm.prepareAlarm({ id: 'hot', type: 'high', setpoint: 65, deadband: 3, onDelayMs: 60000 });
const rise = alarm.prepareAlarm({ id: 'rise', type: 'rise', setpoint: 5, withinMs: 3600000 });
const shelved = { kind: 'command', time: 120000, command: 'shelve', forMs: 60000, by: 'Ada' } as const;
/** One that stands, is shelved and has been raised before; one that watches a rise. */
const standing = [{ time: 0, value: 66 }, { time: 60000, value: 67 }, shelved].reduce(
  (state, one) => alarm.advanceAlarm(hot, state, one).state,
  alarm.startAlarm(hot),
);
const rising = [0, 600000, 1200000].reduce(
  (state, time, i) => alarm.advanceAlarm(rise, state, { time, value: 40 + i }).state,
  alarm.startAlarm(rise),
);

const watched = monitor.prepareMonitor({
  codes: [{ table: codes.iso4406, target: '18/16/13' }],
  alarms: [{ id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 65 }],
  follow: [{ id: 'six', figure: { continuousScaleNumberAt: 6 } }],
  restoredAfter: 5,
});
/** After a reading whose water is bad, one behind the next, one far ahead. */
const watching = [0, 3600000, 1800000, 4e10].reduce(
  (state, time) =>
    monitor.advanceMonitor(watched, state, {
      ...{ time, counts: known, celsius: 66, waterSaturation: 0.4 },
      ...(time === 0 ? { qualities: { waterSaturation: 'bad' } } : {}),
    }).state,
  monitor.startMonitor(watched),
);

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
  ['combineFiltersBySize', filtration.combineFiltersBySize, [{ filter: [20, 75, 1000], bypass: 0.05 }]],
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
  ['startAcceptance', acceptance.startAcceptance, [proof]],
  ['resumeAcceptance', acceptance.resumeAcceptance, [proof, proving]],
  ['acceptanceWanting', acceptance.acceptanceWanting, [proof, proving]],
  ['alarmStateName', alarm.alarmStateName, [standing]],
  ['startAlarm', alarm.startAlarm, [hot]],
  ['advanceAlarm', alarm.advanceAlarm, [hot, standing, { ...shelved, time: 180000, oneShot: true, why: 'the pump' }]],
  ['advanceAlarm', alarm.advanceAlarm, [hot, standing, { kind: 'tick', time: 180000, mode: 'standby' }]],
  [
    'prepareAlarm',
    alarm.prepareAlarm,
    [
      {
        ...{ id: 'hot', type: 'high', setpoint: 65, deadband: 3, priority: 'high', onDelayMs: 60000, offDelayMs: 0 },
        ...{ latching: true, longestShelfMs: 3600000, staleAfterMs: 7200000, reAlarmAfterMs: 86400000 },
        ...{ chattering: { raises: 3, withinMs: 600000 }, suppressedInModes: ['standby'], note: 'look at the cooler' },
      },
    ],
  ],
  ['resumeAlarm', alarm.resumeAlarm, [hot, standing]],
  ['resumeAlarm', alarm.resumeAlarm, [rise, rising]],
  ['rollUpWidth', history.rollUpWidth, [7 * 86400000, 200]],
  ['worstQuality', reading.worstQuality, [['good', 'bad']]],
  ['startChange', trend.startChange, []],
  [
    'resumeChange',
    trend.resumeChange,
    [{ ...trend.startChange(), last: 3, since: 1, ring: [1, null, 2.5], level: 1.5 }],
  ],
  [
    'leastSquaresLine',
    trend.leastSquaresLine,
    [
      [0, 1, 2],
      [4, 4.5, 6],
    ],
  ],
  ['mgPerKgOfMgPerL', water.mgPerKgOfMgPerL, [150, 870]],
  ['mgPerLOfMgPerKg', water.mgPerLOfMgPerKg, [150, 870]],
  ['mgPerKgOfVolumePpm', water.mgPerKgOfVolumePpm, [150, 870]],
  ['volumePpmOfMgPerKg', water.volumePpmOfMgPerKg, [150, 870]],
  ['dewPoint', water.dewPoint, [20, 0.6]],
  ['saturationPressure', water.saturationPressure, [20]],
  ['condensationTemperature', water.condensationTemperature, [2.3]],
  ['startMonitor', monitor.startMonitor, [watched]],
  ['alarmSummary', monitor.alarmSummary, [watched, watching]],
  ['resumeMonitor', monitor.resumeMonitor, [watched, watching]],
];
