/** Printed examples of trend statistics, and certified values. */
import { studentLimit } from '../../../src/numeric/student.ts';
import { cusum } from '../../../src/trend/cusum.ts';
import { ewma } from '../../../src/trend/ewma.ts';
import { leastSquaresLine } from '../../../src/trend/index.ts';
import { exactChance } from '../../../src/trend/kendallChance.ts';
import { mannKendall } from '../../../src/trend/mannKendall.ts';
import { senSlope } from '../../../src/trend/senSlope.ts';
import { type Row, rowsOf, type Value, value } from '../ledger.ts';
import corrections from './corrections.json' with { type: 'json' };
import norris from './norris.json' with { type: 'json' };
import student from './student.json' with { type: 'json' };
import reference from './trend.json' with { type: 'json' };

/** Named figures of one result, each with its own tolerance. */
function figures(
  name: string,
  of: string,
  expected: Readonly<Record<string, number>>,
  tolerance: (figure: string, value: number) => number,
  found: () => Readonly<Record<string, unknown>>,
): Value[] {
  return Object.entries(expected).map(([figure, printed]) =>
    value(
      name,
      { of, figure },
      printed,
      tolerance(figure, printed),
      () => found()[figure] as number,
      `${of}: ${figure}`,
    ),
  );
}

function printedExamples(): Row[] {
  const kendall = reference.mannKendall.flatMap(({ name, values, expected, within, ...cited }) =>
    rowsOf(
      cited,
      figures(
        'mannKendall',
        name,
        expected as Record<string, number>,
        (figure) => (within as Record<string, number>)[figure] ?? 0,
        () => {
          const result = mannKendall(values, { method: 'normal' });
          return { ...result, pNormal: result.p };
        },
      ),
    ),
  );
  const slopes = reference.senSlope.flatMap(({ name, times, values, expected, within, ...cited }) =>
    rowsOf(
      cited,
      figures(
        'senSlope',
        name,
        expected,
        (figure) => (within as Record<string, number>)[figure] ?? 0,
        () => ({ ...senSlope(times, values) }),
      ),
    ),
  );
  return [...kendall, ...slopes];
}

/** Of many figures, the one farthest from what is printed for all of them. */
function farthest(found: readonly number[] | null | undefined, printed: number): number | undefined {
  return [...(found ?? [])].sort((a, b) => Math.abs(b - printed) - Math.abs(a - printed))[0];
}

function charts(): Row[] {
  const { values, options, expected, within, ...cited } = reference.ewma;
  const average = () => ewma(values, options);
  return [
    ...rowsOf(
      cited,
      expected.ewma.map((printed, i) =>
        value('ewma', { point: i + 1 }, printed, within.values, () => average().values[i]),
      ),
    ),
    // one pair of limits is printed for all points
    ...rowsOf(cited, [
      value('ewma', 'UCL', expected.UCL, within.limits, () => farthest(average().high, expected.UCL)),
      value('ewma', 'LCL', expected.LCL, within.limits, () => farthest(average().low, expected.LCL)),
      value('ewma', 'signals', 0, 0, () => average().signals?.length),
    ]),
    ...reference.cusum.flatMap((example) =>
      rowsOf(example, [
        ...(['high', 'low'] as const).flatMap((side) =>
          example.expected[side].map((printed, i) =>
            value(
              'cusum',
              { side, point: i + 1 },
              printed,
              example.within,
              () => cusum(example.values, example.options)[side][i] as number,
            ),
          ),
        ),
        value(
          'cusum',
          'first signal',
          example.expected.firstSignal,
          0,
          () => cusum(example.values, example.options).signals[0] ?? null,
        ),
      ]),
    ),
  ];
}

/** The table is one-sided, P(S >= s); by symmetry twice that is P(|S| >= s). */
function exactChances(): Row[] {
  const { byPoints, within, ...cited } = reference.exactOneSided;
  return rowsOf(
    cited,
    Object.entries(byPoints).flatMap(([points, row]) =>
      Object.entries(row as Record<string, number>)
        .filter(([s]) => Number(s) > 0)
        .map(([s, oneSided]) =>
          value('mannKendall', { points, s }, oneSided, within, () => exactChance(Number(points), [], Number(s)) / 2),
        ),
    ),
  );
}

function correlated(): Row[] {
  return corrections.cases.flatMap(({ id, series, expected, tolerance, options, ...cited }) => {
    const { values } = corrections.series[series as keyof typeof corrections.series];
    const within: { readonly relative: number; readonly p?: number } = tolerance;
    // `slope` is that of the series given: after pre-whitening another one is printed
    const compared = Object.entries(expected).filter(([figure]) => figure !== 'slope' || !('correction' in options));
    return rowsOf(
      cited,
      figures(
        'mannKendall',
        id,
        Object.fromEntries(compared) as Record<string, number>,
        (figure, printed) => ((figure === 'p' && within.p) || within.relative) * Math.abs(printed),
        () => {
          const found = mannKendall(values, options as Parameters<typeof mannKendall>[1]);
          const times = values.map((_value, i) => i);
          return {
            ...found,
            factor: found.variance / mannKendall(values).variance,
            slope: senSlope(times, values).slope,
          };
        },
      ),
    );
  });
}

function certified(): Row[] {
  const { certified: printed, x, y, source, standing } = norris;
  const names = {
    slope: printed.B1,
    intercept: printed.B0,
    slopeError: printed.seB1,
    interceptError: printed.seB0,
    residual: printed.residualSD,
    r2: printed.R2,
  };
  return rowsOf(
    { source, standing },
    figures(
      'leastSquaresLine',
      'Norris',
      names,
      (_figure, of) => 1e-9 * Math.abs(of),
      () => ({ ...leastSquaresLine(x, y) }),
    ),
  );
}

function studentTable(): Row[] {
  return rowsOf(
    student,
    student.rows.flatMap(({ freedom, limits }) =>
      limits.map((printed, i) => {
        const risk = student.risks[i] as number;
        return value('studentLimit', { freedom, risk }, printed, student.within, () => studentLimit(risk, freedom));
      }),
    ),
  );
}

export const rows: readonly Row[] = [
  ...printedExamples(),
  ...charts(),
  ...exactChances(),
  ...correlated(),
  ...certified(),
  ...studentTable(),
];
