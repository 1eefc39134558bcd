/**
 * Free water: droplets scatter light as particles do, and are counted.
 */

import { log10 } from '../../numeric/exponential.ts';
import { shown } from '../../numeric/shown.ts';
import type { Source } from '../../source.ts';
import type { Check } from './check.ts';

/** How saturation moves with temperature while the water content stays. */
export const saturationShiftSource: Source = {
  document: 'IEEE C57.106, Guide for Acceptance and Maintenance of Insulating Mineral Oil',
  edition: 'edition not confirmed',
  place:
    'solubility of water log10 S = A - B/T; so log10 of relative saturation changes by B (1/T2 - 1/T1) from T1 to T2',
  standing: 'computed',
};

const kelvinAtZero = 273.15;

/** Saturated, or so near that the error of the sensor decides. */
export const freeWater: Check = {
  codes: ['free_water_likely'],
  find: ({ reading: { waterSaturation }, limits: { freeWaterSaturation } }) => {
    if (waterSaturation === undefined || freeWaterSaturation === null) return null;
    if (waterSaturation < freeWaterSaturation) return [];
    const text = `The oil is ${percent(waterSaturation, freeWaterSaturation)} % saturated with water (limit ${percent(freeWaterSaturation, waterSaturation)} %): droplets are likely counted as particles; dry the oil.`;
    return [{ code: 'free_water_likely', figure: waterSaturation, limit: freeWaterSaturation, text }];
  },
};

/** Not saturated now, but it was when it was coldest: droplets made then dissolve slowly. */
export const cooled: Check = {
  codes: ['cooled_below_saturation'],
  find: ({ reading: { waterSaturation, celsius, coldestCelsius }, limits: { solubility } }) => {
    if (waterSaturation === undefined || celsius === undefined || coldestCelsius === undefined || solubility === null) {
      return null;
    }
    if (waterSaturation === 0) return [];
    // the temperature at which this water content is all the oil can hold
    const inverse = 1 / (celsius + kelvinAtZero) - log10(waterSaturation) / solubility.b;
    if (inverse <= 0) return [];
    const limit = 1 / inverse - kelvinAtZero;
    if (coldestCelsius >= limit) return [];
    const text = `The oil was as cold as ${shown(coldestCelsius, limit)} °C, below the ${shown(limit, coldestCelsius)} °C at which it is saturated with the water it holds: droplets may be left and count as particles; let it run warm and count again.`;
    return [{ code: 'cooled_below_saturation', figure: coldestCelsius, limit, text }];
  },
};

function percent(share: number, beside: number): string {
  return shown(share * 100, beside * 100);
}
