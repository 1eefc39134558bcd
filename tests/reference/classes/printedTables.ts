/** The tables whose every printed cell stands in tables.json. */
import * as codes from '../../../src/codes/index.ts';

type Name =
  | 'iso4406'
  | 'iso4406Microscope'
  | 'as4059Differential'
  | 'as4059Cumulative'
  | 'nas1638'
  | 'sae749d'
  | 'navair';

export const printedTables: Readonly<Record<Name, codes.ClassTable>> = {
  iso4406: codes.iso4406,
  iso4406Microscope: codes.iso4406Microscope,
  as4059Differential: codes.as4059Differential,
  as4059Cumulative: codes.as4059Cumulative,
  nas1638: codes.nas1638,
  sae749d: codes.sae749d,
  navair: codes.navair,
};
