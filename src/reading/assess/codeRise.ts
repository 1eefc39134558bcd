/**
 * A code that no sample can have: 10/16/13 says at most 10 particles per mL of 4 µm(c) and larger, and more than 320 of
 * 6 µm(c) and larger, which are among them. Asked of a reading without counts: with them, they decide.
 */
import { type Band, type Check, type Found, nothing } from './check.ts';
import { inCode } from './codeBands.ts';

/** The first size at which a code says more than a smaller one leaves possible. */
export const codeRises: Check = {
  codes: ['code_rises_with_size'],
  find: (context) => inCode(context, risenIn) ?? nothing,
};

/** The fewest that the class of a size allows, against the most that those of smaller sizes do. */
function risenIn(bands: readonly Band[]): Found | null {
  let most = Infinity;
  let smaller = 0;
  for (const { size, moreThan, upTo } of bands) {
    if (moreThan !== null && moreThan >= most)
      return { code: 'code_rises_with_size', value: moreThan, limit: most, sizes: [smaller, size] };
    if (upTo !== null && upTo < most) {
      most = upTo;
      smaller = size;
    }
  }
  return null;
}
