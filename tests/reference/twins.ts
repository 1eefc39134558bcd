/** Which functions a second implementation checks, and in which test. */
export interface Twin {
  readonly test: string;
  readonly by: string;
  /** What the test imports for it. */
  readonly imports: string;
  readonly functions: readonly string[];
}

const properties = 'tests/properties';
const decimals = { by: 'the formula in decimals of 50 digits', imports: 'Exact' };
const shared = { by: decimals.by, imports: '/twin.ts' };
const ownDecimals = { by: decimals.by, imports: 'decimal.js' };

export const twins: readonly Twin[] = [
  {
    ...ownDecimals,
    test: `${properties}/viscosity/viscosityTwin.test.ts`,
    functions: [
      'viscosityLine',
      'viscosityAt',
      'temperatureAt',
      'viscosityIndex',
      'viscosityAt40OfIndex',
      'viscosityAt100OfIndex',
      'convertViscosity',
      'viscosityLineOfGrade',
    ],
  },
  {
    ...ownDecimals,
    test: `${properties}/viscosity/blending.test.ts`,
    functions: ['blendViscosity', 'blendFraction', 'refutasNumber', 'blendLines'],
  },
  {
    ...ownDecimals,
    test: `${properties}/viscosity/density.test.ts`,
    functions: [
      'densityAt',
      'densityAt15',
      'apiOfDensity',
      'apiOfRelativeDensity',
      'densityOfApi',
      'relativeDensityOfApi',
    ],
  },
  {
    ...ownDecimals,
    test: `${properties}/water.test.ts`,
    functions: ['saturationPressure', 'dewPoint', 'solubilityAt'],
  },
  { ...ownDecimals, test: `${properties}/sampling/lineFlow.test.ts`, functions: ['frictionFactor'] },
  {
    ...shared,
    test: `${properties}/filtration/filtrationTwin.test.ts`,
    functions: [
      'betaOfEfficiency',
      'betaToReach',
      'cleanUp',
      'efficiencyOfBeta',
      'flowToReach',
      'steadyState',
      'timeToReach',
    ],
  },
  { ...decimals, test: `${properties}/counts/coincidence.test.ts`, functions: ['coincidenceLoss'] },
  {
    ...ownDecimals,
    test: `${properties}/formulaTwins.test.ts`,
    functions: [
      'relativeSaturation',
      'waterContent',
      'freeWater',
      'saturationTemperature',
      'saturationAfterCooling',
      'solubilityLine',
      'turnovers',
      'timeForTurnovers',
      'shareRemaining',
      'combineFilters',
      'flowToHold',
      'betaToHold',
      'membraneArea',
      'undilute',
      'volumeForCount',
      'sensingVolume',
      'correctCoincidence',
      'continuousScaleNumber',
      'cc1246Level',
      'zetaScore',
      'indexOfDispersion',
      'pressureViscosityFactor',
      'ubbelohdeWaltherM',
      'countedVolume',
      'timeForCount',
    ],
  },
  {
    ...shared,
    test: `${properties}/counts/curveTwin.test.ts`,
    functions: [
      'convertCounts',
      'countAt',
      'countBounds',
      'cumulativeCounts',
      'equivalentDustMgPerL',
      'fromDifferential',
      'sizeAt',
      'toDifferential',
    ],
  },
  {
    ...shared,
    test: `${properties}/counts/laboratoryTwin.test.ts`,
    functions: ['fieldsForPrecision', 'gravimetricLevel', 'microscopeCount'],
  },
  {
    ...shared,
    test: `${properties}/filtration/bySizeTwin.test.ts`,
    functions: [
      'cleanUpCounts',
      'cleanUpCurve',
      'estimateIngression',
      'filtrationRatios',
      'steadyStateCounts',
      'timeToReachCode',
    ],
  },
  {
    ...shared,
    test: `${properties}/sampling/lineTwin.test.ts`,
    functions: ['lineFlow', 'settlingVelocity', 'smallestBore', 'suctionByTemperature', 'suspension'],
  },
  {
    ...shared,
    test: `${properties}/sampling/flowControlTwin.test.ts`,
    functions: ['flowControlFor', 'advanceFlowControl'],
  },
  {
    ...shared,
    test: `${properties}/sampling/samplingTwin.test.ts`,
    functions: ['countingConfidence', 'flush', 'speedForViscosity', 'timeForTarget'],
  },
  {
    ...shared,
    test: `${properties}/viscosity/lineTwin.test.ts`,
    functions: ['blendLinesFraction', 'isoGrade', 'lineResiduals'],
  },
  {
    by: 'every pair and the whole matrix',
    imports: './memoryTwin.ts',
    test: `${properties}/trend/memoryTwin.test.ts`,
    functions: ['autocorrelatedTrend', 'forecastCrossing'],
  },
  {
    by: 'windows, medians and sums over all pairs, day by day',
    imports: './changeTwin.ts',
    test: `${properties}/trend/changeTwin.test.ts`,
    functions: ['advanceChange'],
  },
  { ...shared, test: `${properties}/trend/seasonalTwin.test.ts`, functions: ['seasonalKendall'] },
  {
    by: 'the same decision from decimal text',
    imports: 'classifyExact',
    test: `${properties}/codes/exact.test.ts`,
    functions: ['classify'],
  },
  {
    by: 'the distributions of @stdlib',
    imports: '@stdlib/',
    test: `${properties}/counts/statistics.test.ts`,
    functions: ['countInterval', 'countsDiffer'],
  },
  {
    by: 'the distributions of @stdlib',
    imports: '@stdlib/',
    test: `${properties}/counts/compareCounts.test.ts`,
    functions: ['compareCounts'],
  },
  {
    by: 'the distributions of @stdlib',
    imports: '@stdlib/',
    test: `${properties}/codes/surenessTwin.test.ts`,
    functions: [
      'codeInterval',
      'codeUncertainty',
      'countChange',
      'detectionLimits',
      'subtractBlank',
      'subtractDiluent',
      'targetProbability',
    ],
  },
  {
    by: 'sums of intervals',
    imports: 'compareCodes',
    test: `${properties}/codes/compareTwin.test.ts`,
    functions: ['compareCodes'],
  },
  {
    by: 'the units of mathjs',
    imports: 'mathjs',
    test: `${properties}/viscosity/density.test.ts`,
    functions: ['dynamicViscosity', 'kinematicViscosity'],
  },
];

/** Functions that make no figure of their own: there is nothing to compute a second time. */
export const figureless: readonly { readonly does: string; readonly functions: readonly string[] }[] = [
  { does: 'reads or writes', functions: ['findCodes', 'flowControlText', 'formatCode', 'parseCode'] },
  {
    does: 'compares with printed limits, or collects what others found',
    functions: [
      'classifyColumns',
      'compareGrades',
      'gradesOfOil',
      'guaranteeingCode',
      'meets',
      'possibleClasses',
      'scaleNumber',
      'scaleNumbers',
    ],
  },
  {
    does: 'hands out or checks a table',
    functions: ['agmaGrades', 'classTable', 'saeEngineGrades', 'saeGearGrades'],
  },
  {
    does: 'checks a configuration, or starts or resumes a state',
    functions: [
      'prepareChange',
      'prepareFlowControl',
      'resumeChange',
      'resumeFlowControl',
      'startChange',
      'startFlowControl',
    ],
  },
];
