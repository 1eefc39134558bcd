/** What a monitor and a proof ask before they judge: which sizes live, whether a reading has come before. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { assessArrived } from '../../../src/judging/assess.ts';
import { fingerprint, timesInHalves } from '../../../src/judging/fingerprint.ts';
import { withLiveSizes } from '../../../src/judging/liveSizes.ts';
import {
  type Assessment,
  assessReading,
  defaultReadingLimits,
  type Finding,
  type TimedReading,
} from '../../../src/reading/index.ts';

describe('sizes that live beside broken ones (our choice: a broken channel is no fault of the others)', () => {
  const counts = cumulativeCounts({ 4: 1890, 6: 402, 14: 33 }, { volumeMl: 10 });
  const found = (code: Finding['code'], more: Partial<Finding> = {}): Finding => ({
    ...{ code, quality: 'bad', affects: ['counts'], value: 1, limit: 0 },
    ...more,
  });
  const stuck = (...sizes: number[]) => found('channels_stuck', { sizes });
  const empty = (size: number) => found('channel_empty', { sizes: [size] });
  const live = (findings: readonly Finding[], quality: 'good' | 'bad' = 'bad') => {
    const assessment: Assessment = { quality, figureQualities: { counts: quality }, findings, unchecked: [] };
    const { reading, assessment: now } = withLiveSizes({ reading: { time: 0, counts }, assessment });
    return [now.figureQualities.counts, ...(reading.counts?.sizes ?? [])];
  };

  test('each broken size is left out, whichever finding names it', () => {
    expect(live([stuck(6)])).toEqual(['uncertain', 4, 14]);
    expect(live([stuck(4), found('channels_equal', { sizes: [14] })])).toEqual(['uncertain', 6]);
    expect(live([stuck(4, 6, 14)])).toEqual(['bad', 4, 6, 14]);
  });

  test('of a dark counter one size is no measurement, whatever else is broken', () => {
    expect(live([empty(14)])).toEqual(['uncertain', 4, 6]);
    expect(live([empty(6)])).toEqual(['bad', 4, 6, 14]);
    expect(live([stuck(4), empty(14)])).toEqual(['bad', 4, 6, 14]);
  });

  test('a bad figure beside the counts changes nothing, counts bad for another cause are left', () => {
    const sensor = found('figure_implausible', { affects: ['celsius'] });
    expect(live([stuck(6), sensor])).toEqual(['uncertain', 4, 14]);
    expect(live([stuck(6), found('no_flow')])).toEqual(['bad', 4, 6, 14]);
    // nothing is broken
    expect(live([sensor], 'good')).toEqual(['good', 4, 6, 14]);
    expect(live([found('flat_size_distribution', { quality: 'uncertain' })], 'good')).toEqual(['good', 4, 6, 14]);
  });
});

test('the clock of a reading in a row is judged by the order of arrival, and never left unchecked', () => {
  const reading: TimedReading = { time: 0, celsius: 40 };
  expect(assessReading(reading).unchecked).toContain('clock_backwards');
  const { unchecked } = assessArrived(defaultReadingLimits, reading, null, []);
  expect(unchecked).not.toContain('clock_backwards');
  expect(unchecked).toContain('no_flow');
});

describe('the fingerprint of a reading', () => {
  const print = (more: object) => fingerprint({ time: 0, ...more } as TimedReading);

  test('holds its codes, its qualities and its mode, each by name', () => {
    const prints = [
      {},
      { codes: {} },
      { codes: { a: '18/16/13' } },
      { codes: { a: '18/16/12' } },
      { codes: { b: '18/16/13' } },
      { qualities: { kPa: 'bad' } },
      { qualities: { kPa: 'good' } },
      { qualities: { celsius: 'bad' } },
      { mode: 'run' },
      { mode: 'stop' },
      { kPa: 5 },
      { kPa: -5 },
    ].map(print);
    // a member without content is as one left out
    expect(prints[1]).toBe(prints[0]);
    expect(new Set(prints).size).toBe(prints.length - 1);
  });

  test('does not hold the order of names', () => {
    expect(print({ codes: { a: '1', b: '2' } })).toBe(print({ codes: { b: '2', a: '1' } }));
    expect(print({ qualities: { kPa: 'bad', celsius: 'good' } })).toBe(
      print({ qualities: { celsius: 'good', kPa: 'bad' } }),
    );
  });

  test('is the same where the engine has no product of 32 bits', () => {
    const word = fc.integer({ min: -(2 ** 31), max: 2 ** 32 - 1 });
    const factor = fc.constantFrom(0xcc9e2d51, 0x1b873593, 0x85ebca6b, 0xc2b2ae35);
    fc.assert(fc.property(word, factor, (one, by) => timesInHalves(one, by) === Math.imul(one, by)));
  });
});
