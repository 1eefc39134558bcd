/** All tables of standards in one list, for whoever reads a table by its id. */
import type { ClassTable } from '../types.ts';
import { as4059Cumulative, as4059Differential } from './as4059.ts';
import { cc1246 } from './cc1246.ts';
import { gost17216 } from './gost17216.ts';
import { iso4406, iso4406Microscope } from './iso4406.ts';
import { nas1638 } from './nas1638.ts';
import { navair } from './navair.ts';
import { sae749d } from './sae749d.ts';

/**
 * The tables of the standards, each once, as data. A bundle that does not name this list carries only the tables it
 * names.
 */
export const standardTables: readonly ClassTable[] = /* @__PURE__ */ Object.freeze([
  iso4406,
  iso4406Microscope,
  as4059Cumulative,
  as4059Differential,
  nas1638,
  gost17216,
  sae749d,
  navair,
  cc1246,
]);
