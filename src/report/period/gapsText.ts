/** In words, for how long there was no reading that can be relied on where that is not usual. */
import { durationText, fill, whole } from '../texts/fill.ts';
import type { Texts } from '../texts/types.ts';
import type { Moment, PeriodCoverage } from './periodCoverage.ts';

/** A moment in words. */
export type MomentText = (moment: Moment) => string;

/** Empty without such a stretch. */
export function gapsText({ longestGap, longGaps, longGapsMs }: PeriodCoverage, texts: Texts, at: MomentText): string {
  if (longGaps === 0 || longestGap === null) return '';
  return fill(longGaps === 1 ? texts.period.gap : texts.period.gaps, {
    duration: durationText(longGapsMs / 60000, texts, 'down'),
    number: whole(longGaps, texts),
    from: at(longestGap.from),
    to: at(longestGap.to),
  });
}
