/** The rows of all folders. A new folder is added here. */
import { rows as classes } from './classes/rows.ts';
import { rows as counts } from './counts/rows.ts';
import { rows as filtration } from './filtration/rows.ts';
import type { Row } from './ledger.ts';
import { rows as oilmix } from './oilmix/rows.ts';
import { rows as samplingLine } from './sampling-line/rows.ts';
import { rows as trend } from './trend/rows.ts';
import { rows as uncertainty } from './uncertainty/rows.ts';
import { rows as viscosity } from './viscosity/rows.ts';
import { rows as water } from './water/rows.ts';

export const allRows: readonly Row[] = [
  ...classes,
  ...counts,
  ...filtration,
  ...oilmix,
  ...samplingLine,
  ...trend,
  ...uncertainty,
  ...viscosity,
  ...water,
];
