/**
 * A code that came beside counts: the counts decide, and a code that contradicts them is told.
 */

import { classify } from '../../codes/classify.ts';
import { iso4406, iso4406Microscope } from '../../codes/tables/iso4406.ts';
import type { ClassTable, CodePart } from '../../codes/types.ts';
import { partIndex } from '../../codes/written/code.ts';
import { parseCode } from '../../codes/written/parseCode.ts';
import type { CumulativeCounts } from '../../counts/types.ts';
import { isMotescaleError } from '../../errors.ts';
import { type Check, nothing } from './check.ts';
import { stepsShown } from './repeatChance.ts';

/**
 * How many classes the code given lies off that of the counts, at the size where it is most; only ISO 4406 is compared.
 */
export const codeDisagrees: Check = {
  codes: ['code_disagrees'],
  find: ({ reading: { counts, codes } }) => {
    if (counts === undefined || codes === undefined) return nothing;
    let most = -1;
    for (const table of [iso4406, iso4406Microscope]) {
      if (Object.keys(codes).indexOf(table.id) < 0) continue;
      const off = classesOff(table, codes[table.id] as string, counts);
      if (off !== null && off > most) most = off;
    }
    return most <= 0 ? nothing : [{ code: 'code_disagrees', value: most, limit: 0 }];
  },
};

/** Null where the two cannot be compared. What rounding of the counts shown can explain is no difference. */
function classesOff(table: ClassTable, text: string, counts: CumulativeCounts): number | null {
  try {
    const given = parseCode(table, text).parts;
    const steps = stepsShown(counts.perMl);
    const { sizing, sizes, perMl } = counts;
    const shifted = (share: number) =>
      classify(table, { sizing, sizes, perMl: perMl.map((n, i) => Math.max(0, n + share * (steps[i] as number))) })
        .parts;
    const low = shifted(-1 / 2);
    const high = shifted(1 / 2);
    let most = -1;
    given.forEach((part, i) => {
      const least = low[i] as CodePart;
      if (part.class === null || least.class === null) return;
      const at = partIndex(table, part, 'codes');
      const below = partIndex(table, least, 'codes') - at;
      const above = at - partIndex(table, high[i] as CodePart, 'codes');
      most = Math.max(most, below, above, 0);
    });
    return most < 0 ? null : most;
  } catch (error) {
    if (!isMotescaleError(error)) throw error;
    return null;
  }
}
