/**
 * What stands behind the readings of a trend panel: the spans of target and alarm, and the steps of the standard.
 */
import { type ChartSpec, ink } from './chartSpec.ts';
import type { Step } from './classSteps.ts';
import { type Span, stepsWithin, thinned } from './countScale.ts';

/** The right edge of the panel. */
const edge = { value: 'width' };

/** Light grey above the target, dark grey above the alarm limit. */
export function spanLayers(span: Span, target: number | null, alarm: number | null): ChartSpec[] {
  const layers: ChartSpec[] = [];
  const add = (low: number, high: number, color: string) => {
    layers.push({
      data: { values: [{ low, high }] },
      mark: { type: 'rect', color, opacity: 1 },
      encoding: { x: { value: 0 }, x2: edge, y: { field: 'low', type: 'quantitative' }, y2: { field: 'high' } },
    });
  };
  if (target !== null) add(target, alarm ?? span.high, ink.span);
  if (alarm !== null) add(alarm, span.high, ink.alarm);
  return layers;
}

/** Lines at the limits, and the classes between them, named on the right; those of target and alarm in words and in bold. */
export function stepLayers(
  steps: readonly Step[],
  span: Span,
  target: number | null,
  alarm: number | null,
): ChartSpec[] {
  const within = stepsWithin(steps, span);
  const labels = within.map(({ label, above, upTo }) => {
    const word = upTo === target ? ' target' : above === alarm ? ' alarm' : '';
    return { text: `${label}${word}`, count: Math.sqrt(above * upTo), key: word !== '' };
  });
  const key = labels.filter((label) => label.key);
  const others = thinned(labels, 9).filter((label) => !label.key);
  const lines = within.map(({ above }) => ({ count: above, key: above === target || above === alarm }));
  const name = (values: unknown, fontWeight: string) => ({
    data: { values },
    mark: { type: 'text', align: 'left', dx: 7, fontSize: 11, fontWeight, color: ink.text },
    encoding: { x: edge, y: { field: 'count', type: 'quantitative' }, text: { field: 'text' } },
  });
  return [
    ruleLayer(
      lines.filter((line) => !line.key),
      { color: ink.line, strokeWidth: 0.7 },
    ),
    ruleLayer(
      lines.filter((line) => line.key),
      { color: ink.note, strokeWidth: 1, strokeDash: [5, 3] },
    ),
    name(others, 'normal'),
    name(key, 'bold'),
  ];
}

function ruleLayer(values: unknown, style: ChartSpec): ChartSpec {
  return {
    data: { values },
    mark: { type: 'rule', ...style },
    encoding: { x: { value: 0 }, x2: edge, y: { field: 'count', type: 'quantitative' } },
  };
}
