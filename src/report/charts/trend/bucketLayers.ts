/**
 * The buckets of a panel: a band from the least to the most, a line through the means, and marks of those that no line
 * shows, of those known for less than half of their time, and of the newest reading.
 */
import { ink, layersOf, type Spec } from '../chartSpec.ts';
import { type CountScale, drawnAt } from '../countScale.ts';
import { type Axes, aloneIn, circleLayer, dotLayer, lineLayer, thinned } from './readingLayers.ts';
import type { TimeScale } from './trendMarks.ts';
import type { TrendBucket, TrendLast, TrendSeries } from './trendSeries.ts';

/** Up to so many means each have a dot. */
const fewMeans = 60;

export function bucketLayers(series: TrendSeries, scale: CountScale, time: TimeScale, axes: Axes): Spec[] {
  const { buckets } = series;
  if (buckets.length === 0) return [];
  const means = buckets.map((bucket) => ({
    // a count that stood for no time has no mean: it is its own mark, at its own time
    time: bucket.mean === null ? bucket.lastTime : (bucket.time + bucket.end) / 2,
    count: drawnAt(bucket.mean ?? bucket.high, scale),
    stretch: bucket.stretch,
    thin: bucket.thin,
  }));
  const isAlone = aloneIn(means);
  const dots = means.filter((mean) => isAlone(mean) && !mean.thin);
  const thin = means.filter((mean) => mean.thin);
  // where a line shows the others, those with room are enough
  const joined = thin.filter((mean) => !isAlone(mean));
  const few = buckets.length <= fewMeans;
  const newest = newestOf(series).map((last) => ({ time: last.local, count: drawnAt(last.value, scale), stretch: 0 }));
  return [
    ...bandLayer(buckets, scale, axes),
    lineLayer(means, few, axes),
    ...(few ? [] : dotLayer(dots, scale, time, axes)),
    ...circleLayer([...thin.filter(isAlone), ...thinned(joined, scale, time)], axes),
    ...dotLayer(newest, scale, time, axes),
  ];
}

/** The newest reading that can be relied on; none where it is not kept, or was taken before the first bucket. */
export function newestOf({ buckets, last }: TrendSeries): TrendLast[] {
  const first = buckets[0];
  return first === undefined || last === null || last.isMean || last.local < first.time ? [] : [last];
}

/** One area for each stretch: of bars beside each other the seams would be seen as a hatching. */
function bandLayer(buckets: readonly TrendBucket[], scale: CountScale, { x, y }: Axes): Spec[] {
  const edges: { time: number; low: number; high: number; stretch: number }[] = [];
  buckets.forEach(({ time, end, low, high, stretch }, i) => {
    const row = { low: drawnAt(low, scale), high: drawnAt(high, scale), stretch };
    edges.push({ time, ...row });
    if (buckets[i + 1]?.stretch !== stretch) edges.push({ time: end, ...row });
  });
  const detail = { field: 'stretch', type: 'nominal' };
  return layersOf(
    edges,
    { type: 'area', interpolate: 'step-after', color: ink.data, opacity: 0.3 },
    { x, y: { ...y, field: 'low' }, y2: { field: 'high' }, detail },
  );
}
