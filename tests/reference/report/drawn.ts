/** Turns a chart into a picture as a user would, with code made of text or without, and keeps every warning. */
import * as vega from 'vega';
import { expressionInterpreter } from 'vega-interpreter';
import { compile } from 'vega-lite';
import type { ChartSpec } from '../../../src/report/index.ts';

export interface Drawn {
  readonly svg: string;
  readonly warnings: readonly string[];
}

/** `strict`: under a policy that forbids making code of text, by an interpreter of expressions. */
export async function drawn(spec: ChartSpec, strict = false): Promise<Drawn> {
  const warnings: string[] = [];
  const logger = {
    level: () => logger,
    error: (...words: unknown[]) => note(words),
    warn: (...words: unknown[]) => note(words),
    info: () => logger,
    debug: () => logger,
  } as unknown as vega.LoggerInterface;
  function note(words: readonly unknown[]) {
    warnings.push(words.join(' '));
    return logger;
  }
  // vega marks the rows it is given; a copy keeps the specification as it was
  const copy: ChartSpec = JSON.parse(JSON.stringify(spec));
  const { spec: vegaSpec } = compile(copy, { logger });
  const view = strict
    ? new vega.View(vega.parse(vegaSpec, {}, { ast: true }), { renderer: 'none', logger, expr: expressionInterpreter })
    : new vega.View(vega.parse(vegaSpec), { renderer: 'none', logger });
  const svg = await view.toSVG();
  view.finalize();
  return { svg, warnings };
}

/** All texts in the picture, in the order drawn. */
export function textsIn(svg: string): string[] {
  return [...svg.matchAll(/<(?:text|tspan)[^>]*>([^<]+)</g)].map((match) =>
    (match[1] as string).replace(/&gt;/g, '>').replace(/&lt;/g, '<').replace(/&amp;/g, '&'),
  );
}

/** A piece of a specification. */
export type Part = Readonly<Record<string, unknown>>;

/** The rows of data of all layers of a specification. */
export function rowsIn(spec: Part): Record<string, unknown>[] {
  const parts = (spec.vconcat ?? [spec]) as Part[];
  const layers = parts.flatMap((part) => (part.layer ?? []) as { data?: { values: Record<string, unknown>[] } }[]);
  return layers.flatMap((layer) => layer.data?.values ?? []);
}
