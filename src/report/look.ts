/** What every chart is told of its look, beside what it draws. */
import { requireObject, requireText, requireWithin } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import { requireTexts } from './texts/english.ts';
import type { ChartTexts, Texts } from './texts/types.ts';

/** As the options of a chart have it, with nothing left out. */
export interface Look {
  readonly title: string;
  readonly width: number;
  readonly texts: Texts;
  readonly vegaLite: 5 | 6;
}

/**
 * Where left out: English, the title that the texts have for such a chart, the usual width, version 6 of the grammar.
 * The picture is narrow enough for a phone at least, wide enough for a wall at most. `own`: what else the options have.
 */
export function requireLook(
  options: { readonly [K in keyof Look]?: Look[K] | undefined },
  kind: keyof ChartTexts['titles'],
  usualWidth: number,
  own: readonly string[] = [],
): Look {
  requireObject(options, 'options', undefined, ['title', ...own, 'width', 'texts', 'vegaLite']);
  const texts = requireTexts(options.texts, 'options.texts');
  const { width = usualWidth, vegaLite = 6, title = texts.charts.titles[kind] } = options;
  requireWithin(width, 'options.width', 240, 1600);
  if (vegaLite !== 5 && vegaLite !== 6) throw motescaleError('unknown_option', 'options.vegaLite', vegaLite, '5 or 6');
  requireText(title, 'options.title');
  return { title, width, texts, vegaLite };
}
