/** The walk through units.ts. */
import { spoil } from '../inputs.ts';
import type { Library } from '../recorder.ts';

export function walk(motescale: Library): void {
  const conversions = [
    motescale.fahrenheitToCelsius,
    motescale.celsiusToFahrenheit,
    motescale.psiToKPa,
    motescale.kPaToPsi,
    motescale.barToKPa,
    motescale.kPaToBar,
    motescale.feetToMetres,
    motescale.metresToFeet,
    motescale.usGallonsToLitres,
    motescale.litresToUsGallons,
    motescale.inchHgToKPa,
    motescale.kPaToInchHg,
  ];
  for (const convert of conversions) {
    for (const value of [0, 1, -40, 212, 0.1, 6.5, 1e6, 1e-6]) convert(value);
    spoil(convert, [1]);
  }
}
