/**
 * A sound counter that smooths its counts: how often it is called stuck, and how many of its readings are bad by that.
 * The table stands in docs/frozen.md; all of it is made with MOTESCALE_FULL.
 */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { channelsStuck, valuesStuck } from '../../../src/reading/assess/stuck.ts';
import { wholeLimits } from '../../../src/reading/ownLimits.ts';
import { advanceRepeats, noRepeats, type Repeats } from '../../../src/reading/remembered/repeats.ts';
import { poissonOf, shares } from '../../chance.ts';
import { full, some } from '../../volume.ts';

const days = some(100, 12);
const limits = wholeLimits({});
type Three = readonly [number, number, number];

/** How often in 100 days, a reading of 10 mL every 20 minutes: by values, by channels; and the share of readings. */
function calledStuck(weight: number, perMl: Three): { values: number; channels: number; bad: number } {
  const share = shares(5);
  let shown: readonly number[] = perMl;
  let repeats: Repeats = noRepeats;
  const times = [0, 0];
  const stood = [false, false];
  let bad = 0;
  for (let i = 0; i < 72 * days; i += 1) {
    const large = poissonOf(10 * perMl[2], share);
    const middle = large + poissonOf(10 * (perMl[1] - perMl[2]), share);
    const counted = [middle + poissonOf(10 * (perMl[0] - perMl[1]), share), middle, large];
    shown = shown.map((one, k) => one + weight * ((counted[k] as number) / 10 - one));
    const [four, six, fourteen] = shown.map((one) => Math.round(10 * one)) as [number, number, number];
    const counts = cumulativeCounts({ 4: four, 6: six, 14: fourteen }, { volumeMl: 10 });
    const reading = { time: i * 1200000, counts };
    repeats = advanceRepeats(repeats, reading);
    const stands = [valuesStuck, channelsStuck].map(
      ({ find }) => (find({ limits, reading, repeats, tables: [], needed: [] }) ?? []).length > 0,
    );
    stands.forEach((is, k) => {
      if (is && !stood[k]) times[k] = (times[k] as number) + 1;
      stood[k] = is;
    });
    if (stands.some((is) => is)) bad += 1;
  }
  const [values, channels] = times.map((n) => (100 * n) / days) as [number, number];
  return { values, channels, bad: bad / (72 * days) };
}

test('of few particles and strong smoothing often, of many or with little smoothing not', () => {
  const often = calledStuck(0.05, [61, 11.5, 1.5]);
  expect(often.values).toBeGreaterThan(90);
  expect(often.values).toBeLessThan(240);
  expect(often.channels).toBeGreaterThan(often.values);
  expect(often.bad).toBeGreaterThan(0.15);
  expect(calledStuck(0.05, [1900, 400, 33]).values).toBeLessThanOrEqual(9);
  expect(calledStuck(0.3, [61, 11.5, 1.5])).toMatchObject({ values: 0 });
});

test.skipIf(!full)('docs/frozen.md says how often', () => {
  const cell = ({ values, channels, bad }: ReturnType<typeof calledStuck>) =>
    values + channels === 0 ? '0' : `${values}, ${channels}; ${Math.round(1000 * bad) / 10} %`;
  const levels: readonly Three[] = [
    [1900, 400, 33],
    [154, 34, 4],
    [61, 11.5, 1.5],
    [15, 3.3, 0.3],
  ];
  const rows = levels.map((perMl) => {
    const cells = [0.05, 0.1, 0.2, 0.3].map((weight) => cell(calledStuck(weight, perMl)));
    return `| ${[perMl.join(', '), ...cells].join(' | ')} |`;
  });
  expect(readFileSync('docs/frozen.md', 'utf8')).toContain(rows.join('\n'));
});
