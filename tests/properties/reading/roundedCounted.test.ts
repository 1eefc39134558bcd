/**
 * Raw counts that are a figure per mL in few digits, times the volume: a sound counter is not called stuck for its
 * digits. A frozen one is told nearly as soon, though now and then its particles end in zeros by chance. As
 * docs/frozen.md says, measured.
 */
import { describe, expect, test } from 'vitest';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { channelsStuck, valuesStuck } from '../../../src/reading/assess/stuck.ts';
import { wholeLimits } from '../../../src/reading/ownLimits.ts';
import { advanceRepeats, noRepeats, type Repeats } from '../../../src/reading/remembered/repeats.ts';
import { poissonOf, shares } from '../../chance.ts';
import { some } from '../../volume.ts';

const limits = wholeLimits({});
type Three = readonly [number, number, number];

function countedOf([four, six, fourteen]: Three, volumeMl: number, next: () => number): Three {
  const large = poissonOf(fourteen * volumeMl, next);
  const middle = large + poissonOf((six - fourteen) * volumeMl, next);
  return [middle + poissonOf((four - six) * volumeMl, next), middle, large];
}

function readingOf([four, six, fourteen]: Three, volumeMl: number) {
  return { counts: cumulativeCounts({ 4: four, 6: six, 14: fourteen }, { volumeMl }) };
}

/** For values and channels: in how many of the readings. */
function calledStuck(perMl: Three, volumeMl: number, shownOf: (perMl: number) => number): [number, number] {
  const next = shares(11);
  let repeats: Repeats = noRepeats;
  const times: [number, number] = [0, 0];
  for (let i = 0; i < some(20000, 1000); i += 1) {
    const [four, six, fourteen] = countedOf(perMl, volumeMl, next);
    const shown = (counted: number) => Math.round(shownOf(counted / volumeMl) * volumeMl);
    const reading = readingOf([shown(four), shown(six), shown(fourteen)], volumeMl);
    repeats = advanceRepeats(repeats, reading);
    [valuesStuck, channelsStuck].forEach(({ find }, k) => {
      const found = find({ limits, reading, repeats, tables: [], needed: [] }) ?? [];
      if (found.length > 0) times[k as 0 | 1] += 1;
    });
  }
  return times;
}

const twoDigits = (perMl: number) => {
  const step = perMl < 10 ? 1 : 10 ** (Math.floor(Math.log10(perMl)) - 1);
  return Math.round(perMl / step) * step;
};

describe('a sound counter whose shown figures came times the volume is not called stuck', () => {
  test.each<[string, Three, number, (perMl: number) => number]>([
    ['two digits per mL', [1900, 400, 33], 10, twoDigits],
    ['whole per mL', [154, 34, 4], 100, Math.round],
    ['whole per mL', [154, 34, 4], 25, Math.round],
    ['tenths per mL', [15, 3, 0.3], 100, (perMl) => Math.round(10 * perMl) / 10],
  ])('%s, %j in %d mL', (_, perMl, volumeMl, shownOf) => {
    expect(calledStuck(perMl, volumeMl, shownOf)).toEqual([0, 0]);
  });
});

test('two digits times the volume take as many equal readings as the digits alone', () => {
  const equal = (counted: Three) => {
    const reading = readingOf(counted, 10);
    const repeats = { ...noRepeats, known: 99999, runs: [999, 999, 999] };
    return valuesStuck.find({ limits, reading, repeats, tables: [], needed: [] })?.[0]?.limit;
  };
  expect(equal([19000, 4000, 330])).toBe(11);
  expect(equal([19001, 4000, 330])).toBe(3);
});

test('a frozen counter that counts particles is told as soon, but for one in ten at most', () => {
  const after = (perMl: Three, volumeMl: number) => {
    const next = shares(11);
    const told: number[] = [];
    for (let i = 0; i < some(2000, 500); i += 1) {
      const reading = readingOf(countedOf(perMl, volumeMl, next), volumeMl);
      const repeats = { ...noRepeats, known: 99999, runs: [999, 999, 999] };
      const [found] = valuesStuck.find({ limits, reading, repeats, tables: [], needed: [] }) ?? [];
      told.push(found?.limit ?? Infinity);
    }
    told.sort((a, b) => a - b);
    return [0.5, 0.99, 1].map((share) => told[Math.ceil(share * told.length) - 1] as number);
  };
  expect(after([1900, 400, 33], 10)[1]).toBe(3);
  const [middle, late, latest] = after([61, 11.5, 1.5], 1) as [number, number, number];
  expect(middle).toBe(5);
  expect(late).toBeLessThanOrEqual(12);
  expect(latest).toBeLessThanOrEqual(60);
  expect(after([15, 3.3, 0.3], 10)[1]).toBeLessThanOrEqual(6);
});
