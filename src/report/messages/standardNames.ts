/**
 * What a person calls the tables of the standards, by their ids: an event names a table by its id alone, and a bundle
 * need not hold the tables.
 */
export const standardNames: Readonly<Record<string, string>> = {
  iso4406: 'ISO 4406',
  iso4406Microscope: 'ISO 4406',
  as4059Cumulative: 'SAE AS4059 Table 2',
  as4059Differential: 'SAE AS4059 Table 1',
  nas1638: 'NAS 1638',
  gost17216: 'GOST 17216',
  sae749d: 'SAE 749D',
  navair: 'Navy aviation hydraulics classes',
  cc1246: 'IEST-STD-CC1246 particle levels',
};
