/**
 * The hot path: a column of a million counts to scale numbers, beside the cost of merely adding it up; and one sample
 * to its codes.
 */
import { bench, describe } from 'vitest';
import {
  classify,
  classifyColumns,
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
// the same counts as rows of three sizes: as many counts
const rows = Math.floor(length / 3);
const third = {
  6: column.slice(0, rows),
  14: column.slice(0, rows).map((count) => count / 8),
  21: column.slice(0, rows).map((count) => count / 64),
};
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

  bench('classifyColumns of ISO 4406, one column', () => {
    classifyColumns(iso4406, { 4: column });
  });

  bench('classifyColumns of NAS 1638, a third of a million rows of three sizes', () => {
    classifyColumns(nas1638, third);
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
