/**
 * One valid call of each public function that takes an object, with every member filled in that goes with the others.
 */
import * as exact from '../../../src/exact/index.ts';
import * as motescale from '../../../src/index.ts';
import * as schema from '../../../src/schema/index.ts';

export type Call = readonly [name: string, call: (...inputs: never[]) => unknown, inputs: readonly unknown[]];

/** Results of the library that are handed back to it whole. */
export const handedBack: object[] = [];

function back<T extends object>(result: T): T {
  handedBack.push(result);
  return result;
}

const minute = 60000;
const { iso4406, nas1638 } = motescale;
const counts = {
  sizing: 'iso11171',
  sizes: [4, 6, 14],
  perMl: [1890, 402, 33],
  counted: [18900, 4020, 330],
  volumeMl: 10,
};
const perMl = { sizing: 'iso11171', sizes: [4, 6, 14], perMl: [1890, 402, 33] };
const bands = { sizing: 'iso11171', bands: [{ from: 6, to: null, above: 80, upTo: 160 }] };
const code = {
  table: 'iso4406',
  parts: [4, 6, 14].map((size) => ({ column: `${size}`, class: '18' })),
  text: '18/18/18',
};
const counted = { counted: 12, volumeMl: 10 };
const coincidence = { sensingVolumeMl: 0.001, model: 'paralyzable' };
const ownTable = {
  id: 'gateOil',
  title: 'Lock gate oil',
  counting: 'cumulative',
  perVolumeMl: 1,
  columns: [{ label: '6', from: { iso11171: 6 } }],
  classes: ['run', 'filter'],
  limits: [[640], [2500]],
};

const fromCounts: Call[] = [
  ['cumulativeCounts', motescale.cumulativeCounts, [{ 4: 1890 }, { volumeMl: 10, dilution: 2, sizing: 'iso11171' }]],
  ['toDifferential', motescale.toDifferential, [counts]],
  ['fromDifferential', motescale.fromDifferential, [{ sizing: 'iso11171', ranges: [{ from: 4, to: null, perMl: 3 }] }]],
  ['convertCounts', motescale.convertCounts, [counts, 'iso4402']],
  ['countAt', motescale.countAt, [counts, 10, { method: 'monotone', extrapolate: true }]],
  ['countBounds', motescale.countBounds, [counts, 10]],
  ['sizeAt', motescale.sizeAt, [counts, 100]],
  ['equivalentDustMgPerL', motescale.equivalentDustMgPerL, [perMl]],
  ['countInterval', motescale.countInterval, [20, { confidence: 0.9 }]],
  ['compareCounts', motescale.compareCounts, [counts, counts, { confidence: 0.9 }]],
  ['countsDiffer', motescale.countsDiffer, [counted, counted, { confidence: 0.9 }]],
  ['coincidenceLoss', motescale.coincidenceLoss, [100, coincidence]],
  ['correctCoincidence', motescale.correctCoincidence, [100, coincidence]],
  ['sensingVolume', motescale.sensingVolume, [{ limitPerMl: 24000, model: 'paralyzable', loss: 0.05 }]],
  ['undilute', motescale.undilute, [{ mixturePerMl: 520, diluentPerMl: 5, sampleMl: 10, diluentMl: 90 }]],
];

const fromCodes: Call[] = [
  ['classTable', motescale.classTable, [ownTable]],
  ['classify', motescale.classify, [iso4406, counts, { columns: ['4'] }]],
  ['formatCode', motescale.formatCode, [iso4406, code]],
  ['limitsOf', motescale.limitsOf, [iso4406, code, 'iso11171']],
  ['meets', motescale.meets, [iso4406, code, counts, { columns: ['4'] }]],
  ['codeInterval', motescale.codeInterval, [iso4406, counts, { confidence: 0.9 }]],
  ['possibleClasses', motescale.possibleClasses, [nas1638, bands]],
  ['likelyClasses', motescale.likelyClasses, [nas1638, counts]],
];

const errors = {
  ...{ volume: 0.01, flow: 0.01, sizing: 0.03, certificate: 0.05, coincidence: 0.01, sampling: 0.05, slope: 3 },
};
const half = { confidence: 0.9 };
const weighing = {
  ...{ beforeMg: 83.412, afterMg: 84.907, controlBeforeMg: 82.11, controlAfterMg: 82.035 },
  ...{ volumeMl: 100, balanceMg: 0.05, volume: 0.01 },
};
const fields = { counted: 312, fields: 20, fieldMm2: 0.785, effectiveMm2: 1164, volumeMl: 100 };

/** What a laboratory asks. */
const fromLaboratory: Call[] = [
  ['codeUncertainty', motescale.codeUncertainty, [iso4406, counts, errors, half]],
  ['targetProbability', motescale.targetProbability, [iso4406, code, counts, errors, { columns: ['6', '14'] }]],
  ['subtractBlank', motescale.subtractBlank, [counted, { counted: 3, volumeMl: 10 }, half]],
  ['subtractDiluent', motescale.subtractDiluent, [counted, counted, { sampleMl: 10, diluentMl: 90 }, half]],
  ['countChange', motescale.countChange, [counted, { ...counted, dilution: 5 }, half]],
  ['detectionLimits', motescale.detectionLimits, [counted, 10]],
  ['gravimetricLevel', motescale.gravimetricLevel, [weighing]],
  ['microscopeCount', motescale.microscopeCount, [fields, half]],
  [
    'enScore',
    motescale.enScore,
    [
      { value: 16.2, expanded: 0.5 },
      { value: 16.4, expanded: 0.4 },
    ],
  ],
  [
    'zetaScore',
    motescale.zetaScore,
    [
      { value: 16.2, standard: 0.5 },
      { value: 16.4, standard: 0.4 },
    ],
  ],
  ['blandAltman', motescale.blandAltman, [[16.2, 17.1, 15.4].map((line) => ({ line, laboratory: line + 0.5 }))]],
  [
    'compareCodes',
    motescale.compareCodes,
    [{ table: nas1638, code: '8' }, { table: motescale.iso4406Microscope, code: '-/18/13' }, { sizing: 'microscope' }],
  ],
];

const points = [
  { celsius: 40, mm2PerS: 46 },
  { celsius: 100, mm2PerS: 6.8 },
];
const line = { a: 8.6, b: 3.4, form: 'short' };

const fromViscosity: Call[] = [
  ['viscosityLine', motescale.viscosityLine, [points, { form: 'full' }]],
  ['ubbelohdeWaltherM', motescale.ubbelohdeWaltherM, [points]],
  ['lineResiduals', motescale.lineResiduals, [line, points]],
  ['viscosityAt', motescale.viscosityAt, [line, 40]],
  ['temperatureAt', motescale.temperatureAt, [line, 46]],
  ['blendLines', motescale.blendLines, [[{ fraction: 1, line }]]],
  [
    'blendLinesFraction',
    motescale.blendLinesFraction,
    [
      {
        first: line,
        second: { ...line, a: 8.7 },
        celsius: 40,
        mm2PerS: motescale.viscosityAt({ a: 8.65, b: 3.4, form: 'short' }, 40),
      },
    ],
  ],
  ['blendViscosity', motescale.blendViscosity, [[{ fraction: 1, mm2PerS: 46 }], 'astm']],
  ['blendFraction', motescale.blendFraction, [{ firstMm2PerS: 32, secondMm2PerS: 320, targetMm2PerS: 100 }, 'refutas']],
  ['convertViscosity', motescale.convertViscosity, [46, 'mm2/s', 'SUS', { celsius: 40 }]],
  ['viscosityIndex', motescale.viscosityIndex, [{ at40: 46, at100: 6.8 }]],
  ['agmaGrades', motescale.agmaGrades, [{ at40: 46, at100: 6.8 }]],
  ['saeEngineGrades', motescale.saeEngineGrades, [10, { hths: 3 }]],
  ['saeGearGrades', motescale.saeGearGrades, [14, { edition: '2019' }]],
  ['saeGearGradeLimits', motescale.saeGearGradeLimits, ['90', { edition: '2019' }]],
];

const water = { a: 7.5, b: 1600 };

const fromWater: Call[] = [
  [
    'solubilityLine',
    motescale.solubilityLine,
    [
      [
        { celsius: 20, mgPerKg: 60 },
        { celsius: 70, mgPerKg: 400 },
      ],
    ],
  ],
  ['solubilityAt', motescale.solubilityAt, [water, 40]],
  ['saturationTemperature', motescale.saturationTemperature, [water, 100]],
  ['relativeSaturation', motescale.relativeSaturation, [water, 100, 40]],
  ['waterContent', motescale.waterContent, [water, 0.5, 40]],
  ['freeWater', motescale.freeWater, [water, 100, 40]],
  [
    'saturationAfterCooling',
    motescale.saturationAfterCooling,
    [water, { saturation: 0.5, fromCelsius: 60, toCelsius: 20 }],
  ],
  ['insulatingOil', motescale.insulatingOil, [{ aromaticPercent: 12, mgKohPerG: 0.05 }]],
];

const values = [15, 15.25, 15, 15.5, 15.75, 16, 16.25, 16, 16.5, 17];
const times = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9];

const fromTrend: Call[] = [
  ['mannKendall', motescale.mannKendall, [values, { method: 'normal', correction: 'hamed_rao', lags: 2 }]],
  ['prepareChange', motescale.prepareChange, [{ least: 0.5, season: 0.3, resolution: 0 }]],
  [
    'advanceChange',
    motescale.advanceChange,
    [back(motescale.prepareChange()), back(motescale.startChange()), { day: 20000, value: 16 }],
  ],
  ['autocorrelatedTrend', motescale.autocorrelatedTrend, [values, { confidence: 0.9, leastCorrelation: 0.1 }]],
  ['changePoint', motescale.changePoint, [values, { confidence: 0.9 }]],
  ['senSlope', motescale.senSlope, [times, values, { confidence: 0.9 }]],
  [
    'seasonalKendall',
    motescale.seasonalKendall,
    [times.map((day) => day * 400), values, { period: 4, seasons: 2, offset: 0, confidence: 0.9 }],
  ],
  [
    'forecastCrossing',
    motescale.forecastCrossing,
    [times, values, { level: 18, direction: 'rising', confidence: 0.9 }],
  ],
  ['cusum', motescale.cusum, [values, { target: 15, slack: 0.5, decision: 2, from: { high: 0, low: 0 } }]],
  ['ewma', motescale.ewma, [values, { lambda: 0.25, start: 15, sigma: 1, width: 3, limits: 'steady' }]],
];

const strainer = { kPa: 2, mlPerMin: 500, mm2PerS: 46 };
const segments = [{ metres: 2, boreMm: 8, riseMetres: 0.5, k: 1, k1: 400, strainer, roughnessMm: 0 }];
const fluid = { mm2PerS: 46, kgPerM3: 870 };
const curve = [
  { mm2PerS: 60, percent: 20 },
  { mm2PerS: 150, percent: 45 },
];
const flowLine = { segments, mlPerMin: 100, fluid };
const particle = { size: 30, particleKgPerM3: 2650, fluid };
const flowConfig = {
  ...{ mlPerMin: 100, gain: 0.1, integralSeconds: 2.5, leastPercent: 5, mostPercent: 90, slewPerSecond: 5 },
  feedForward: { curve, mlPerMin: 100 },
};

const preparedFlow = motescale.prepareFlowControl(flowConfig);

const fromSampling: Call[] = [
  ['lineFlow', motescale.lineFlow, [flowLine]],
  ['suctionLift', motescale.suctionLift, [{ ...flowLine, atmosphereKPa: 100 }]],
  ['suctionLimits', motescale.suctionLimits, [{ ...flowLine, atmosphereKPa: 100, inletLimitKPa: 70 }]],
  [
    'suctionByTemperature',
    motescale.suctionByTemperature,
    [{ segments, mlPerMin: 100, viscosity: line, kgPerM3: 880, celsius: [40], inletLimitKPa: 70, atmosphereKPa: 100 }],
  ],
  ['flowForPressure', motescale.flowForPressure, [{ segments, kPa: 70, startKPa: 171.325, fluid }]],
  [
    'smallestBore',
    motescale.smallestBore,
    [{ metres: 3, riseMetres: 0.5, k: 1, k1: 400, strainer, roughnessMm: 0, mlPerMin: 100, kPa: 60, fluid }],
  ],
  [
    'suspension',
    motescale.suspension,
    [{ ...particle, metres: 3, boreMm: 6, mlPerMin: 100, roughnessMm: 0, lossLimit: 0.05 }],
  ],
  ['settlingVelocity', motescale.settlingVelocity, [particle]],
  ['countedVolume', motescale.countedVolume, [{ mlPerMin: 100, seconds: 60 }]],
  [
    'countingConfidence',
    motescale.countingConfidence,
    [
      { mlPerMin: 100, seconds: 6, perMl: 5 },
      { particles: 20, confidence: 0.9 },
    ],
  ],
  ['timeForCount', motescale.timeForCount, [{ perMl: 10, mlPerMin: 100, particles: 20, chance: 0.9 }]],
  ['timeForTarget', motescale.timeForTarget, [{ target: bands, mlPerMin: 100, particles: 20, chance: 0.9 }]],
  ['flowForReynolds', motescale.flowForReynolds, [{ reynolds: 4000, boreMm: 25, mm2PerS: 32 }]],
  ['pumpFlow', motescale.pumpFlow, [{ mlPerRevolution: 16, revolutionsPerMin: 1450, volumetricEfficiency: 0.92 }]],
  ['pumpSpeed', motescale.pumpSpeed, [{ mlPerRevolution: 16, mlPerMin: 60, volumetricEfficiency: 0.92 }]],
  [
    'flush',
    motescale.flush,
    [
      {
        ...{ volumeMl: 25, mlPerMin: 100, renewal: 0.99, profile: 'laminar', viscosityRatio: 7.2 },
        carryOver: { linePerMl: 30000, tankPerMl: 500, share: 0.05 },
      },
    ],
  ],
  ['speedForViscosity', motescale.speedForViscosity, [curve, 100]],
  ['flowControlText', motescale.flowControlText, [{ event: 'signal_lost', mode: 'holding', percent: 31 }]],
  ['flowControlFor', motescale.flowControlFor, [{ gain: 2.4, lagSeconds: 12, deadSeconds: 5.5 }]],
  ['prepareFlowControl', motescale.prepareFlowControl, [flowConfig]],
  ['startFlowControl', motescale.startFlowControl, [preparedFlow, { percent: 20 }]],
  [
    'advanceFlowControl',
    motescale.advanceFlowControl,
    [
      preparedFlow,
      motescale.startFlowControl(preparedFlow),
      { elapsedSeconds: 1, mlPerMin: 90, mm2PerS: 80, manualPercent: 30, ready: true },
    ],
  ],
];

const loop = { litres: 400, litresPerMin: 40 };
const tank = { ...loop, beta: 75, perMl: 9000, ingressionPerMin: 1e6 };
const { beta: _beta, ...withoutBeta } = tank;
const { litresPerMin: _flow, ...withoutFlow } = tank;
const bySize = { ...loop, counts: perMl, beta: [20, 75, 1000], ingressionPerMin: [1e6, 1e5, 1e4] };
const over = [0, 10, 20].map((minutes) => ({ minutes, perMl: 9000 - minutes }));

const fromFiltration: Call[] = [
  ['combineFilters', motescale.combineFilters, [{ series: [2, { filter: 75, bypass: 0.125 }] }]],
  [
    'combineFiltersBySize',
    motescale.combineFiltersBySize,
    [{ series: [[2, 4], { filter: [75, 200], bypass: 0.125 }] }],
  ],
  [
    'betaAt',
    motescale.betaAt,
    [
      [
        { size: 6.5, beta: 75 },
        { size: 8, beta: 200 },
      ],
      7,
      { below: 'unfiltered' },
    ],
  ],
  ['filtrationRatios', motescale.filtrationRatios, [counts, perMl]],
  ['steadyState', motescale.steadyState, [tank]],
  ['cleanUp', motescale.cleanUp, [tank, 10]],
  ['timeToReach', motescale.timeToReach, [tank, 160]],
  ['betaToHold', motescale.betaToHold, [withoutBeta, 160]],
  ['flowToHold', motescale.flowToHold, [withoutFlow, 160]],
  ['betaToReach', motescale.betaToReach, [withoutBeta, 160, 30]],
  ['flowToReach', motescale.flowToReach, [withoutFlow, 160, 30]],
  ['turnovers', motescale.turnovers, [loop, 10]],
  ['timeForTurnovers', motescale.timeForTurnovers, [loop, 7]],
  ['estimateIngression', motescale.estimateIngression, [{ ...loop, beta: 75 }, over]],
  ['cleanUpCounts', motescale.cleanUpCounts, [bySize, 10]],
  ['cleanUpCurve', motescale.cleanUpCurve, [bySize, 10]],
  ['steadyStateCounts', motescale.steadyStateCounts, [bySize]],
  ['timeToReachCode', motescale.timeToReachCode, [bySize, bands]],
];

const reading = {
  ...{ time: 1e12, counts, mlPerMin: 100, measuringSeconds: 6, kPa: 800, celsius: 40, mm2PerS: 46 },
  ...{ waterSaturation: 0.3, coldestCelsius: 20, flushedMl: 400 },
};
const limits = {
  mlPerMin: { low: 50, high: 150 },
  solubility: { b: 1600 },
  qualities: { flow_low: 'bad' },
};
const alarm = {
  ...{ id: 'tank oil hot', type: 'high', setpoint: 65, deadband: 3, onDelayMs: minute, offDelayMs: minute },
  ...{ latching: true, staleAfterMs: 20 * minute, chattering: { raises: 3, withinMs: 60 * minute } },
};
const monitor = {
  codes: [{ table: iso4406, target: '18/16/13', columns: ['6', '14'], errors: { volume: 0.02 } }],
  limits,
  alarms: [{ ...alarm, figure: { quantity: 'celsius' } }],
  follow: [{ id: 'at 6', figure: { perMlAt: 6 }, blockMs: 5 * minute, blocks: 12 }],
  staleAfterMs: 30 * minute,
};
const proof = {
  ...{ table: iso4406, target: '18/16/13', columns: ['6', '14'], readings: 2, leastMs: 0, leastLitres: 0 },
  ...{ maxGapMs: minute, limits },
};
/** Each case's input is of the right form: what its type would say is what is tried here. */
const as = <T>(value: unknown): T => value as T;
const preparedAlarm = motescale.prepareAlarm(as(alarm));
const preparedMonitor = motescale.prepareMonitor(as(monitor));
const preparedProof = motescale.prepareAcceptance(as(proof));
/** The record of a proof of two codes. */
const proved = (() => {
  const prepared = motescale.prepareAcceptance(as({ ...proof, limits: undefined }));
  let state = motescale.startAcceptance(prepared);
  for (const time of [0, minute])
    state = motescale.advanceAcceptance(prepared, state, { time, codes: { iso4406: '17/15/12' } }).state;
  return state.accepted;
})();
const raw = { sizes: [4, 6, 14], counted: [18900, 4020, 330], volumeMl: 10, dilution: 1, sizing: 'iso11171' };

const fromWatching: Call[] = [
  ['assessReading', motescale.assessReading, [reading, limits, [{ ...reading, time: 1e12 - 1 }]]],
  [
    'findingText',
    motescale.findingText,
    [{ code: 'no_flow', quality: 'bad', affects: ['counts'], value: 0, limit: 0 }],
  ],
  ['codeOfFullCounts', motescale.codeOfFullCounts, [raw]],
  ['parseCounts', motescale.parseCounts, [raw]],
  ['prepareAlarm', motescale.prepareAlarm, [alarm]],
  [
    'advanceAlarm',
    motescale.advanceAlarm,
    [preparedAlarm, motescale.startAlarm(preparedAlarm), { time: 1e12, value: 66, quality: 'good' }],
  ],
  [
    'alarmStatistics',
    motescale.alarmStatistics,
    [[{ time: 10, alarm: 'dirt', event: 'raised', value: 1 }], { from: 0, to: 1e9 }],
  ],
  ['prepareMonitor', motescale.prepareMonitor, [monitor, { configuration: 'a' }]],
  [
    'advanceMonitor',
    motescale.advanceMonitor,
    [preparedMonitor, motescale.startMonitor(preparedMonitor), { kind: 'reading', ...reading }],
  ],
  ['startUnit', motescale.startUnit, [preparedMonitor, { unit: 'lower gate' }]],
  [
    'advanceUnit',
    motescale.advanceUnit,
    [
      preparedMonitor,
      back(motescale.startUnit(preparedMonitor, { unit: 'lower gate' })),
      { seq: 1, payload: { kind: 'reading', ...reading } },
    ],
  ],
  ['prepareAcceptance', motescale.prepareAcceptance, [proof, {}]],
  ['acceptanceSheetText', motescale.acceptanceSheetText, [proved, { title: 'Gate', utcOffsetMinutes: 60 }]],
  [
    'advanceAcceptance',
    motescale.advanceAcceptance,
    [preparedProof, motescale.startAcceptance(preparedProof), { ...reading, litres: 1 }],
  ],
  [
    'acceptanceText',
    motescale.acceptanceText,
    [
      {
        ...{ time: 0, event: 'counted', text: '18/16/13', quality: 'good', outcome: null },
        unprovable: [{ column: '14', leastMl: 3.7 }],
        wanting: { readings: 1, ms: 0, litres: 0 },
      },
    ],
  ],
];

const rollUp = { widthMs: 15 * minute, holdMs: 4 * minute, originMs: 0, levels: true };
const rolled = motescale.rollUp(
  [
    { time: 0, value: 16, scaleNumbers: [18], counted: [400], volumeMl: 10 },
    { time: 1e7, value: 16, scaleNumbers: [18], counted: [400], volumeMl: 10 },
  ],
  rollUp,
);

const fromHistory: Call[] = [
  ['rollUp', motescale.rollUp, [[{ time: 0, value: 16, quality: 'good', scaleNumbers: [18] }], rollUp]],
  ['mergeRollUps', motescale.mergeRollUps, [[rolled[0]], [], rollUp]],
  ['bucketCounts', motescale.bucketCounts, [back({ ...rolled[0] }), [4], { sizing: 'iso11171', dilution: 2 }]],
  ['scaleNumberQuantile', motescale.scaleNumberQuantile, [rolled[0], 0, 0.75]],
  ['bucketQuantile', motescale.bucketQuantile, [rolled[0], 0.75]],
];

const reported = {
  ...{ time: 1e12, counts, codes: { 'ISO 4406': '18/16/12' }, quality: 'good', verdict: 'in target' },
  ...{ celsius: 41, figureQualities: { celsius: 'good' } },
};
const judged = { time: 1e12, quality: 'good', inTarget: true, codes: [{ table: 'iso4406', text: '18/16/12' }] };
const happened = { time: 1e12, event: 'raised', alarm: 'hot', value: 70, setpoint: 65 };
const foreseen = {
  ...{ size: 4, unit: 'per_ml', from: 1e12, now: 900, level: 2500 },
  ...{ time: 1.1e12, earliest: 1.05e12, latest: null },
};
const looks = { title: 'Gate', table: iso4406, target: '18/16/13', width: 400 };
const format = { separator: ',', decimal: '.', guard: 'formulas' };

const sure = back(
  motescale.codeUncertainty(iso4406, motescale.cumulativeCounts({ 4: 126, 6: 47, 14: 3 }, { volumeMl: 10 })),
);

const fromReport: Call[] = [
  [
    'toCsv',
    motescale.toCsv,
    [
      { header: ['a'], rows: [[1]] },
      { ...format, byteOrderMark: false, lineEnd: '\n' },
    ],
  ],
  [
    'problemText',
    motescale.problemText,
    [{ path: [], code: 'wrong_type', received: "'x'", expected: 'a number', line: 2, column: '4', lost: true }],
  ],
  ['csvColumns', motescale.csvColumns, [{ header: ['a'], rows: [[1]] }]],
  [
    'classifyColumns',
    motescale.classifyColumns,
    [iso4406, { 4: back(Float64Array.of(1)) }, { sizing: 'iso11171', columns: ['4'] }],
  ],
  ['parseLocalTimes', motescale.parseLocalTimes, [['2026-11-25'], { utcOffsetMinutes: 60 }]],
  ['parseCsv', motescale.parseCsv, ['a,b\n1,2\n', { ...format, cells: 'typed' }]],
  ['reportRows', motescale.reportRows, [[reported], { utcOffsetMinutes: 60, table: iso4406 }]],
  ['reportReading', motescale.reportReading, [reading, judged]],
  [
    'periodFigures',
    motescale.periodFigures,
    [
      [reported],
      {
        ...{ title: 'Gate', table: iso4406, target: '18/16/13', columns: ['6', '14'], from: 0, to: 2e12 },
        ...{ errors: { volume: 0.02 } },
        ...{ utcOffsetMinutes: 0, events: [{ time: 1e12, text: 'filter' }] },
      },
    ],
  ],
  ['messageOf', motescale.messageOf, [happened, undefined, { unit: 'Gate', utcOffsetMinutes: 0 }]],
  [
    'sampleSheet',
    motescale.sampleSheet,
    [counts, { title: 'Gate', time: 0, utcOffsetMinutes: 0, target: '18/16/13', errors: { volume: 0.02 } }],
  ],
  ['countBuckets', motescale.countBuckets, [[reported], { widthMs: 3600000, holdMs: 600000, originMs: 0 }]],
  ['figureBuckets', motescale.figureBuckets, [[reported], ['celsius'], { widthMs: 3600000, holdMs: 600000 }]],
  [
    'trendChart',
    motescale.trendChart,
    [
      [reported],
      {
        ...{ ...looks, alarm: '20/18/15', utcOffsetMinutes: 0, from: 0, to: 2e12, vegaLite: 6 },
        ...{ events: [{ time: 1e12, text: 'filter' }], forecast: [foreseen] },
      },
    ],
  ],
  ['sizeChart', motescale.sizeChart, [counts, looks]],
  ['probabilityChart', motescale.probabilityChart, [sure, { title: 'Gate', width: 480 }]],
  ['cleanUpChart', motescale.cleanUpChart, [bySize, { ...looks, minutes: 60, measured: [{ minutes: 1, counts }] }]],
];

const fromExact: Call[] = [
  [
    'classifyExact',
    exact.classifyExact,
    [iso4406, { at: { 4: '18900', 6: '4020', 14: '330' }, volumeMl: '10', dilution: '1' }],
  ],
  ['perMlExact', exact.perMlExact, [{ counted: '940', volumeMl: '10', dilution: '2', digits: 20 }]],
  ['roundHalfEven', exact.roundHalfEven, ['2.675', { decimals: 2 }]],
];

const fromSchema: Call[] = [
  ['parseReading', schema.parseReading, [reading, undefined, { keepReadable: false }]],
  ['parseMonitorReading', schema.parseMonitorReading, [reading, undefined, { keepReadable: false }]],
  [
    'parseAcceptanceReading',
    schema.parseAcceptanceReading,
    [{ ...reading, litres: 1 }, undefined, { keepReadable: false }],
  ],
  ['parseClassTable', schema.parseClassTable, [ownTable]],
  ['parseMonitorConfig', schema.parseMonitorConfig, [monitor]],
  ['parseAcceptanceConfig', schema.parseAcceptanceConfig, [proof]],
];

export const calls: readonly Call[] = [
  ...[
    ...fromCounts,
    ...fromCodes,
    ...fromLaboratory,
    ...fromViscosity,
    ...fromWater,
    ...fromTrend,
    ...fromSampling,
    ...fromFiltration,
  ],
  ...[...fromWatching, ...fromHistory, ...fromReport, ...fromExact, ...fromSchema],
];
