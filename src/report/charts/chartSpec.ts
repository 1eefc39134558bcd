/**
 * What all charts share: the look, and the form of a specification. Ink on white paper: dark lines told apart by
 * dashes, spans in grey, marks told apart by shape. Nothing is said by colour alone, so a grey print and a colour-blind
 * reader lose nothing.
 *
 * The layout is worked out here and not by the renderer: the picture has the width asked for on every machine, and
 * nothing moves with the letters a viewer happens to have.
 */
import type { Look } from '../look.ts';
import { bold, drawable, notesIn, widestOf, wrapped } from './textWidth.ts';

/**
 * A chart as a Vega-Lite specification: a plain object, to be handed to a Vega-Lite compiler or embedded as it is. Its
 * type is one that `compile` of vega-lite takes; what a part of it holds is for the compiler, and left open.
 */
export type ChartSpec = {
  readonly $schema: string;
  /** What the picture shows, for those who do not see it. */
  readonly description: string;
  readonly background: string;
  readonly autosize: { readonly type: 'none' };
  readonly padding: { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number };
  readonly title: { readonly text: string[]; readonly subtitle: string[]; readonly aria: false };
  // biome-ignore lint/suspicious/noExplicitAny: no type of this package is the compiler's own, and `unknown` is none
  readonly vconcat: any[];
  readonly spacing: number;
  readonly bounds: 'flush';
  // biome-ignore lint/suspicious/noExplicitAny: as above
  readonly config: any;
};

/** A piece of one: a layer, a mark, an encoding. */
export type Spec = Readonly<Record<string, unknown>>;

/** The address of the grammar that charts name where `vegaLite` is left out: version 6. */
export const vegaLiteSchema = 'https://vega.github.io/schema/vega-lite/v6.json';
const vegaLite5Schema = 'https://vega.github.io/schema/vega-lite/v5.json';

/** Greys and the one blue-black of the data; all differ in lightness. */
export const ink = {
  data: '#1d3557',
  text: '#222222',
  note: '#555555',
  line: '#c9c9c9',
  span: '#ededed',
  alarm: '#d2d2d2',
  bar: '#c4c4c4',
} as const;

/** Dashes by the order of sizes: solid, long, short, dotted, and again. */
export const dashes: readonly (readonly number[])[] = [
  [1, 0],
  [8, 3],
  [4, 3],
  [1.5, 2.5],
  [9, 2, 1.6, 2],
];

/** The same in signs, before the name of a line. */
export const dashTexts: readonly string[] = ['——', '— –', '- - -', '·····', '—·—'];

/** Shapes by the order of sizes. */
export const shapes: readonly string[] = ['circle', 'square', 'triangle-up', 'diamond', 'triangle-right'];
export const shapeTexts: readonly string[] = ['○', '□', '△', '◇', '▷'];

/** A cross of two strokes, for readings that are not to be relied on. */
export const crossShape = 'M-1,-1L1,1M-1,1L1,-1';

/** The height of a line of small letters, and the white rim around a picture. */
const lineHeight = 14;
export const rim = 12;
const titleSize = 15;
const titleLine = 18;
const subtitlePadding = 5;

/** A part of a chart: parts stand one below the other. */
export interface ChartPart {
  readonly height: number;
  readonly spec: Spec;
}

interface ChartLayout {
  readonly look: Look;
  /** What marks and lines mean, joined as they fit. */
  readonly notes: readonly string[];
  /** Read aloud for the picture. */
  readonly description: string;
  /** From the edge of the picture to the plot. */
  readonly left: number;
  readonly right: number;
  /** Above the first part, between parts, below the last. */
  readonly above: number;
  /** How far texts of the first part reach into what is above it. */
  readonly overhang: number;
  readonly between: number;
  readonly below: number;
  readonly parts: readonly ChartPart[];
}

export function chart(layout: ChartLayout): ChartSpec {
  const { look, left, right, above, overhang, between, below, parts } = layout;
  const { title, width, texts, vegaLite } = look;
  const plot = width - left - right;
  const text = wrapped(drawable(title), width - 2 * rim, titleSize * bold);
  const subtitle = notesIn(layout.notes.map(drawable), texts.charts.separator, width - 2 * rim);
  const head = text.length * titleLine + subtitlePadding + subtitle.length * lineHeight;
  const height = parts.reduce((sum, part) => sum + part.height, below + between * (parts.length - 1));
  return {
    $schema: vegaLite === 5 ? vegaLite5Schema : vegaLiteSchema,
    description: drawable(layout.description),
    background: 'white',
    // the parts have one width, which the renderer adds; their heights it does not
    autosize: { type: 'none' },
    padding: { left, right, top: rim + head + above, bottom: height + rim },
    title: { text, subtitle, aria: false },
    vconcat: parts.map((part) => ({ width: plot, height: part.height, ...part.spec })),
    spacing: between,
    bounds: 'flush',
    config: {
      // of the axes, as in `layerOf` of the marks
      aria: false,
      font: 'Helvetica, Arial, sans-serif',
      view: { stroke: '#888888' },
      title: {
        anchor: 'start',
        frame: 'group',
        dx: rim - left,
        fontSize: titleSize,
        lineHeight: titleLine,
        fontWeight: 600,
        color: ink.text,
        subtitleFontSize: 11,
        subtitleColor: ink.note,
        subtitlePadding,
        subtitleLineHeight: lineHeight,
        // counted by the renderer from the highest mark
        offset: above - overhang,
      },
      axis: {
        labelFontSize: 11,
        titleFontSize: 11,
        titleFontWeight: 'normal',
        labelColor: ink.text,
        titleColor: ink.text,
        gridColor: '#dddddd',
        domain: false,
        tickColor: '#888888',
        tickSize: 4,
      },
    },
  };
}

/** A text at a place of a page, in pixels from the corner of its part. */
export interface PlacedText {
  readonly x: number;
  readonly y: number;
  readonly text: string;
}

/**
 * A layer of marks, one for each row. None is read aloud: the renderer would take places on an axis for counts and
 * local time for UTC, and say all of it in English. `description` of the chart has the figures.
 */
export function layerOf(values: readonly unknown[], mark: Spec, encoding?: Spec): Spec {
  return { data: { values }, mark: { aria: false, ...mark }, ...(encoding && { encoding }) };
}

/** The same, and none where there is no row. */
export function layersOf(values: readonly unknown[], mark: Spec, encoding: Spec): Spec[] {
  return values.length === 0 ? [] : [layerOf(values, mark, encoding)];
}

/** Places given in pixels. */
export const byPixel = { type: 'quantitative', scale: null, axis: null };

/** Texts at places given in pixels. */
export function placedTexts(values: readonly PlacedText[], mark: Spec = {}): Spec {
  return layerOf(
    values.map((each) => ({ ...each, text: drawable(each.text) })),
    { type: 'text', align: 'left', baseline: 'middle', fontSize: 11, color: ink.text, ...mark },
    { x: { field: 'x', ...byPixel }, y: { field: 'y', ...byPixel }, text: { field: 'text' } },
  );
}

/** Lines of text below a chart, from the left edge of the picture. */
export function textPart(lines: readonly string[], left: number): ChartPart {
  const values = lines.map((text, i) => ({ x: rim - left, y: (i + 0.5) * lineHeight, text }));
  return {
    height: Math.max(1, lines.length * lineHeight),
    spec: { view: { stroke: null }, layer: [placedTexts(values, { color: ink.note })] },
  };
}

/**
 * A table below a chart: a head and rows, each column as wide as its widest text; figures stand to the right. In a
 * narrow picture the columns stand closer.
 */
export function tablePart(
  rows: readonly (readonly string[])[],
  width: number,
  left: number,
  leftAligned: number,
): ChartPart {
  const widths = (rows[0] ?? []).map((_head, column) => widestOf(rows.map((row) => row[column] ?? '')));
  const spare = width - 2 * rim - widths.reduce((sum, each) => sum + each, 0);
  const gap = Math.max(6, Math.min(14, spare / (widths.length - 1)));
  const place = (align: 'left' | 'right', first: boolean) => {
    const values: PlacedText[] = [];
    rows.forEach((row, i) => {
      let x = rim - left;
      row.forEach((text, column) => {
        const end = x + (widths[column] as number);
        const isLeft = column < leftAligned;
        if (isLeft === (align === 'left') && (i === 0) === first && text !== '') {
          values.push({ x: isLeft ? x : end, y: (i + 0.5) * (lineHeight + 2), text });
        }
        x = end + gap;
      });
    });
    return placedTexts(values, first ? { align, color: ink.note } : { align });
  };
  return {
    height: rows.length * (lineHeight + 2),
    spec: {
      view: { stroke: null },
      layer: [place('left', true), place('right', true), place('left', false), place('right', false)],
    },
  };
}
