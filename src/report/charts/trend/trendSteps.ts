/** What stands behind the readings of a trend panel: the spans of target and alarm, and the steps of the standard. */
import type { Step } from '../../classSteps.ts';
import { fill } from '../../texts/fill.ts';
import type { Texts } from '../../texts/types.ts';
import { ink, layerOf, type Spec } from '../chartSpec.ts';
import { type CountScale, countBeside, leastApart, pixelOf, spaced, stepsWithin } from '../countScale.ts';

/** The right edge of the panel. */
const edge = { value: 'width' };
const y = { field: 'count', type: 'quantitative' };

/** What a panel is judged by: the steps of the standard, and the limits of target and alarm. */
export interface PanelLimits {
  readonly scale: CountScale;
  readonly steps: readonly Step[];
  readonly target: number | null;
  readonly alarm: number | null;
}

/** Light grey above the target, dark grey above the alarm limit. */
export function spanLayers({ scale: { domain }, target, alarm }: PanelLimits): Spec[] {
  const layers: Spec[] = [];
  const add = (low: number, high: number, color: string) => {
    const encoding = { x: { value: 0 }, x2: edge, y: { field: 'low', type: 'quantitative' }, y2: { field: 'high' } };
    layers.push(layerOf([{ low, high }], { type: 'rect', color, opacity: 1 }, encoding));
  };
  if (target !== null) add(target, alarm ?? domain[1], ink.span);
  if (alarm !== null) add(alarm, domain[1], ink.alarm);
  return layers;
}

/** A class named on the right of a panel, or the limit that a target or an alarm ends at. */
export interface StepLabel {
  readonly text: string;
  readonly count: number;
  readonly key: boolean;
}

/**
 * The limits of target and alarm, each at its line, then the classes in the middle of theirs; no two on each other. A
 * limit named beside a class could be taken for the first class beyond it.
 */
export function stepLabels({ scale, steps, target, alarm }: PanelLimits, { charts }: Texts): StepLabel[] {
  const { targetClass, alarmClass, bothClass } = charts;
  const limits: StepLabel[] = [];
  const classes: StepLabel[] = [];
  for (const { label, upTo } of steps) {
    const template = upTo !== target ? alarmClass : upTo === alarm ? bothClass : targetClass;
    if (upTo !== target && upTo !== alarm) continue;
    if (upTo <= scale.span.high) limits.push({ text: fill(template, { class: label }), count: upTo, key: true });
  }
  for (const { label, above, upTo } of stepsWithin(steps, scale.span)) {
    // the middle of a step of 0 height at the edge lies on the edge
    const count = Math.sqrt(above) * Math.sqrt(upTo);
    if (count > 0) classes.push({ text: label, count, key: false });
  }
  return spaced([...apart(limits, scale), ...classes], scale);
}

/** Two limits so near that only one could be named: each name is moved from its line as little as both need. */
function apart(limits: readonly StepLabel[], scale: CountScale): readonly StepLabel[] {
  const [low, high] = limits;
  if (low === undefined || high === undefined || low.count === high.count) return limits;
  // half a pixel more: places are not exact
  const away = (leastApart + 1 / 2 - pixelOf(low.count, scale) + pixelOf(high.count, scale)) / 2;
  if (away <= 0) return limits;
  return [low, high].map((each) => ({ ...each, count: countBeside(each.count, each === low ? -away : away, scale) }));
}

/** Lines at the limits, and the classes between them. */
export function stepLayers({ scale, steps, target, alarm }: PanelLimits, labels: readonly StepLabel[]): Spec[] {
  const lines: { count: number; key: boolean }[] = [];
  let last = Infinity;
  for (const { above, upTo } of stepsWithin(steps, scale.span)) {
    if (above <= 0 || upTo <= above) continue;
    const key = above === target || above === alarm;
    const place = pixelOf(above, scale);
    // steps too narrow to be told apart are left out
    if (!key && last - place < 4) continue;
    lines.push({ count: above, key });
    last = place;
  }
  const rules = (isKey: boolean, style: Spec) =>
    layerOf(
      lines.filter(({ key }) => key === isKey),
      { type: 'rule', ...style },
      { x: { value: 0 }, x2: edge, y },
    );
  const names = (isKey: boolean, fontWeight: string) =>
    layerOf(
      labels.filter(({ key }) => key === isKey),
      { type: 'text', align: 'left', baseline: 'middle', dx: 7, fontSize: 11, fontWeight, color: ink.text },
      { x: edge, y, text: { field: 'text' } },
    );
  return [
    rules(false, { color: ink.line, strokeWidth: 0.7 }),
    rules(true, { color: ink.note, strokeWidth: 1, strokeDash: [5, 3] }),
    names(false, 'normal'),
    names(true, 'bold'),
  ];
}
