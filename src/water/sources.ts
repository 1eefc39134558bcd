/** Where the figures and formulas of water in oil come from. */
import type { Source } from '../source.ts';
import { insulatingOilByKindSource, insulatingOilSource } from './insulatingOil.ts';

/** The sources of this entry, by what each is the source of. */
export const sources: Readonly<
  Record<
    'saturationPressure' | 'dewPoint' | 'solubilityForm' | 'insulatingOil' | 'insulatingOilByKind' | 'waterDensity',
    Source
  >
> = {
  saturationPressure: {
    document: 'IAPWS R7-97(2012), Revised Release on the IAPWS Industrial Formulation 1997 (IAPWS-IF97)',
    edition: '2012',
    place: 'region 4, equations 30 and 31, coefficients of table 34',
    standing: 'published',
  },
  dewPoint: {
    document: 'WMO-No. 8, Guide to Meteorological Instruments and Methods of Observation',
    edition: '7th edition, Geneva, 2008',
    place: 'annex 4.B: e = 6.112 exp(17.62 t / (243.12 + t)) hPa over water, and its inverse',
    standing: 'reproduced',
  },
  solubilityForm: {
    document:
      'IEEE C57.106, Guide for Acceptance and Maintenance of Insulating Mineral Oil; the same form in CIGRE TB 741 ' +
      '(2018)',
    edition: 'edition not confirmed',
    place: 'solubility of water in oil, log10 S = A - B/T',
    standing: 'reproduced',
  },
  insulatingOil: insulatingOilSource,
  insulatingOilByKind: insulatingOilByKindSource,
  waterDensity: {
    document: 'CIPM, density of water: Tanaka and others, Metrologia 38 (2001) 301',
    edition: '2001',
    place: '998.2 kg/m³ at 20 °C',
    standing: 'from memory',
  },
};
