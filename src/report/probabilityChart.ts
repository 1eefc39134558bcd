/**
 * How sure a code is, as a picture: a small row of bars for each size, one bar for each class.
 */
import { requireMembers, requireObject, requirePositive } from '../checks.ts';
import type { CodeUncertainty } from '../codes/index.ts';
import { motescaleError } from '../errors.ts';
import { type ChartSpec, chart, ink } from './chartSpec.ts';
import { figureText } from './figures.ts';

/** What to write over the chart, and how wide it is. */
export interface ProbabilityChartOptions {
  readonly title?: string;
  /** Width in pixels; 480 where left out. */
  readonly width?: number;
}

/** A bar for less would be a hair, and its text would read 0 %. */
const leastShown = 0.005;

/**
 * The probability of each class at each size, as a Vega-Lite specification: a row of bars for each size, all on one scale
 * of classes, from the cleanest to the dirtiest that reaches 0.5 % at any size. Above each bar stands its probability in
 * whole per cent.
 *
 * @param sure what `codeUncertainty` found
 * @param options `title`, `width`
 * @throws `wrong_type`, `out_of_range`, `unknown_option`.
 *
 * @example
 * ```ts
 * import { codeUncertainty, iso4406 } from 'motescale/codes';
 * import { cumulativeCounts } from 'motescale/counts';
 * import { probabilityChart } from 'motescale/report';
 * const counts = cumulativeCounts({ 4: 12600, 6: 4700, 14: 330 }, { volumeMl: 10 });
 * const spec = probabilityChart(codeUncertainty(iso4406, counts));
 * JSON.stringify(spec).indexOf('"text":"65 %"') > 0; // => true
 * ```
 */
export function probabilityChart(sure: CodeUncertainty, options: ProbabilityChartOptions = {}): ChartSpec {
  requireObject(sure, 'sure', 'what codeUncertainty found');
  requireMembers(requireObject(options, 'options'), 'options', ['title', 'width']);
  const width = requirePositive(options.width ?? 480, 'options.width');
  const { columns, low, high, mostProbable, confidence } = sure;
  if (!Array.isArray(columns) || !isWhole(sure)) {
    throw motescaleError('wrong_type', 'sure', sure, 'what codeUncertainty found');
  }
  const classes = classesShown(sure);
  const subtitle = [
    `most probable: ${mostProbable.text}`,
    `limits of ${figureText(100 * confidence)} % at each size: ${low.text} to ${high.text}`,
  ];
  return chart(options.title ?? 'How sure is the code?', subtitle, {
    vconcat: sure.columns.map((column, i) => barRow(column, classes, width, i === sure.columns.length - 1)),
    spacing: 8,
  });
}

function isWhole({ columns, low, high, mostProbable, confidence }: CodeUncertainty): boolean {
  const coded = [low, high, mostProbable].every((code) => typeof code === 'object' && code !== null);
  return (
    coded &&
    typeof confidence === 'number' &&
    columns.length > 0 &&
    columns.every((column) => Array.isArray(column?.probabilities))
  );
}

/** From the first class that reaches anything at some size to the last. */
function classesShown({ columns }: CodeUncertainty): string[] {
  let first = Infinity;
  let last = 0;
  for (const { probabilities } of columns) {
    probabilities.forEach(({ probability }, i) => {
      if (probability < leastShown) return;
      first = Math.min(first, i);
      last = Math.max(last, i);
    });
  }
  const all = (columns[0] as CodeUncertainty['columns'][number]).probabilities.map((one) => one.class);
  return all.slice(first, last + 1);
}

/** In whole per cent; never 100, since nothing measured is that sure. */
function percentText(probability: number): string {
  const percent = Math.floor(100 * probability + 0.5);
  return percent === 100 ? '>99 %' : `${percent} %`;
}

function barRow(
  { column, probabilities }: CodeUncertainty['columns'][number],
  classes: readonly string[],
  width: number,
  isLast: boolean,
): ChartSpec {
  const values = probabilities
    .filter((one) => one.probability >= leastShown && classes.indexOf(one.class) >= 0)
    .map((one) => ({ ...one, text: percentText(one.probability) }));
  return {
    width,
    height: 60,
    data: { values },
    layer: [
      { mark: { type: 'bar', color: ink.data, width: { band: 0.7 } } },
      { mark: { type: 'text', dy: -7, fontSize: 11, color: ink.text }, encoding: { text: { field: 'text' } } },
    ],
    encoding: {
      x: {
        field: 'class',
        type: 'ordinal',
        scale: { domain: classes },
        axis: isLast ? { title: 'class', labelAngle: 0 } : { title: null, labels: false, ticks: false },
      },
      y: {
        field: 'probability',
        type: 'quantitative',
        scale: { domain: [0, 1.5], nice: false },
        axis: { title: column, titleAngle: 0, titleAlign: 'right', titleBaseline: 'middle', values: [] },
      },
    },
  };
}
