/**
 * The hot path: a column of a million counts to scale numbers, beside the cost of merely adding it up; and one sample
 * to its codes.
 */
import { bench, describe } from 'vitest';
import {
  classify,
  iso4406,
  likelyClasses,
  limitsOf,
  nas1638,
  possibleClasses,
  scaleNumbers,
} from '../src/codes/index.ts';
import { cumulativeCounts } from '../src/counts/index.ts';
import { classifyByHand } from './byHand.ts';

const length = 1_000_000;
let state = 7;
const column = Float64Array.from({ length }, () => {
  state = (state * 48271) % 2147483647;
  return 10 ** ((8 * state) / 2147483647 - 2);
});
const limits = iso4406.limits.map(([limit]) => limit as number);
const into = new Uint8Array(length);

describe('a million counts', () => {
  bench('added up', () => {
    let sum = 0;
    for (let i = 0; i < length; i += 1) sum += column[i] as number;
    into[0] = sum;
  });

  bench('scaleNumbers', () => {
    scaleNumbers(column, into);
  });

  bench('a find over the table for each', () => {
    for (let i = 0; i < length; i += 1) into[i] = limits.findIndex((limit) => (column[i] as number) <= limit) & 31;
  });
});

describe('one sample', () => {
  const counts = cumulativeCounts({ 4: 32698, 6: 10860, 14: 1082, 21: 312, 38: 28, 70: 7 }, { volumeMl: 25 });
  const code = limitsOf(iso4406, '18/16/13');

  bench('ISO 4406, written by hand', () => {
    classifyByHand(counts);
  });

  bench('ISO 4406', () => {
    classify(iso4406, counts);
  });

  bench('NAS 1638', () => {
    classify(nas1638, counts);
  });

  bench('possibleClasses of a code', () => {
    possibleClasses(nas1638, code);
  });

  bench('likelyClasses of a code', () => {
    likelyClasses(nas1638, code);
  });
});
