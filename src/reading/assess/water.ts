/** Free water: droplets scatter light as particles do, and are counted. */
import { log10 } from '../../numeric/exponential.ts';
import { type Check, nothing } from './check.ts';

const kelvinAtZero = 273.15;

/** Saturated, or so near that the error of the sensor decides. */
export const freeWater: Check = {
  codes: ['free_water_likely'],
  find: ({ reading: { waterSaturation }, limits: { freeWaterSaturation } }) => {
    if (waterSaturation === undefined || freeWaterSaturation === null) return null;
    if (waterSaturation < freeWaterSaturation) return nothing;
    return [{ code: 'free_water_likely', value: waterSaturation, limit: freeWaterSaturation }];
  },
};

/** Not saturated now, but it was when it was coldest: droplets made then dissolve slowly. */
export const cooled: Check = {
  codes: ['cooled_below_saturation'],
  find: ({ reading: { waterSaturation, celsius, coldestCelsius }, limits: { solubility } }) => {
    if (waterSaturation === undefined || celsius === undefined || coldestCelsius === undefined || solubility === null) {
      return null;
    }
    if (waterSaturation === 0) return nothing;
    // the temperature at which this water content is all the oil can hold
    const inverse = 1 / (celsius + kelvinAtZero) - log10(waterSaturation) / solubility.b;
    const limit = 1 / inverse - kelvinAtZero;
    // a coldest that is warmer than now says nothing: the oil is at least as cold now
    const value = Math.min(coldestCelsius, celsius);
    return value >= limit ? nothing : [{ code: 'cooled_below_saturation', value, limit }];
  },
};
