/** The relative errors that a probability rests on: those given, and the usual ones where one is left out. */
import { defaultMeasurementErrors, type MeasurementErrors } from '../codes/index.ts';
import { type ErrorPart, errorParts } from '../codes/uncertainty/errors.ts';
import { fill, percentText } from './texts/fill.ts';
import type { Texts } from './texts/types.ts';

/** Each relative standard uncertainty as it was reckoned with. */
export type TakenErrors = typeof defaultMeasurementErrors;

export function errorsTaken(errors: MeasurementErrors, parts: readonly ErrorPart[]): TakenErrors {
  const taken = { ...defaultMeasurementErrors };
  for (const part of parts) taken[part] = errors[part] ?? taken[part];
  return taken;
}

/** `Relative standard uncertainties taken: volume 3 %, ...` */
export function errorsText(errors: TakenErrors, texts: Texts): string {
  const named = errorParts.filter((part) => part !== 'dilution' || errors.dilution > 0);
  const parts = named.map((part) => fill(texts.sheet.errorParts[part], { percent: percentText(errors[part], texts) }));
  return fill(texts.sheet.errors, { errors: parts.join(', ') });
}
