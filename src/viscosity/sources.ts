/** Where the figures and formulas of viscosity, grades, blends and density come from. */
import type { Source } from '../source.ts';

/** The sources of this entry, by what each is the source of. */
export const sources: Readonly<
  Record<
    | 'viscosityLine'
    | 'ubbelohdeWalther'
    | 'viscosityIndex'
    | 'sayboltUniversal'
    | 'sayboltFurol'
    | 'redwood'
    | 'redwoodNbs'
    | 'engler'
    | 'englerHandbook'
    | 'flowCups'
    | 'fordCups'
    | 'isoGrades'
    | 'agmaGrades'
    | 'saeEngineGrades'
    | 'saeGearGrades'
    | 'blending'
    | 'blendLines'
    | 'refutas'
    | 'density'
    | 'apiGravity'
    | 'pressureViscosity',
    Source
  >
> = {
  viscosityLine: {
    document:
      'ASTM D341, Standard Practice for Viscosity-Temperature Equations and Charts for Liquid Petroleum Products',
    edition: '2020; constants unchanged since 2003',
    place: 'equation of the line, Z with terms C to H, short form of Z',
    standing: 'reproduced',
  },
  ubbelohdeWalther: {
    document: 'DIN 51563, Determination of the viscosity-temperature relation: slope m',
    edition: '2011 (edition from memory)',
    place: 'm = (W1 - W2) / (log T2 - log T1), W = log10 log10 (v + 0.8), as quoted in one source',
    standing: 'published',
  },
  viscosityIndex: {
    document: 'ASTM D2270, Calculating Viscosity Index from Kinematic Viscosity at 40 °C and 100 °C (ISO 2909)',
    edition: '2010, reapproved 2016',
    place: 'Table 1; equations for L and H above 70 mm2/s; procedures A and B; rounding by ASTM E29',
    standing: 'reproduced',
  },
  sayboltUniversal: {
    document:
      'ASTM D2161, Conversion of Kinematic Viscosity to Saybolt Universal Viscosity or to Saybolt Furol Viscosity',
    edition: '1993, reapproved 1999',
    place: 'equations 5 and 6',
    standing: 'reproduced',
  },
  sayboltFurol: {
    document:
      'ASTM D2161, Conversion of Kinematic Viscosity to Saybolt Universal Viscosity or to Saybolt Furol Viscosity',
    edition: '1993, reapproved 1999',
    place: 'equations 7 and 8, as quoted in one source',
    standing: 'published',
  },
  redwood: {
    document: 'IP 70 / BS 2000, Redwood viscosity',
    edition: 'withdrawn; edition not known',
    place: 'conversion formulas for Redwood No. 1 (34 to 100 s, above 100 s) and No. 2 (32.5 to 90 s, above 90 s)',
    standing: 'from memory',
  },
  redwoodNbs: {
    document: 'W. H. Herschel, The Redwood Viscometer, National Bureau of Standards Technologic Paper 210',
    edition: '1922 (year from memory)',
    place: 'kinematic viscosity = 0.00260 t - 1.88 / t in stokes',
    standing: 'reproduced',
  },
  engler: {
    document: 'W. H. Herschel, National Bureau of Standards Technologic Paper 100',
    edition: '1917 (year from memory)',
    place:
      'Engler seconds, 0.147 t - 374 / t, with 51.3 s for water; agrees with the Hydraulic Institute table from ' +
      '1.31 degrees up',
    standing: 'from memory',
  },
  englerHandbook: {
    document: 'formulas of Ubbelohde and of two branches for degrees Engler; no document identified',
    edition: 'not known',
    place: '7.32 E - 6.31 / E; 8.0 E - 8.64 / E and 7.6 E - 4.0 / E',
    standing: 'from memory',
  },
  flowCups: {
    document: 'ISO 2431, Determination of flow time by use of flow cups',
    edition: '1993',
    place: 'formulas of the 3, 4, 5 and 6 mm cups, 30 to 100 s, 23 °C',
    standing: 'from memory',
  },
  fordCups: {
    document: 'ASTM D1200, Viscosity by Ford Viscosity Cup',
    edition: 'edition not known',
    place: 'v = K (t - c), cups 1 to 5, 25 °C',
    standing: 'reproduced',
  },
  isoGrades: {
    document:
      'ISO 3448, Industrial liquid lubricants: ISO viscosity classification (ASTM D2422 and DIN 51519 have the same ' +
      'grades)',
    edition: '1992',
    place: 'table of 20 grades, kinematic viscosity at 40 °C; grades 2200 and 3200 by its rule of 10 %',
    standing: 'reproduced',
  },
  agmaGrades: {
    document: 'ANSI/AGMA 9005, Industrial Gear Lubrication',
    edition: 'D94; later editions classify by ISO viscosity grade and keep the numbers as names',
    place: 'viscosity ranges of lubricant numbers, read in one reprint; the ISO grades among them agree with ISO 3448',
    standing: 'published',
  },
  saeEngineGrades: {
    document: 'SAE J300, Engine Oil Viscosity Classification',
    edition: 'J300_202405; limits unchanged since J300_201501',
    place: 'Table 1',
    standing: 'reproduced',
  },
  saeGearGrades: {
    document: 'SAE J306, Automotive Gear Lubricant Viscosity Classification',
    edition: 'J306_201902 and J306_200506',
    place: 'Table 1 of each edition; that of 2005 read in one reprint',
    standing: 'reproduced',
  },
  blending: {
    document: 'ASTM D7152, Standard Practice for Calculating Viscosity of a Blend of Petroleum Products',
    edition: '2011 (reapproved 2016)',
    place: 'ASTM blending method and its inverse, at constant temperature; Z = v + 0.7 + exp(-1.47 - 1.84 v - 0.51 v²)',
    standing: 'from memory',
  },
  blendLines: {
    document: 'ASTM D7152, Standard Practice for Calculating Viscosity of a Blend of Petroleum Products',
    edition: '2011 (reapproved 2016)',
    place: 'Wright blending method and its inverse, at constant viscosity; equations worked out from that statement',
    standing: 'from memory',
  },
  refutas: {
    document: 'R. E. Maples, Petroleum Refinery Process Economics',
    edition: '2nd edition, 2000',
    place: 'viscosity blending number, VBN = 14.534 ln ln(v + 0.8) + 10.975, by mass',
    standing: 'reproduced',
  },
  density: {
    document: 'API Manual of Petroleum Measurement Standards, Chapter 11.1 (ASTM D1250, IP 200)',
    edition: '2004, with addenda of 2007',
    place: 'volume correction for temperature, group of lubricating oils: K0 = 0, K1 = 0.34878, K2 = 0, per °F',
    standing: 'reproduced',
  },
  apiGravity: {
    document: 'API Manual of Petroleum Measurement Standards, Chapter 11.1 (ASTM D1250, IP 200)',
    edition: '2004',
    place:
      'API gravity and relative density at 60 °F; density of water at 60 °F 999.016 kg/m3 (999.012 in the 1980 ' +
      'edition)',
    standing: 'reproduced',
  },
  pressureViscosity: {
    document:
      'Barus law, viscosity rising exponentially with pressure: C. Barus, American Journal of Science 45, 87 ' +
      '(citation from memory)',
    edition: '1893',
    place: 'viscosity(p) = viscosity(0) exp(alpha p)',
    standing: 'from memory',
  },
};
