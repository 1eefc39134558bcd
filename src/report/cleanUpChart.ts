/**
 * A clean-up as a chart: the count at each size over the minutes of filtering, and when the target is reached.
 */
import { requireFilledArray, requireNonNegative, requireObject, requirePositive } from '../checks.ts';
import { type ClassTable, type Code, limitsOf } from '../codes/index.ts';
import { checkCounts } from '../counts/checkCounts.ts';
import type { Sizing } from '../counts/index.ts';
import { motescaleError } from '../errors.ts';
import {
  type CleanUpPoint,
  cleanUpCurve,
  type TankBySize,
  type TimeToCode,
  timeToReachCode,
} from '../filtration/index.ts';
import { type ChartSpec, chart } from './chartSpec.ts';
import { type CodeAtSize, chartTable, codeAtSizes, codeText, shortTitle, tableSizes } from './classSteps.ts';
import { lineLayers, reachedLayers, targetLayers } from './cleanUpLayers.ts';
import { decadesOf, type Span, spanOf } from './countScale.ts';
import { durationText } from './figures.ts';
import { countOf, sizeText } from './reportReading.ts';

/** What to draw. */
export interface CleanUpChartOptions {
  readonly title?: string;
  /** How long to draw, in minutes. */
  readonly minutes: number;
  /** The standard the target is written in; ISO 4406 where left out. Cumulative only. */
  readonly table?: ClassTable;
  /** The code to be reached. */
  readonly target?: string | Code;
  /** Counts measured on the way, to be held against the curve. */
  readonly measured?: readonly CleanUpPoint[];
  /** Width in pixels; 560 where left out. */
  readonly width?: number;
}

const optionMembers = ['title', 'minutes', 'table', 'target', 'measured', 'width'];

/**
 * The clean-up of a tank as a Vega-Lite specification: counts per mL at each size, logarithmic, over minutes (hours beyond four), as
 * `cleanUpCurve` has them. Lines differ by dashes, measured counts by shapes. A target is drawn as a thin line at each size up to a dot
 * where it is reached, and an upright where all are. Minutes are rounded up. A measured count of 0 stands as a triangle at the lower edge.
 *
 * It shows what a well-mixed tank would do; see `cleanUp` for what that assumes. Before a machine runs, a sample decides.
 *
 * @throws as `cleanUpCurve` and `timeToReachCode`; `bad_code`; `not_convertible` for a table of ranges; `sizing_not_convertible` for
 * counts measured in another sizing than the tank's.
 *
 * @example
 * ```ts
 * import { cumulativeCounts } from 'motescale/counts';
 * import { cleanUpChart } from 'motescale/report';
 * const counts = cumulativeCounts({ 4: 9000, 6: 2400, 14: 160 });
 * const spec = cleanUpChart({ litres: 400, litresPerMin: 40, counts, beta: [20, 75, 1000] }, { minutes: 60, target: '16/14/11' });
 * JSON.stringify(spec.title).indexOf('reached after 28 min') > 0; // => true
 * ```
 */
export function cleanUpChart(tank: TankBySize, options: CleanUpChartOptions): ChartSpec {
  requireObject(options, 'options', 'options { minutes }', optionMembers);
  const minutes = requirePositive(options.minutes, 'options.minutes', 'minutes of filtering, above 0');
  const width = requirePositive(options.width ?? 560, 'options.width');
  const curve = cleanUpCurve(tank, minutes, 120);
  const { sizing } = tank.counts;
  const table = chartTable(options.table, sizing);
  const targets = options.target === undefined ? [] : codeAtSizes(table, options.target, sizing);
  const time = options.target === undefined ? null : timeToReachCode(tank, limitsOf(table, options.target, sizing));
  const measured = checkMeasured(options.measured ?? [], minutes, sizing);
  const judged = tableSizes(table, sizing).filter((size) => tank.counts.sizes.indexOf(size) >= 0);
  const sizes = judged.length > 0 ? judged : tank.counts.sizes;
  const span = spanFor(sizes, curve, targets, measured);
  const hours = minutes > 240;
  const frame = { span, minutes, unit: hours ? 60 : 1 };
  const lines: ChartSpec[] = [];
  sizes.forEach((size, i) => {
    lines.push(...lineLayers(size, i, sizeText(size, sizing), curve, measured, frame));
  });
  return chart(options.title ?? 'Clean-up', subtitle(options, shortTitle(table), time, measured), {
    width,
    height: 340,
    // what stands later lies above
    layer: [...reachedLayers(time, frame), ...targetLayers(targets, time, frame), ...lines],
    encoding: {
      x: {
        field: 'time',
        type: 'quantitative',
        scale: { domain: [0, minutes / frame.unit], nice: false },
        axis: { title: `${hours ? 'hours' : 'minutes'} of filtering`, grid: false, tickCount: 8 },
      },
      y: {
        field: 'perMl',
        type: 'quantitative',
        scale: { type: 'log', domain: [span.low, span.high], nice: false },
        axis: { title: 'particles of a size and larger, per mL', values: decadesOf(span), labelExpr: 'datum.value' },
      },
    },
  });
}

/** From the start down to a decade below the lowest target, or to what is reached, but never lower than one particle in 100 mL. */
function spanFor(
  sizes: readonly number[],
  curve: readonly CleanUpPoint[],
  targets: readonly CodeAtSize[],
  measured: readonly CleanUpPoint[],
): Span {
  const counts: number[] = [];
  for (const point of [...curve, ...measured]) for (const size of sizes) counts.push(countOf(point.counts, size) ?? 0);
  let floor = 0.01;
  let least = 0;
  for (const { upTo } of targets) if (upTo !== null && (least === 0 || upTo < least)) least = upTo;
  if (least > 0) floor = Math.max(floor, least / 8);
  return spanOf([...counts.map((count) => Math.max(count, floor)), ...(least > 0 ? [least] : [])], []);
}

function subtitle(
  options: CleanUpChartOptions,
  standard: string,
  time: TimeToCode | null,
  measured: readonly CleanUpPoint[],
): string[] {
  const lines = ['A well-mixed tank, by calculation; reality takes longer'];
  if (measured.length > 0) {
    const none = measured.some(({ counts }) => counts.perMl.indexOf(0) >= 0);
    lines.push(`lines: calculated; marks: measured${none ? ', ▽ none counted' : ''}`);
  }
  if (options.target === undefined || time === null) return lines;
  return [...lines, `target ${standard} ${codeText(options.target)}: ${outcomeText(time)}`];
}

function outcomeText({ minutes, heldUntil, slowestSize }: TimeToCode): string {
  if (minutes === null) return `never reached; ${slowestSize} µm prevents it`;
  const reached = minutes === 0 ? 'met from the start' : `reached after ${durationText(minutes)}`;
  return heldUntil === null ? reached : `${reached}, lost again after ${durationText(heldUntil, 'down')}`;
}

function checkMeasured(measured: readonly CleanUpPoint[], minutes: number, sizing: Sizing): readonly CleanUpPoint[] {
  if (!Array.isArray(measured) || measured.length > 0) requireFilledArray(measured, 'options.measured');
  measured.forEach((point, i) => {
    requireObject(point, `options.measured[${i}]`, 'a point { minutes, counts }', ['minutes', 'counts']);
    requireNonNegative(point.minutes, `options.measured[${i}].minutes`);
    checkCounts(point.counts, `options.measured[${i}].counts`);
    if (point.counts.sizing !== sizing) {
      const parameter = `options.measured[${i}].counts.sizing`;
      throw motescaleError('sizing_not_convertible', parameter, point.counts.sizing, `'${sizing}', as in the tank`);
    }
  });
  return measured.filter((point) => point.minutes <= minutes);
}
