/**
 * One panel of the trend: one size over time, before the steps of the standard.
 */
import type { ClassTable } from '../codes/index.ts';
import type { CumulativeCounts, Sizing } from '../counts/index.ts';
import { type ChartSpec, crossShape, ink } from './chartSpec.ts';
import { atSize, type CodeAtSize, type Step, stepsAt } from './classSteps.ts';
import { decadesOf, held, type Span, spanOf, stepsWithin, thinned } from './countScale.ts';
import { countOf, sizeText } from './reportReading.ts';
import { spanLayers, stepLayers } from './trendSteps.ts';

/** A reading in the trend. */
export interface PanelPoint {
  readonly time: number;
  readonly counts: CumulativeCounts;
  readonly quality: 'good' | 'uncertain' | 'bad';
  /** Readings of one stretch are joined by a line. */
  readonly stretch: number;
}

/** What a panel shows. */
export interface Panel {
  readonly size: number;
  readonly sizing: Sizing;
  readonly table: ClassTable;
  readonly points: readonly PanelPoint[];
  readonly target: readonly CodeAtSize[];
  readonly alarm: readonly CodeAtSize[];
  readonly width: number;
  /** What stands below the axis of time. */
  readonly timeTitle: string;
  /** The last panel carries the axis. */
  readonly last: boolean;
}

const height = 150;
/** A reading on its line. */
const dot = { size: 14, color: ink.data };
/** The time of day within a day, the date at midnight, the year at its turn. */
const timeAxis = {
  grid: false,
  tickCount: 8,
  labelOverlap: true,
  labelExpr:
    "utcFormat(datum.value, utchours(datum.value) + utcminutes(datum.value) > 0 ? '%H:%M' : utcmonth(datum.value) == 0 && utcdate(datum.value) == 1 ? '%Y' : '%-d %b')",
};

/** The panel as a layered specification. */
export function trendPanel(panel: Panel): ChartSpec {
  const steps = stepsAt(panel.table, panel.sizing, panel.size);
  const targetLimit = atSize(panel.target, panel.size)?.upTo ?? null;
  const alarmLimit = atSize(panel.alarm, panel.size)?.upTo ?? null;
  const shown = rowsOf(panel);
  const trusted = shown.filter(({ quality }) => quality !== 'bad');
  const limits = [targetLimit, alarmLimit].filter((limit): limit is number => limit !== null);
  const counts = (trusted.length > 0 ? trusted : shown).map(({ count }) => count);
  const span = spanOf([...counts, ...limits], steps);
  const rows: Row[] = shown.map((row) => ({ ...row, none: row.count === 0, count: held(row.count, span) }));
  return {
    width: panel.width,
    height,
    layer: [
      ...spanLayers(span, targetLimit, alarmLimit),
      ...stepLayers(steps, span, targetLimit, alarmLimit),
      ...readingLayers(panel, rows, steps, span),
    ],
  };
}

interface Row {
  readonly time: number;
  readonly count: number;
  readonly quality: string;
  readonly stretch: number;
  /** No particle was counted. */
  readonly none: boolean;
}

function rowsOf(panel: Panel): Omit<Row, 'none'>[] {
  const rows: Omit<Row, 'none'>[] = [];
  for (const { time, counts, quality, stretch } of panel.points) {
    const count = countOf(counts, panel.size);
    if (count !== null) rows.push({ time, count, quality, stretch });
  }
  return rows;
}

function readingLayers(panel: Panel, rows: readonly Row[], steps: readonly Step[], span: Span): ChartSpec[] {
  const limits = stepsWithin(steps, span).map(({ above }) => above);
  const x = {
    field: 'time',
    type: 'temporal',
    scale: { type: 'utc', domain: timesOf(panel.points) },
    axis: { ...timeAxis, title: panel.last ? panel.timeTitle : null, labels: panel.last },
  };
  const y = {
    field: 'count',
    type: 'quantitative',
    scale: { type: 'log', domain: [span.low, span.high], nice: false },
    axis: {
      title: `${sizeText(panel.size, panel.sizing)}, per mL`,
      grid: false,
      minExtent: 46,
      labelExpr: 'datum.value',
      ...(limits.length > 0 ? { values: thinned([...limits, span.high], 7) } : { values: decadesOf(span) }),
    },
  };
  const only = (quality: string) => rows.filter((row) => row.quality === quality);
  const joined = rows.filter((row) => row.quality !== 'bad');
  const few = rows.length <= 120;
  return [
    {
      data: { values: joined },
      mark: {
        type: 'line',
        color: ink.data,
        strokeWidth: 1.4,
        strokeJoin: 'round',
        point: few ? dot : false,
      },
      encoding: { x, y, detail: { field: 'stretch', type: 'nominal' } },
    },
    ...(few ? [] : lonelyLayers(joined, { x, y })),
    pointLayer(
      rows.filter((row) => row.none),
      { shape: 'triangle-down', fill: 'white', stroke: ink.data },
      { x, y },
    ),
    pointLayer(only('uncertain'), { shape: 'circle', fill: 'white', stroke: ink.data }, { x, y }),
    pointLayer(only('bad'), { shape: crossShape, fill: null, stroke: ink.text }, { x, y }),
  ];
}

/** Points for good readings whose line has no length: one alone between gaps or bad readings, or several of one time. */
function lonelyLayers(joined: readonly Row[], encoding: ChartSpec): ChartSpec[] {
  const firsts: number[] = [];
  const lasts: number[] = [];
  for (const { stretch, time } of joined) {
    firsts[stretch] = firsts[stretch] ?? time;
    lasts[stretch] = time;
  }
  const lonely = ({ stretch }: Row) => firsts[stretch] === lasts[stretch];
  const values = joined.filter((row) => row.quality === 'good' && !row.none && lonely(row));
  return values.length === 0
    ? []
    : [{ data: { values }, mark: { type: 'point', filled: true, opacity: 1, ...dot }, encoding }];
}

function pointLayer(values: unknown, style: ChartSpec, encoding: ChartSpec): ChartSpec {
  return { data: { values }, mark: { type: 'point', size: 34, strokeWidth: 1.4, opacity: 1, ...style }, encoding };
}

function timesOf(points: readonly PanelPoint[]): [number, number] {
  const first = (points[0] as PanelPoint).time;
  const last = (points[points.length - 1] as PanelPoint).time;
  return first === last ? [first - 1800000, last + 1800000] : [first, last];
}
