/** The names of each entry: what a user can import. A changed name is a changed contract. */
import { createRequire } from 'node:module';
import { resolve } from 'node:path';
import ts from 'typescript';
import { describe, expect, test } from 'vitest';
import { builtFile, entries } from './pack.ts';

const surface: Readonly<Record<string, { values: string; types: string }>> = {
  // only here; all names of the entries below without a dependency come on top
  motescale: {
    values: `
      barToKPa celsiusToFahrenheit fahrenheitToCelsius feetToMetres inchHgToKPa kPaToBar kPaToInchHg kPaToPsi
      litresToUsGallons metresToFeet psiToKPa unitsSource usGallonsToLitres
    `,
    types: '',
  },
  'motescale/counts': {
    values: `
      calibrationSource coincidenceLoss convertSizing correctCoincidence countAt countBounds countInterval
      countsDiffer cumulativeCounts equivalentDustMgPerL fewCountedSource fromDifferential isMotescaleError
      micrometreBSource poissonLimitsSource sensingVolume sizeAt testDustSource toDifferential volumeForCount
    `,
    types: `
      Basis CoincidenceModel CoincidenceOptions CountDifference CountInVolume CumulativeCounts DifferentialCounts
      EquivalentDust ErrorCode InterpolationMethod MotescaleError PerVolume RawCount Sizing Source
    `,
  },
  'motescale/codes': {
    values: `
      as4059Cumulative as4059Differential cc1246 cc1246Count cc1246Level classTable classify codeInterval
      continuousScaleNumber formatCode gost17216 guaranteeingCode isMotescaleError iso4406 iso4406Microscope
      likelyClasses limitsOf meets nas1638 navair parseCode possibleClasses sae749d scaleNumber scaleNumbers
    `,
    types: `
      ClassColumn ClassSpan ClassTable Classification Code CodeMark CodePart CountBand CountBands ErrorCode Evidence
      LikelySpan MotescaleError Notation OwnTable Source TargetOutcome
    `,
  },
  'motescale/viscosity': {
    values: `
      agmaGradeLimits agmaGrades agmaGradesOf agmaGradesSource apiGravitySource apiOfDensity apiOfRelativeDensity
      blendFraction blendLines blendLinesFraction blendLinesSource blendViscosity blendingSource compareGrades
      convertViscosity densityAt densityAt15 densityOfApi densitySource dynamicViscosity effluxScalesSource
      gradesOfOil isMotescaleError isoGrade isoGradeLimits isoGrades isoGradesSource kinematicViscosity
      lineResiduals pressureViscosityFactor pressureViscositySource referenceViscosities refutasNumber refutasSource
      relativeDensityOfApi saeEngineGradeLimits saeEngineGrades saeEngineGradesOf saeEngineGradesSource
      saeGearGradeLimits saeGearGrades2005 saeGearGrades2019 saeGearGradesOf saeGearGradesSource sayboltSource
      temperatureAt ubbelohdeWaltherM ubbelohdeWaltherSource viscosityAt viscosityAt100OfIndex viscosityAt40OfIndex
      viscosityIndex viscosityIndexSource viscosityLine viscosityLineOfGrade viscosityLineSource
    `,
    types: `
      AgmaGrade BlendMethod BlendPart ComparedGrade ErrorCode GradeSystem GradesOfOil IsoGrade LineForm LineResidual
      MotescaleError SaeEngineGrade SaeGearEdition SaeGearGrade Source ViscosityIndex ViscosityLine ViscosityPoint
      ViscosityScale ViscositySpan
    `,
  },
  'motescale/water': {
    values: `
      dewPoint freeWater insulatingOil insulatingOilByKindSource insulatingOilSource isMotescaleError
      mineralInsulatingOil relativeSaturation saturationAfterCooling saturationPressure saturationPressureSource
      saturationTemperature solubilityAt solubilityFormSource solubilityLine waterContent
    `,
    types: `
      ErrorCode MotescaleError SolubilityLine SolubilityPoint Source SourcedSolubilityLine
    `,
  },
  'motescale/sampling': {
    values: `
      advanceFlowControl assessReading colebrookSource countedVolume countingConfidence defaultReadingLimits
      flattestDistributionSource flowControlSource flowForPressure flush flushSource frictionFactor lineFlow
      pressureDropSource pumpInletSource qualitySource regimeSource samplingPracticeSource saturationShiftSource
      schillerNaumannSource settlingLossSource settlingVelocity smallestBore speedForViscosity startFlowControl
      stokesSource suctionByTemperature suctionLift suctionLimits suspension suspensionSource timeForCount
      timeForTarget worstQuality
    `,
    types: `
      Assessment CountingConfidence DrivenFlow Finding FindingCode FlowControlConfig FlowControlEvent
      FlowControlInput FlowControlState FlowRegime Fluid Flush FrictionFactor Line LineFlow MeasuringSetting
      OwnReadingLimits Particle PressureDrop Quality Reading ReadingLimits Segment SegmentFlow SpeedPoint
      SuctionAtTemperature SuctionLift SuctionLimits SuctionLine SuctionTemperatures Suspension TargetTime
      WantedCount
    `,
  },
  'motescale/exact': {
    values: `
      classifyExact isMotescaleError perMlExact roundHalfEven
    `,
    types: `
      ErrorCode ExactCounts MotescaleError
    `,
  },
};

/** The entries gathered in `motescale` itself: all that bring no dependency. */
const gathered = Object.keys(surface).filter((entry) => entry !== 'motescale/exact' && entry !== 'motescale/schema');

function namesOf(kind: 'values' | 'types', ofEntries: readonly string[]): string[] {
  const names = ofEntries.flatMap((entry) => surface[entry]?.[kind].match(/\w+/g) ?? []);
  return [...new Set(names)].sort();
}

const program = ts.createProgram(
  entries.flatMap((entry) => [builtFile(entry, '.d.ts'), builtFile(entry, '.d.cts')]),
  { module: ts.ModuleKind.NodeNext, lib: ['lib.es2022.d.ts'], types: [] },
);

/** The names a declaration file exports, by kind. */
function declared(file: string): { values: string[]; types: string[] } {
  const checker = program.getTypeChecker();
  const module = checker.getSymbolAtLocation(program.getSourceFile(file) as ts.SourceFile) as ts.Symbol;
  const [values, types]: [string[], string[]] = [[], []];
  for (const symbol of checker.getExportsOfModule(module)) {
    const real = symbol.flags & ts.SymbolFlags.Alias ? checker.getAliasedSymbol(symbol) : symbol;
    (real.flags & ts.SymbolFlags.Value ? values : types).push(symbol.name);
  }
  return { values: values.sort(), types: types.sort() };
}

describe.each(entries)('%s', (entry) => {
  const parts = entry === 'motescale' ? gathered : [entry];
  const values = namesOf('values', parts);
  const types = namesOf('types', parts);

  test('as ES module', async () => {
    expect(Object.keys(await import(resolve(builtFile(entry, '.js')))).sort()).toEqual(values);
  });

  test('as CommonJS', () => {
    const load = createRequire(import.meta.url);
    expect(Object.keys(load(resolve(builtFile(entry, '.cjs')))).sort()).toEqual(values);
  });

  test.each(['.d.ts', '.d.cts'])('declared in %s', (ending) => {
    expect(declared(builtFile(entry, ending))).toEqual({ values, types });
  });
});
