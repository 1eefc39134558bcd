/**
 * What all charts share: the look, and the form of a specification. Ink on white paper: dark lines told apart by dashes, spans in grey, marks
 * told apart by shape. Nothing is said by colour alone, so a grey print and a colour-blind reader lose nothing.
 */
import { requireText } from '../checks.ts';

/** A chart as a Vega-Lite specification: a plain object, to be handed to a Vega-Lite 6 compiler or embedded as it is. */
export type ChartSpec = Readonly<Record<string, unknown>>;

/** The version of the grammar. The charts use nothing that version 5 lacks; put its address here to use them there. */
export const vegaLiteSchema = 'https://vega.github.io/schema/vega-lite/v6.json';

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
];

/** Shapes by the order of sizes. */
export const shapes: readonly string[] = ['circle', 'square', 'triangle-up', 'diamond'];

/** A cross of two strokes, for readings that are not to be relied on. */
export const crossShape = 'M-1,-1L1,1M-1,1L1,-1';

/** The frame of every chart. */
export function chart(title: string, subtitle: readonly string[], body: ChartSpec): ChartSpec {
  return {
    $schema: vegaLiteSchema,
    background: 'white',
    padding: 12,
    title: { text: requireText(title, 'options.title'), subtitle },
    ...body,
    config: {
      font: 'Helvetica, Arial, sans-serif',
      view: { stroke: '#888888' },
      title: {
        anchor: 'start',
        frame: 'group',
        fontSize: 15,
        fontWeight: 600,
        color: ink.text,
        subtitleFontSize: 11,
        subtitleColor: ink.note,
        subtitlePadding: 5,
        subtitleLineHeight: 14,
        offset: 12,
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

/** Text with a white rim, so that it can be read across lines. Two layers: the rim below, the letters above. */
export function rimmedText(values: unknown, mark: ChartSpec, encoding: ChartSpec): ChartSpec[] {
  const text = { type: 'text', fontSize: 11, color: ink.text, ...mark };
  return [
    {
      data: { values },
      mark: { ...text, color: 'white', stroke: 'white', strokeWidth: 3.5, strokeJoin: 'round' },
      encoding,
    },
    { data: { values }, mark: text, encoding },
  ];
}
