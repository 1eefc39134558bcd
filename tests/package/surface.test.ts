/**
 * The names of each entry: what a user can import. A changed name is a changed contract; where it is meant, `npx vitest run --config
 * tests/vitest.config.ts tests/package/surface -u` writes the list anew, for the reviewer to see.
 */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { resolve } from 'node:path';
import ts from 'typescript';
import { describe, expect, test } from 'vitest';
import { builtFile, entries } from './pack.ts';

interface Names {
  readonly values: readonly string[];
  readonly types: readonly string[];
}

const program = ts.createProgram(
  entries.flatMap((entry) => [builtFile(entry, '.d.ts'), builtFile(entry, '.d.cts')]),
  { module: ts.ModuleKind.NodeNext, lib: ['lib.es2022.d.ts'], types: [] },
);

/** The names a declaration file exports, by kind. */
function declared(file: string): Names {
  const checker = program.getTypeChecker();
  const module = checker.getSymbolAtLocation(program.getSourceFile(file) as ts.SourceFile) as ts.Symbol;
  const [values, types]: [string[], string[]] = [[], []];
  for (const symbol of checker.getExportsOfModule(module)) {
    const real = symbol.flags & ts.SymbolFlags.Alias ? checker.getAliasedSymbol(symbol) : symbol;
    (real.flags & ts.SymbolFlags.Value ? values : types).push(symbol.name);
  }
  return { values: values.sort(), types: types.sort() };
}

const names = new Map(entries.map((entry) => [entry, declared(builtFile(entry, '.d.ts'))]));

/** Entries that bring a dependency, and so stand apart from `motescale` itself. */
const apart = ['motescale/exact', 'motescale/schema'];
const gathered = [...names].filter(([entry]) => entry !== 'motescale' && !apart.includes(entry));

function gatheredNames(kind: keyof Names): string[] {
  return [...new Set(gathered.flatMap(([, entry]) => entry[kind]))].sort();
}

/** Names in lines of at most 110 characters. */
function lines(list: readonly string[]): string {
  return list.join(' ').replace(/(.{1,110})( |$)/g, '    $1\n');
}

test('the names', () => {
  const text = [...names].map(([entry, { values, types }]) => {
    const only = (list: readonly string[], kind: keyof Names) =>
      entry === 'motescale' ? list.filter((name) => !gatheredNames(kind).includes(name)) : list;
    return `${entry}${entry === 'motescale' ? ', beside those below' : ''}
  values
${lines(only(values, 'values'))}  types
${lines(only(types, 'types'))}`;
  });
  expect(text.join('\n')).toMatchInlineSnapshot(`
    "motescale, beside those below
      values
        barToKPa celsiusToFahrenheit fahrenheitToCelsius feetToMetres inchHgToKPa kPaToBar kPaToInchHg kPaToPsi
        litresToUsGallons metresToFeet problemsOf psiToKPa unitsSource usGallonsToLitres
      types
        Path Problem

    motescale/counts
      values
        calibrationSource coincidenceLimitSource coincidenceLoss coincidenceSource conditionalTestSource convertCounts
        convertSizing correctCoincidence countAt countBounds countInterval countsDiffer cumulativeCounts
        equivalentDustMgPerL fewCountedSource fieldsForPrecision fromDifferential gravimetricLevel
        gravimetricLevelSource interpolationSource isMotescaleError logLog2Source membraneArea micrometreBSource
        microscopeCount microscopeCountSource poissonLimitsSource sensingVolume sizeAt testDustCounts testDustSource
        toDifferential undilute volumeForCount
      types
        Basis CoincidenceModel CoincidenceOptions CountDifference CountInVolume CumulativeCounts DifferentialCounts
        DilutedSample EquivalentDust ErrorCode FieldCount GravimetricLevel InterpolationMethod MicroscopeCount
        MotescaleError PerVolume RawCount Sizing Source Weighing

    motescale/codes
      values
        agreementSource as4059Cumulative as4059Differential blandAltman cc1246 cc1246Count cc1246Level classTable
        classify codeInterval codeUncertainty compareCodes continuousScaleNumber countAsGammaSource countChange
        defaultMeasurementErrors detectionLimits detectionLimitsSource differenceLimitsSource dispersionSource enScore
        formatCode gost17216 guaranteeingCode indexOfDispersion isMotescaleError iso4406 iso4406Microscope
        likelyClasses limitsOf measurementErrorsSource meets nas1638 navair parseCode possibleClasses sae749d
        scaleNumber scaleNumbers scoresSource standardTables subtractBlank subtractDiluent targetProbability
        uncertaintyBudgetSource zetaScore
      types
        Agreement ClassColumn ClassSpan ClassTable Classification Code CodeComparison CodeMark CodeOfTable CodePart
        CodeUncertainty ColumnUncertainty CountBand CountBands CountChange DetectionLimits Dispersion ErrorCode
        Evidence ExpandedResult LikelySpan MeasurementErrors MethodPair MotescaleError NetCount Notation OwnTable
        Source StandardResult TargetOutcome TargetProbability UncertaintyRow

    motescale/viscosity
      values
        agma9005Table agmaGradeLimits agmaGrades agmaGradesSource apiGravitySource apiOfDensity apiOfRelativeDensity
        blendFraction blendLines blendLinesFraction blendLinesSource blendViscosity blendingSource compareGrades
        convertViscosity densityAt densityAt15 densityOfApi densitySource dynamicViscosity effluxScalesSource
        gradesOfOil isMotescaleError iso3448Table isoGrade isoGradeLimits isoGradesSource kinematicViscosity
        lineResiduals pressureViscosityFactor pressureViscositySource referenceViscosities refutasNumber refutasSource
        relativeDensityOfApi saeEngineGradeLimits saeEngineGrades saeEngineGradesSource saeGearGradeLimits
        saeGearGrades saeGearGradesSource saeJ300Table saeJ306Table2005 saeJ306Table2019 sayboltSource temperatureAt
        ubbelohdeWaltherM ubbelohdeWaltherSource viscosityAt viscosityAt100OfIndex viscosityAt40OfIndex viscosityIndex
        viscosityIndexSource viscosityLine viscosityLineOfGrade viscosityLineSource
      types
        AgmaGrade BlendMethod BlendPart ComparedGrade EffluxScaleName ErrorCode GradeSystem GradesOfOil IsoGrade
        LineForm LineResidual MotescaleError SaeEngineGrade SaeGearEdition SaeGearGrade Source ViscosityIndex
        ViscosityLine ViscosityPoint ViscosityScale ViscositySpan

    motescale/water
      values
        condensationTemperature dewPoint dewPointSource freeWater insulatingOil insulatingOilByKindSource
        insulatingOilSource isMotescaleError mineralInsulatingOil relativeSaturation saturationAfterCooling
        saturationPressure saturationPressureSource saturationTemperature solubilityAt solubilityFormSource
        solubilityLine waterContent
      types
        ErrorCode MotescaleError SolubilityLine SolubilityPoint Source SourcedSolubilityLine

    motescale/trend
      values
        autocorrelatedTrend autocorrelatedTrendSource cusum cusumSource ewma ewmaSource forecastCrossing
        forecastSource isMotescaleError leastSquaresLine leastSquaresSource mannKendall mannKendallSource
        seasonalKendall seasonalKendallSource senSlope senSlopeSource
      types
        AutocorrelatedTrend Cusum ErrorCode Ewma Forecast KendallCorrection LeastSquaresLine MannKendall
        MotescaleError SeasonalKendall SenSlope Source TrendFlag

    motescale/sampling
      values
        advanceFlowControl colebrookSource countedVolume countingConfidence flowControlFor flowControlSource
        flowControlText flowControlTexts flowForPressure flush flushSource frictionFactor isMotescaleError lineFlow
        prepareFlowControl pressureDropSource pumpInletSource regimeSource resumeFlowControl schillerNaumannSource
        settlingLossSource settlingVelocity smallestBore speedForViscosity startFlowControl stokesSource
        suctionByTemperature suctionLift suctionLimits suspension suspensionSource timeForCount timeForTarget
      types
        CountingConfidence DrivenFlow ErrorCode FlowControlConfig FlowControlEvent FlowControlInput
        FlowControlSettings FlowControlState FlowControlTexts FlowRegime Fluid Flush FrictionFactor Line LineFlow
        MeasuringSetting MotescaleError Particle PreparedFlowControl PressureDrop Segment SegmentFlow Source
        SpeedPoint StepResponse SuctionAtTemperature SuctionLift SuctionLimits SuctionLine SuctionTemperatures
        Suspension TargetTime WantedCount

    motescale/filtration
      values
        betaOfEfficiency betaSource betaToHold betaToReach cleanUp cleanUpCounts cleanUpCurve cleanUpSource
        combineFilters efficiencyOfBeta estimateIngression filtrationRatios flowToHold flowToReach isMotescaleError
        massBalanceSource sevenTurnoversSource shareRemaining steadyState steadyStateCounts timeForTurnovers
        timeToReach timeToReachCode turnovers
      types
        CleanUpPoint ErrorCode FilterArrangement FiltrationRatio IngressionEstimate Loop MotescaleError SizeOnTheWay
        Source Tank TankBySize TankWithoutBeta TankWithoutFlow TimeToCode

    motescale/reading
      values
        assessReading defaultReadingLimits flattestDistributionSource isMotescaleError qualitySource
        samplingPracticeSource saturationShiftSource worstQuality
      types
        Assessment ErrorCode Finding FindingCode MotescaleError OwnReadingLimits Quality Reading ReadingLimits
        RepeatedCounts Source TimedReading

    motescale/alarm
      values
        advanceAlarm alarmDefaults alarmSource alarmStateName alarmStateSource isMotescaleError offDelaySource
        startAlarm
      types
        AlarmCommand AlarmConfig AlarmEvent AlarmInput AlarmReading AlarmState AlarmStateName ErrorCode MotescaleError
        SignalQuality Source

    motescale/history
      values
        isMotescaleError mergeRollUps rollUp rollUpWidth scaleNumberQuantile
      types
        ErrorCode Gap MotescaleError RollUpBucket RollUpOptions RollUpReading

    motescale/monitor
      values
        advanceMonitor followDefaults isBadConfiguration isMotescaleError mostStateBytes startMonitor
      types
        ArrivalEvent BadConfigurationError ChangeEvent CodeAlarm CodeVerdict ConfigurationProblem ErrorCode
        FigureAlarm FollowedFigure FollowedState MonitorAlarm MonitorConfig MonitorEvent MonitorFigure MonitorInput
        MonitorState MotescaleError RollingTrend Verdict WatchedTable

    motescale/acceptance
      values
        advanceAcceptance isMotescaleError startAcceptance
      types
        AcceptanceConfig AcceptanceEvent AcceptanceReading AcceptanceRecord AcceptanceRestart AcceptanceRun
        AcceptanceState ErrorCode MotescaleError

    motescale/report
      values
        cleanUpChart csvSource decimalCommaFormat formulaSource isMotescaleError parseCsv periodSummary reportReading
        reportRows sizeChart toCsv trendChart vegaLiteSchema
      types
        Cell ChartSpec CleanUpChartOptions CsvFormat CsvReading CsvTable ErrorCode MotescaleError PeriodSummaryOptions
        ReportReading SizeChartOptions Source TrendChartOptions

    motescale/schema
      values
        acceptanceConfigSchema acceptanceReadingSchema classTableSchema isInvalidInput isMotescaleError jsonSchemas
        monitorConfigSchema monitorReadingSchema parseAcceptanceConfig parseAcceptanceReading parseClassTable
        parseMonitorConfig parseMonitorReading parseReading readingSchema
      types
        AcceptanceConfig AcceptanceReading ClassTable ErrorCode InputProblem InvalidInputError JsonSchema
        MonitorConfig MotescaleError OwnAcceptanceConfig OwnMonitorConfig OwnTable Reading StandardIssue
        StandardResult StandardSchemaProps StandardSchemaV1 TimedReading

    motescale/exact
      values
        classifyExact isMotescaleError perMlExact roundHalfEven roundingSource
      types
        ErrorCode ExactCounts MotescaleError
    "
  `);
});

describe.each(entries)('%s', (entry) => {
  const { values, types } = names.get(entry) as Names;

  test('has the declared names as ES module', async () => {
    expect(Object.keys(await import(resolve(builtFile(entry, '.js')))).sort()).toEqual(values);
  });

  test('has the declared names as CommonJS', () => {
    const load = createRequire(import.meta.url);
    expect(Object.keys(load(resolve(builtFile(entry, '.cjs')))).sort()).toEqual(values);
  });

  test('is declared alike for CommonJS', () => {
    expect(declared(builtFile(entry, '.d.cts'))).toEqual({ values, types });
  });
});

test('motescale gathers every entry without a dependency', () => {
  const { values, types } = names.get('motescale') as Names;
  expect(values).toEqual(expect.arrayContaining(gatheredNames('values')));
  expect(types).toEqual(expect.arrayContaining(gatheredNames('types')));
});

test('the README names every entry', () => {
  const rows = readFileSync('README.md', 'utf8').matchAll(/^\| `(motescale\/\w+)` \|/gm);
  expect([...rows].map(([, entry]) => entry).sort()).toEqual(entries.filter((entry) => entry !== 'motescale').sort());
});
