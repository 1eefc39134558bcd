/** How sure a code is, as a picture: a bar for each class at each size. */
import { requireFilled, requireObject, requirePositive, requireText, requireWithin } from '../../checks.ts';
import type { CodeUncertainty, ColumnUncertainty } from '../../codes/index.ts';
import type { Sizing } from '../../counts/index.ts';
import { motescaleError } from '../../errors.ts';
import { requireLook } from '../look.ts';
import { unitOf } from '../reportReading.ts';
import { codeIn, figure, fill, isOneClass } from '../texts/fill.ts';
import type { Texts } from '../texts/types.ts';
import { spoken } from './alternatives.ts';
import {
  byPixel,
  type ChartPart,
  type ChartSpec,
  chart,
  ink,
  layerOf,
  type PlacedText,
  placedTexts,
  rim,
} from './chartSpec.ts';
import { widestOf } from './textWidth.ts';

/** What to write over the chart, and how wide it is. */
export interface ProbabilityChartOptions {
  readonly title?: string | undefined;
  /** Width of the whole picture in pixels, 240 to 1600; 480 where left out. */
  readonly width?: number | undefined;
  /** The words of another language; English where left out. */
  readonly texts?: Texts | undefined;
  /** The version of the grammar; 6 where left out. */
  readonly vegaLite?: 5 | 6 | undefined;
}

/** A bar for less would be a hair, and its text would read 0 %. */
const leastShown = 0.005;
const rowHeight = 18;

/**
 * The probability of each class at each size, as a Vega-Lite specification: for each size the classes from the cleanest
 * to the dirtiest that reaches 0.5 %, each with a bar and its probability in whole per cent.
 *
 * @param sure what `codeUncertainty` found
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
  const look = requireLook(options, 'probability', 480);
  const { title, width, texts } = look;
  const { charts } = texts;
  const { columns, low, high, mostProbable, confidence } = sure;
  if (!Array.isArray(columns) || !isWhole(sure)) {
    throw motescaleError('wrong_type', 'sure', sure, 'what codeUncertainty found');
  }
  for (let i = 0; i < columns.length; i += 1) checkColumn(columns[i] as never, `sure.columns[${i}]`);
  const number = figure(100 * confidence, texts);
  const limits = isOneClass(mostProbable.text) ? charts.probability.limitsOfClass : charts.probability.limits;
  const notes = [
    fill(charts.probability.mostProbable, { code: codeIn(mostProbable.text, texts) }),
    fill(limits, { number, low: codeIn(low.text, texts), high: codeIn(high.text, texts) }),
  ];
  const shown = sure.columns.map((column) => barsOf(column, sure.sizing, texts));
  const all = shown.reduce<Bars['bars']>((list, { bars }) => list.concat(bars), []);
  const left = rim + Math.ceil(widestOf(all.map((bar) => bar.class))) + 8;
  const right = rim + Math.ceil(widestOf(all.map((bar) => bar.text))) + 8;
  const sentences = shown.map(({ column, bars }) => {
    const classes = bars.map((bar) => `${bar.class}: ${bar.text}`).join(', ');
    return fill(charts.alternative.probability, { column, classes });
  });
  return chart({
    look,
    notes,
    description: spoken(title, notes, sentences, texts),
    left,
    right,
    above: 28,
    overhang: 17,
    between: 30,
    below: 0,
    parts: shown.map((one) => barPart(one, width - left - right, left)),
  });
}

function isWhole({ sizing, columns, low, high, mostProbable, confidence }: CodeUncertainty): boolean {
  const coded = [low, high, mostProbable].every((code) => typeof code?.text === 'string');
  return coded && typeof sizing === 'string' && typeof confidence === 'number' && columns.length > 0;
}

/** What is drawn of a column. */
function checkColumn(column: ColumnUncertainty, path: string): void {
  requireObject(column, path, 'a column of codeUncertainty');
  requireText(column.column, `${path}.column`);
  requirePositive(column.from, `${path}.from`);
  if (column.to !== null) requirePositive(column.to, `${path}.to`);
  const classes = requireFilled(column.probabilities, `${path}.probabilities`, 'an array of classes');
  for (let i = 0; i < classes.length; i += 1) {
    const at = `${path}.probabilities[${i}]`;
    const each = requireObject(classes[i], at, 'a class { class, probability }') as { class: string };
    requireText(each.class, `${at}.class`);
    requireWithin(column.probabilities[i]?.probability, `${at}.probability`, 0, 1);
  }
}

interface Bars {
  readonly column: string;
  readonly bars: readonly { readonly class: string; readonly probability: number; readonly text: string }[];
}

/** From the first class that reaches anything at this size to the last. */
function barsOf({ column, from, to, probabilities }: ColumnUncertainty, sizing: Sizing, texts: Texts): Bars {
  const reached = probabilities.map(({ probability }) => probability >= leastShown);
  const within = probabilities.slice(reached.indexOf(true), reached.lastIndexOf(true) + 1);
  const bars = within.map(({ class: name, probability }) => {
    // never 100, since nothing measured is that sure
    const whole = Math.floor(100 * probability + 0.5);
    const number = whole === 100 ? '>99' : whole === 0 ? '<1' : String(whole);
    return { class: name, probability, text: fill(texts.percent, { number }) };
  });
  // a column named by a size or a range, and not by a letter, stands with its sizes in the sizing of the counts
  if (!/^[>\d.-]+$/.test(column)) return { column, bars };
  const sizes = to === null ? String(from) : `${from}-${to}`;
  return { column: `${column.charAt(0) === '>' ? '>' : ''}${sizes} ${unitOf(sizing)}`, bars };
}

function barPart({ column, bars }: Bars, plot: number, left: number): ChartPart {
  const names: PlacedText[] = [];
  const shares: PlacedText[] = [];
  const values = bars.map((bar, i) => {
    const y = (i + 0.5) * rowHeight;
    const x = Math.max(1, plot * bar.probability);
    names.push({ x: -8, y, text: bar.class });
    shares.push({ x: x + 5, y, text: bar.text });
    return { class: bar.class, probability: bar.probability, x, from: 0, y };
  });
  return {
    height: bars.length * rowHeight,
    spec: {
      view: { stroke: null },
      layer: [
        layerOf(
          values,
          { type: 'rule', color: ink.data, strokeWidth: 12, strokeCap: 'butt' },
          { x: { field: 'from', ...byPixel }, x2: { field: 'x' }, y: { field: 'y', ...byPixel } },
        ),
        placedTexts(names, { align: 'right' }),
        placedTexts(shares),
        placedTexts([{ x: rim - left, y: -11, text: column }], { fontWeight: 600 }),
      ],
    },
  };
}
