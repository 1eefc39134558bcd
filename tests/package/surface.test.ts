/**
 * The names of each entry: what a user can import. A changed name is a changed contract; where it is meant,
 * `npx vitest run --config tests/vitest.config.ts tests/package/surface -u` writes the list anew, for the reviewer to
 * see.
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
const apart = ['motescale/exact', 'motescale/german', 'motescale/schema'];
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
        litresToUsGallons metresToFeet psiToKPa usGallonsToLitres
      types

    motescale/counts
      values
        coincidenceLoss compareCounts convertCounts convertSizing correctCoincidence countAt countBounds countInterval
        countsDiffer cumulativeCounts equivalentDustMgPerL fieldsForPrecision fromDifferential gravimetricLevel
        isMotescaleError membraneArea microscopeCount sensingVolume sizeAt sources testDustCounts toDifferential
        undilute version volumeForCount
      types
        Basis CoincidenceModel CoincidenceOptions CountDifference CountInVolume CountsComparison CumulativeCounts
        DifferentialCounts DilutedSample EquivalentDust ErrorCode FieldCount GravimetricLevel InterpolationMethod
        MicroscopeCount MotescaleError PerVolume RangeCounts RawCount SizeComparison Sizing Source Standing Weighing

    motescale/codes
      values
        as4059Cumulative as4059Differential blandAltman cc1246 cc1246Count cc1246Level classTable classify
        classifyColumns codeInterval codeUncertainty compareCodes continuousScaleNumber countChange
        defaultMeasurementErrors detectionLimits enScore findCodes formatCode gost17216 guaranteeingCode
        indexOfDispersion isMotescaleError iso4406 iso4406Microscope likelyClasses limitsOf meets nas1638 navair
        parseCode possibleClasses sae749d scaleNumber scaleNumbers sources standardTables subtractBlank
        subtractDiluent targetProbability version zetaScore
      types
        Agreement ClassColumn ClassSpan ClassTable Classification Code CodeComparison CodeMark CodeOfTable CodePart
        CodeUncertainty ColumnClasses ColumnUncertainty CountBand CountBands CountChange DetectionLimits Dispersion
        ErrorCode Evidence ExpandedResult FoundCode LikelySpan MeasurementErrors MethodPair MotescaleError NetCount
        NetCountOptions Notation OwnTable Problem Source StandardResult Standing TargetOutcome TargetProbability
        UncertaintyRow Wanted

    motescale/viscosity
      values
        agma9005Table agmaGradeLimits agmaGrades apiOfDensity apiOfRelativeDensity blendFraction blendLines
        blendLinesFraction blendViscosity compareGrades convertViscosity densityAt densityAt15 densityOfApi
        dynamicViscosity gradesOfOil isMotescaleError iso3448Table isoGrade isoGradeLimits kinematicViscosity
        lineResiduals pressureViscosityFactor referenceViscosities refutasNumber relativeDensityOfApi
        saeEngineGradeLimits saeEngineGrades saeGearGradeLimits saeGearGrades saeJ300Table saeJ306Table2005
        saeJ306Table2019 sources temperatureAt ubbelohdeWaltherM version viscosityAt viscosityAt100OfIndex
        viscosityAt40OfIndex viscosityIndex viscosityLine viscosityLineOfGrade
      types
        AgmaGrade BlendMethod BlendPart ComparedGrade EffluxScaleName ErrorCode GradeSystem GradesOfOil IsoGrade
        LineForm LineResidual MotescaleError SaeEngineGrade SaeGearEdition SaeGearGrade Source Standing ViscosityIndex
        ViscosityLine ViscosityPoint ViscosityScale ViscositySpan

    motescale/water
      values
        condensationTemperature dewPoint freeWater insulatingOil isMotescaleError mgPerKgOfMgPerL mgPerKgOfVolumePpm
        mgPerLOfMgPerKg mineralInsulatingOil relativeSaturation saturationAfterCooling saturationPressure
        saturationTemperature solubilityAt solubilityLine sources version volumePpmOfMgPerKg waterContent
      types
        ErrorCode MotescaleError SolubilityLine SolubilityPoint Source SourcedSolubilityLine Standing

    motescale/trend
      values
        advanceChange autocorrelatedTrend changePoint cusum ewma forecastCrossing isMotescaleError leastSquaresLine
        mannKendall prepareChange resumeChange seasonalKendall senSlope sources startChange version
      types
        AutocorrelatedTrend Change ChangeInput ChangeOptions ChangePoint ChangeState ChangeStep Cusum ErrorCode Ewma
        Forecast ForecastFlag KendallCorrection LeastSquaresLine MannKendall MotescaleError PreparedChange
        SeasonalKendall SenSlope Source Standing TrendFlag

    motescale/sampling
      values
        advanceFlowControl countedVolume countingConfidence flowControlFor flowControlText flowControlTexts
        flowForPressure flowForReynolds flush frictionFactor isMotescaleError lineFlow prepareFlowControl pumpFlow
        pumpSpeed resumeFlowControl settlingVelocity smallestBore sources speedForViscosity startFlowControl
        suctionByTemperature suctionLift suctionLimits suspension timeForCount timeForTarget version
      types
        CarryOver CountingConfidence DrivenFlow ErrorCode FlowControlConfig FlowControlEvent FlowControlInput
        FlowControlSettings FlowControlState FlowControlTexts FlowRegime Fluid Flush FrictionFactor HighPoint Line
        LineFlow MeasuringSetting MotescaleError Particle PreparedFlowControl PressureDrop Pump Segment SegmentFlow
        Source SpeedPoint Standing StepResponse Strainer SuctionAtTemperature SuctionByTemperature SuctionLift
        SuctionLimits SuctionLine SuctionTemperatures Suspension TargetTime WantedCount

    motescale/filtration
      values
        betaAt betaOfEfficiency betaToHold betaToReach cleanUp cleanUpCounts cleanUpCurve combineFilters
        combineFiltersBySize efficiencyOfBeta estimateIngression filtrationRatios flowToHold flowToReach
        isMotescaleError shareRemaining sources steadyState steadyStateCounts timeForTurnovers timeToReach
        timeToReachCode turnovers version
      types
        BelowPoints BetaPoint CleanUpPoint ErrorCode FilterArrangement FiltrationRatio IngressionEstimate Loop
        MotescaleError SizeOnTheWay Source Standing Tank TankBySize TankWithoutBeta TankWithoutFlow TimeToCode

    motescale/reading
      values
        assessReading codeOfFullCounts defaultReadingLimits englishFindingTexts findingText isMotescaleError
        parseCounts sources version worstQuality
      types
        Assessment ErrorCode FigureName Finding FindingCode FindingOfCode FindingTexts FlowCourse FlowRun Level
        MotescaleError OtherFigure OwnReadingLimits Problem Quality RawCounts Reading ReadingLimits Repeats Source
        Standing SteadyFigure Tail TimedReading

    motescale/alarm
      values
        advanceAlarm alarmDefaults alarmStateName alarmStatistics isMotescaleError prepareAlarm problemsOf resumeAlarm
        sources startAlarm version
      types
        AlarmCommand AlarmConfig AlarmEvent AlarmFigures AlarmInput AlarmMemory AlarmPlan AlarmPriority AlarmReading
        AlarmRefusal AlarmSettings AlarmState AlarmStateName AlarmStatistics AlarmType AnyAlarmEvent ErrorCode
        MotescaleError Path PreparedAlarm Problem SignalQuality Source Standing Tick

    motescale/history
      values
        bucketCounts bucketQuantile isMotescaleError mergeRollUps rollUp rollUpWidth scaleNumberQuantile sources
        version
      types
        ErrorCode Gap KnownScaleNumber MotescaleError RollUpBucket RollUpByEdges RollUpByWidth RollUpOptions
        RollUpReading Source Standing

    motescale/monitor
      values
        advanceMonitor advanceUnit alarmSummary followDefaults isMotescaleError mostStateBytes prepareMonitor
        problemsOf resumeMonitor sources startMonitor startUnit version
      types
        AlarmSummary AlarmWatch Arrival ArrivalEvent Arrivals AsideReading ChangeEvent ClockDoubt ClockEvent CodeAlarm
        CodePlan CodeVerdict ConfigurationEvent ConfigurationPayload ErrorCode FigureAlarm FindingEvent FollowPlan
        FollowedFigure FollowedSight FollowedState JudgedEvent MonitorAlarm MonitorCode MonitorCommand MonitorConfig
        MonitorEvent MonitorFigure MonitorInput MonitorState MotescaleError Needed Path PreparedMonitor Problem
        QualifiedFigure QualityEvent ReadingInput RejectedEvent Relearn RelearnEvent ResumedMonitor RollingTrend
        Source Standing TargetEvent UnitEvent UnitInput UnitPayload UnitRecord UnitStep Verdict WatchedAlarm
        WatchedTarget

    motescale/acceptance
      values
        acceptanceText acceptanceWanting advanceAcceptance englishAcceptanceTexts isMotescaleError mostAcceptanceBytes
        prepareAcceptance resumeAcceptance sources startAcceptance version
      types
        AcceptanceConfig AcceptanceEvent AcceptanceReading AcceptanceRecord AcceptanceRestart AcceptanceRun
        AcceptanceState AcceptanceTexts AcceptanceVolume AcceptanceWanting ErrorCode MotescaleError PreparedAcceptance
        Source Standing TextsWithAcceptance

    motescale/report
      values
        acceptanceSheetText cleanUpChart countBuckets csvColumns decimalCommaFormat englishTexts errorText
        figureBuckets isMotescaleError messageOf parseCsv parseLocalTimes periodFigures periodSummary probabilityChart
        problemText reportReading reportRows sampleSheet sheetText sizeChart sources toCsv trendChart vegaLiteSchema
        version
      types
        AcceptanceSheetOptions AcceptanceSheetTexts Cell ChartForecast ChartSpec ChartTexts ClassEnds ClassFigures
        CleanUpChartOptions CodeBucket CodeFigures CountBucketOptions CountFigure CountFigures CsvColumn CsvFormat
        CsvReading CsvTable DateOrder ErrorCode EventMessage EventText EventTexts EventWord FigureBuckets FourOf
        MeasuredFigure MeasuredFigures MessageOptions Moment MotescaleError NotLookedAt PeriodCoverage PeriodEvent
        PeriodFigures PeriodGap PeriodLeftOut PeriodOptions PeriodQualities PeriodTexts ProbabilityChartOptions
        Problem ReportReading SampleSheet SampleSheetOptions SerialDates SheetCode SheetColumn SheetCount SheetTarget
        SheetTexts SizeBuckets SizeChartOptions SizeFigures Source Standing TargetFigures Texts TimeReading
        TooManyBucket TrendChartOptions UtcOffset

    motescale/german
      values
        germanTexts version
      types

    motescale/schema
      values
        acceptanceConfigSchema acceptanceReadingSchema classTableSchema isMotescaleError jsonSchemas
        monitorConfigSchema monitorReadingSchema parseAcceptanceConfig parseAcceptanceReading parseClassTable
        parseMonitorConfig parseMonitorReading parseReading problemsOf readingSchema sources version
      types
        AcceptanceConfig AcceptanceReading ClassTable ErrorCode JsonSchema MonitorConfig MotescaleError
        OwnAcceptanceConfig OwnMonitorConfig OwnTable Problem Reading ReadingOptions Source StandardIssue
        StandardResult StandardSchemaProps StandardSchemaV1 Standing TimedReading

    motescale/exact
      values
        classifyExact isMotescaleError perMlExact roundHalfEven sources version
      types
        ErrorCode ExactCounts MotescaleError Source Standing
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
