/** What every chart is told of its look, beside what it draws. */
import { requireText, requireWithin } from '../checks.ts';
import { motescaleError } from '../errors.ts';
import { requireTexts } from './texts/english.ts';
import type { ChartTexts, Texts } from './texts/types.ts';

/** As the options of a chart have it. */
interface Look {
  readonly title?: string | undefined;
  readonly width?: number | undefined;
  readonly texts?: Texts | undefined;
  readonly vegaLite?: 5 | 6 | undefined;
}

type WholeLook = { readonly [K in keyof Look]-?: NonNullable<Look[K]> };

/**
 * The look with nothing left out: English, the title that the texts have for such a chart, the usual width, version 6
 * of the grammar. The picture is narrow enough for a phone at least, wide enough for a wall at most.
 */
export function requireLook(options: Look, kind: keyof ChartTexts['titles'], usualWidth: number): WholeLook {
  const texts = requireTexts(options.texts, 'options.texts');
  const { width = usualWidth, vegaLite = 6, title = texts.charts.titles[kind] } = options;
  requireWithin(width, 'options.width', 240, 1600);
  if (vegaLite !== 5 && vegaLite !== 6) throw motescaleError('unknown_option', 'options.vegaLite', vegaLite, '5 or 6');
  requireText(title, 'options.title');
  return { title, width, texts, vegaLite };
}
