/** SAE 749D, the tentative classes of 1961, particles per 100 mL between sizes. */
import type { Source } from '../../source.ts';
import type { ClassTable } from '../types.ts';
import { frozen } from './frozen.ts';
import { navairColumns, navairLimits } from './navair.ts';
import { printedPairsNote } from './ranges.ts';

export const sae749dSource: Source = {
  document: 'SAE 749D (SAE A-6D), joint proposal of ASTM, AIA and SAE',
  edition: '1961',
  place: 'contamination classes 0 to 6; that they are those of this proposal, one source says',
  standing: 'reproduced',
};

/** SAE 749D: one class, the worst of five ranges, `3`. */
export const sae749d: ClassTable = /* @__PURE__ */ frozen({
  id: 'sae749d',
  standard: 'SAE 749D',
  title: 'SAE 749D',
  source: sae749dSource,
  counting: 'differential',
  perVolumeMl: 100,
  notation: 'single',
  columns: navairColumns,
  classes: ['0', '1', '2', '3', '4', '5', '6'],
  limits: navairLimits,
  notes: ['The same figures as the Navy classes. Some printings close the last range at 150 µm.', printedPairsNote],
});
