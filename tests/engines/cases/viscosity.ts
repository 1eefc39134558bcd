/** The walk through viscosity/. */
import type { ViscosityScale } from '../../../src/viscosity/index.ts';
import { spoil } from '../inputs.ts';
import type { Library } from '../recorder.ts';

/** The last two are no points of a line. */
const points = [
  [40, 46, 100, 6.8],
  [40, 10, 100, 2.5],
  [0, 1200, 100, 11],
  [-20, 5000, 80, 4],
  [40, 68, 40, 68],
  [40, 10, 100, 20],
] as const;
const scales: readonly ViscosityScale[] = [
  'mm2/s',
  'SUS',
  'SFS',
  'redwood1',
  'redwood1-nbs',
  'redwood2',
  'engler',
  'engler-ubbelohde',
  'engler-two-branch',
  'iso2431-4mm',
  'd1200-4',
];
const kinematic = [0.5, 1, 2.4, 4.5, 6.8, 15, 32, 46, 100.5, 460, 3200] as const;

export function walk(motescale: Library): void {
  walkLines(motescale);
  walkScales(motescale);
  walkIndex(motescale);
  walkGrades(motescale);
  walkDensity(motescale);
  walkOddInputs(motescale);
}

function walkLines(motescale: Library): void {
  for (const [celsius1, first, celsius2, second] of points) {
    const ends = [
      { celsius: celsius1, mm2PerS: first },
      { celsius: celsius2, mm2PerS: second },
    ];
    const more = [...ends, { celsius: 60, mm2PerS: 20 }];
    motescale.ubbelohdeWaltherM(ends);
    for (const form of ['full', 'short'] as const) {
      const line = motescale.viscosityLine(ends, { form });
      motescale.lineResiduals(motescale.viscosityLine(more, { form }), more);
      for (const celsius of [-60, -15, 0, 25, 40, 77.5, 120, 300]) motescale.viscosityAt(line, celsius);
      for (const mm2PerS of kinematic) motescale.temperatureAt(line, mm2PerS);
      motescale.blendLines([
        { fraction: 0.25, line },
        { fraction: 0.75, line: motescale.viscosityLineOfGrade(32, 100) },
      ]);
      motescale.blendLinesFraction({
        first: line,
        second: motescale.viscosityLineOfGrade(32, 100),
        celsius: 40,
        mm2PerS: 40,
      });
    }
  }
  for (const method of ['astm', 'refutas'] as const) {
    for (const mm2PerS of kinematic) {
      motescale.blendViscosity(
        [
          { fraction: 0.375, mm2PerS },
          { fraction: 0.625, mm2PerS: 68 },
        ],
        method,
      );
      motescale.blendFraction({ firstMm2PerS: mm2PerS, secondMm2PerS: 320, targetMm2PerS: 100 }, method);
      motescale.refutasNumber(mm2PerS);
    }
  }
}

function walkScales(motescale: Library): void {
  for (const from of scales) {
    for (const to of scales) {
      for (const value of [1.5, 33, 60, 220, 1500]) motescale.convertViscosity(value, from, to);
    }
  }
  for (const celsius of [20, 50, 98.9]) motescale.convertViscosity(46, 'mm2/s', 'SUS', { celsius });
}

function walkIndex(motescale: Library): void {
  for (const at100 of kinematic) {
    motescale.referenceViscosities(at100);
    for (const factor of [2, 5, 7.5, 11]) {
      const at40 = at100 * factor;
      const found = motescale.viscosityIndex({ at40, at100 });
      if (found !== undefined) motescale.viscosityAt100OfIndex(at40, found.index);
    }
    for (const index of [0, 95, 100, 160]) motescale.viscosityAt40OfIndex(at100, index);
  }
}

function walkGrades(motescale: Library): void {
  for (const mm2PerS of kinematic) {
    motescale.isoGrade(mm2PerS);
    motescale.isoGradeLimits(mm2PerS);
    motescale.agmaGrades({ at40: mm2PerS, at100: mm2PerS });
    motescale.saeEngineGrades(mm2PerS);
    motescale.saeEngineGrades(mm2PerS, { hths: 3 });
    motescale.saeGearGrades(mm2PerS);
    motescale.saeGearGrades(mm2PerS, { edition: '2005' });
    motescale.gradesOfOil(mm2PerS, 95);
    motescale.pressureViscosityFactor(mm2PerS * 1000, 2e-8);
  }
  for (const index of [60, 95, 100, 150]) {
    motescale.compareGrades(index);
    motescale.viscosityLineOfGrade(46, index);
  }
  for (const grade of ['0W', '20', '40', '75W', '80', '90', '140', '5', '8A', 'none']) {
    motescale.saeEngineGradeLimits(grade);
    motescale.saeGearGradeLimits(grade);
    motescale.saeGearGradeLimits(grade, { edition: '2005' });
    motescale.agmaGradeLimits(grade);
  }
}

function walkDensity(motescale: Library): void {
  for (const kgPerM3 of [700, 850, 872.5, 905, 1010]) {
    motescale.apiOfDensity(kgPerM3);
    motescale.apiOfRelativeDensity(kgPerM3 / 1000);
    motescale.dynamicViscosity(46, kgPerM3);
    motescale.kinematicViscosity(40, kgPerM3);
    for (const celsius of [-10, 15, 40, 95]) {
      motescale.densityAt(kgPerM3, celsius);
      motescale.densityAt15(kgPerM3, celsius);
    }
  }
  for (const degrees of [5, 10, 28.5, 45]) {
    motescale.densityOfApi(degrees);
    motescale.relativeDensityOfApi(degrees);
  }
}

function walkOddInputs(motescale: Library): void {
  const line = { a: 8.6, b: 3.4, form: 'short' };
  const ends = [
    { celsius: 40, mm2PerS: 46 },
    { celsius: 100, mm2PerS: 6.8 },
  ];
  spoil(motescale.viscosityLine, [ends, { form: 'full' }]);
  spoil(motescale.ubbelohdeWaltherM, [ends]);
  spoil(motescale.lineResiduals, [line, ends]);
  spoil(motescale.viscosityAt, [line, 40]);
  spoil(motescale.temperatureAt, [line, 46]);
  spoil(motescale.viscosityLineOfGrade, [46, 100]);
  spoil(motescale.blendLines, [[{ fraction: 1, line }]]);
  spoil(motescale.blendLinesFraction, [{ first: line, second: line, celsius: 40, mm2PerS: 40 }]);
  spoil(motescale.blendViscosity, [[{ fraction: 1, mm2PerS: 46 }], 'astm']);
  spoil(motescale.blendFraction, [{ firstMm2PerS: 32, secondMm2PerS: 320, targetMm2PerS: 100 }, 'refutas']);
  spoil(motescale.refutasNumber, [46]);
  spoil(motescale.convertViscosity, [46, 'mm2/s', 'SUS', { celsius: 40 }]);
  spoil(motescale.viscosityIndex, [{ at40: 46, at100: 6.8 }]);
  spoil(motescale.referenceViscosities, [6.8]);
  spoil(motescale.viscosityAt100OfIndex, [46, 100]);
  spoil(motescale.viscosityAt40OfIndex, [6.8, 100]);
  spoil(motescale.isoGrade, [46]);
  spoil(motescale.isoGradeLimits, [46]);
  spoil(motescale.agmaGrades, [{ at40: 46, at100: 6.8 }]);
  spoil(motescale.agmaGradeLimits, ['5']);
  spoil(motescale.saeEngineGrades, [10, { hths: 3 }]);
  spoil(motescale.saeEngineGradeLimits, ['30']);
  spoil(motescale.saeGearGrades, [14, { edition: '2019' }]);
  spoil(motescale.saeGearGradeLimits, ['90', { edition: '2019' }]);
  spoil(motescale.compareGrades, [95]);
  spoil(motescale.gradesOfOil, [46, 95]);
  spoil(motescale.pressureViscosityFactor, [1000, 2e-8]);
  spoil(motescale.apiOfDensity, [870]);
  spoil(motescale.apiOfRelativeDensity, [0.87]);
  spoil(motescale.densityOfApi, [30]);
  spoil(motescale.relativeDensityOfApi, [30]);
  spoil(motescale.densityAt, [870, 40]);
  spoil(motescale.densityAt15, [870, 40]);
  spoil(motescale.dynamicViscosity, [46, 870]);
  spoil(motescale.kinematicViscosity, [40, 870]);
}
