/** When the flow began is known to lie between two readings; the finding says between which. */
import { expect, test } from 'vitest';
import { germanTexts } from '../../../src/german/index.ts';
import { assessReading, findingText, type Reading } from '../../../src/reading/index.ts';
import { advanceRepeats, noRepeats } from '../../../src/reading/remembered/repeats.ts';
import { isRepeats } from '../../../src/reading/remembered/repeatsState.ts';

const still = { time: 0, mlPerMin: 0 };
const flows = (seconds: number) => ({ time: seconds * 1000, mlPerMin: 60, measuringSeconds: 40 });
const startUpOf = (reading: Reading, earlier: Reading[], settleMs?: number) =>
  assessReading(reading, settleMs === undefined ? {} : { settleMs }, earlier).findings.filter(
    ({ code }) => code === 'start_up',
  )[0];

test('of the first reading with flow: since the last without', () => {
  const found = startUpOf(flows(600), [still]);
  expect(found).toMatchObject({ value: 0, most: 600000, limit: 40000, quality: 'uncertain' });
  if (found === undefined) return;
  expect(findingText(found)).toBe(
    'The flow began since it last stood, between 0 s and 600 s ago; the oil settles after 40 s: wait, and count again.',
  );
  expect(findingText(found, germanTexts)).toBe(
    'Der Durchfluss begann seit dem letzten Stillstand, vor 0 s bis 600 s; nach 40 s hat sich das Öl beruhigt: ' +
      'warten und erneut zählen.',
  );
});

test('of the readings after it, and past one that tells no flow', () => {
  const between = { time: 300000, celsius: 40 };
  const found = startUpOf(flows(660), [still, between, flows(600), flows(630)], 120000);
  expect(found).toMatchObject({ value: 60000, most: 660000, limit: 120000 });
  expect(startUpOf(flows(720), [still, between, flows(600), flows(660)], 120000)).toBe(undefined);
});

test('where no time is known for the standstill, it began then or earlier', () => {
  const found = startUpOf(flows(600), [{ mlPerMin: 0 }]);
  expect(found).toMatchObject({ value: 0, limit: 40000 });
  expect(found).not.toHaveProperty('most');
  if (found === undefined) return;
  expect(findingText(found)).toMatch(
    /^The flow began 0 s ago or earlier, when is not known; the oil settles after 40 s/,
  );
  expect(findingText(found, germanTexts)).toMatch(
    /^Der Durchfluss begann vor 0 s oder früher, wann ist nicht bekannt;/,
  );
  // a state keeps it until a reading does not tell the flow
  const without = startUpOf(flows(660), [still, flows(600), { time: 630000, celsius: 40 }], 120000);
  expect(without).toMatchObject({ value: 60000 });
  expect(without).not.toHaveProperty('most');
  // longer than a state keeps
  expect(startUpOf({ ...flows(0), time: 1e9 }, [still])).not.toHaveProperty('most');
  expect(startUpOf({ ...flows(0), time: 999999999 }, [still])).toHaveProperty('most', 999999999);
});

test('a state keeps it, and is refused where it is none', () => {
  const repeats = [still, flows(600), flows(660)].reduce((before, one) => advanceRepeats(before, one), noRepeats);
  expect(repeats.flow).toMatchObject({ seen: [60000, 60000], gap: 600000 });
  expect(isRepeats(JSON.parse(JSON.stringify(repeats)))).toBe(true);
  expect(isRepeats({ ...repeats, flow: { ...repeats.flow, age: 1 } })).toBe(false);
  expect(isRepeats({ ...repeats, flow: { ...repeats.flow, gap: -1 } })).toBe(false);
  expect(isRepeats({ ...repeats, flow: { ...repeats.flow, gap: 1e9 } })).toBe(false);
  for (const seen of [null, 1, [], [1], [1, 2, 3], [-1, 0], [0.5, 0], [1e9, 0], [0, 1e8]])
    expect(isRepeats({ ...repeats, flow: { ...repeats.flow, seen } })).toBe(false);
  expect(isRepeats({ ...repeats, flow: { ...repeats.flow, ran: [0, 0] } })).toBe(false);
});
