/** The figure of a reading that an alarm watches or a trend follows. */
import { hasOwn } from '../checks.ts';
import { placeOf } from '../codes/classIndex.ts';
import { leastPerMl } from '../codes/fewCounted.ts';
import { type ClassTable, continuousScaleNumber, iso4406, scaleNumber } from '../codes/index.ts';
import type { CumulativeCounts } from '../counts/types.ts';
import { worse } from '../reading/assessReading.ts';
import type { Assessment, Quality, Reading } from '../reading/reading.ts';
import type { ReadingLimits } from '../reading/readingLimits.ts';
import { fullSaturation } from '../reading/rules.ts';
import { carriedSaturation } from '../water/carriedSaturation.ts';
import { codeGiven } from './codeVerdict.ts';
import type { MonitorFigure, QualifiedFigure } from './types.ts';

/**
 * The figure and how far it can be relied on, by its own findings only; null where the reading does not have it. Asked
 * of checked readings.
 */
export function figureOf(
  figure: MonitorFigure,
  reading: Reading,
  assessment: Assessment,
  limits: ReadingLimits,
): QualifiedFigure | null {
  const { figureQualities } = assessment;
  if ('quantity' in figure) {
    const value = reading[figure.quantity];
    return value === undefined ? null : { value, quality: figureQualities[figure.quantity] as Quality };
  }
  if ('other' in figure) return otherOf(reading, figure.other);
  if ('waterSaturationAt' in figure) return waterAt(figure.waterSaturationAt, reading, figureQualities, limits);
  const quality = figureQualities.counts as Quality;
  if ('scaleNumberAt' in figure) {
    const found = scaleNumberAt(reading, figure.scaleNumberAt);
    return found === null ? null : { ...found, quality };
  }
  if ('perMlAt' in figure) {
    const value = perMlAt(reading, figure.perMlAt);
    return value === null ? null : { value, quality };
  }
  const perMl = perMlAt(reading, figure.continuousScaleNumberAt);
  return perMl === null ? null : { value: continuousScaleNumber(perMl), quality };
}

/** The value of a figure that can be relied on; null of one that is bad, is not there, or is only more than all. */
export function usable(figure: QualifiedFigure | null): number | null {
  return figure === null || figure.quality === 'bad' || figure.upTo === Infinity ? null : figure.value;
}

/** Water kept, temperature changed. A sensor in full oil ends there: how much more there is, it does not see. */
function waterAt(
  at: number,
  { waterSaturation, celsius }: Reading,
  qualities: Assessment['figureQualities'],
  { solubility, freeWaterSaturation }: ReadingLimits,
): QualifiedFigure | null {
  if (waterSaturation === undefined || celsius === undefined || solubility === null) return null;
  const value = carriedSaturation(waterSaturation, solubility.b, celsius + 273.15, at + 273.15);
  const quality = worse(qualities.waterSaturation as Quality, qualities.celsius as Quality);
  return waterSaturation < (freeWaterSaturation ?? fullSaturation)
    ? { value, quality }
    : { value, upTo: Infinity, quality };
}

/** A whole scale number; of few particles it may be one more. */
function scaleNumberAt(reading: Reading, size: number): Omit<QualifiedFigure, 'quality'> | null {
  const { counts } = reading;
  if (counts === undefined) return scaleNumberGiven(reading, size);
  const perMl = perMlAt(reading, size);
  if (perMl === null) return null;
  const place = counts.sizes.indexOf(size);
  const counted = counts.counted?.[place] ?? Infinity;
  const found = asMarked(scaleNumber(perMl), counted < (iso4406.fewCounted as number));
  return found.upTo === undefined ? found : { ...found, downTo: scaleNumber(leastPerMl(counts, place)) };
}

function asMarked(value: number, few: boolean): Omit<QualifiedFigure, 'quality'> {
  return few ? { value, upTo: value + 1 } : { value };
}

/** From a code of ISO 4406 given without counts; null where it says nothing of the size. `*` is beyond all. */
function scaleNumberGiven(reading: Reading, size: number): Omit<QualifiedFigure, 'quality'> | null {
  const code = codeGiven(iso4406, reading);
  if (typeof code === 'string') return null;
  for (let i = 0; i < iso4406.columns.length; i += 1) {
    const { from } = iso4406.columns[i] as ClassTable['columns'][number];
    const part = code.parts[i];
    if (from.iso11171 !== size || part === undefined) continue;
    if (part.mark === 'too_many') return { value: iso4406.classes.length, upTo: Infinity };
    return part.class === null ? null : asMarked(placeOf(iso4406, part.class), part.mark === 'few_counted');
  }
  return null;
}

function perMlAt({ counts }: Reading, size: number): number | null {
  const place = counts === undefined ? -1 : counts.sizes.indexOf(size);
  return place < 0 ? null : ((counts as CumulativeCounts).perMl[place] as number);
}

function otherOf({ others }: Reading, name: string): QualifiedFigure | null {
  const other = others !== undefined && hasOwn(others, name) ? others[name] : undefined;
  if (other === undefined) return null;
  return typeof other === 'number' ? { value: other, quality: 'good' } : other;
}
