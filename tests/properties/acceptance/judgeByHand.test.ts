/**
 * One reading beside the target, where two reasons meet, and what a state and a sentence keep (our choice: what the
 * counter did not count a code may show, and what it counted the counts decide).
 */
import { describe, expect, test } from 'vitest';
import { flat, flat1, type Run1, recordOf1, run1 } from '../../../src/acceptance/earlier.ts';
import {
  type AcceptanceConfig,
  type AcceptanceEvent,
  type AcceptanceReading,
  acceptanceText,
  prepareAcceptance,
} from '../../../src/acceptance/index.ts';
import { judge } from '../../../src/acceptance/judge.ts';
import { iso4406 } from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';

const config: AcceptanceConfig = { table: iso4406, target: '18/16/13', readings: 3 };
const judged = (reading: Partial<AcceptanceReading>, more: Partial<AcceptanceConfig> = {}) =>
  judge(prepareAcceptance({ ...config, ...more }), { time: 0, mlPerMin: 50, ...reading }, null);

test('oil that stood says nothing of the machine, whatever else is found', () => {
  const counts = cumulativeCounts({ 4: 900000, 6: 890000, 14: 880000 }, { volumeMl: 10 });
  const { why, worse, findings } = judged({ counts, mlPerMin: 0 });
  expect([why, worse]).toEqual(['bad', false]);
  expect(findings.map(({ code }) => code)).toEqual(['no_flow', 'flat_size_distribution']);
  // the same, flowing, is dirt
  expect(judged({ counts }).worse).toBe(true);
});

describe('a size that was not counted', () => {
  const counts = cumulativeCounts({ 4: 18900, 6: 4020 }, { volumeMl: 10 });
  const [four, six] = ['18', '16'];

  test('but is too many to count by the code: worse than the target', () => {
    const codes = { iso4406: `${four}/${six}/*` };
    expect(judged({ counts, codes })).toMatchObject({ why: 'worse_than_target', worse: true, text: codes.iso4406 });
  });

  test.each([
    ['of a class in the code', `${four}/${six}/13`],
    ['of a worse class in the code', `${four}/${six}/20`],
    ['beside one too many to count by the code alone', `*/${six}/13`],
    ['of which no code tells', `${four}/${six}/-`],
  ])('%s: not known', (_what, code) => {
    expect(judged({ counts, codes: { iso4406: code } })).toMatchObject({ why: 'not_known', worse: false });
  });
});

test('few particles: only what no reading of so much oil can prove is told', () => {
  const counts = cumulativeCounts({ 4: 300, 6: 60, 14: 5 }, { volumeMl: 1 });
  const { why, unprovable } = judged({ counts }, { target: '18/16/9' });
  // enough oil, and too many particles in it
  expect([why, unprovable]).toEqual(['uncertain', []]);
  const few = judged({ counts: cumulativeCounts({ 4: 300, 6: 60, 14: 0 }, { volumeMl: 0.5 }) }, { target: '18/16/9' });
  // of none counted the upper 95 % limit is 3.69 particles (Garwood 1936); class 9 is 5 per mL
  expect(few.why).toBe('uncertain');
  expect(few.unprovable).toMatchObject([{ column: '14' }]);
  expect(few.unprovable[0]?.leastMl).toBeCloseTo(3.69 / 5, 3);
});

test('of a code in doubt no volume is told', () => {
  // as flat as no dirt is
  const { why, unprovable } = judged({ codes: { iso4406: '12/12/12' } });
  expect([why, unprovable]).toEqual(['uncertain', []]);
});

test('what the pump can deliver belongs to the proof', () => {
  const of = (mostLitresPerMin?: number) =>
    prepareAcceptance({ ...config, ...(mostLitresPerMin === undefined ? {} : { mostLitresPerMin }) }).print;
  expect(new Set([of(), of(40), of(41)]).size).toBe(3);
});

test('a run of 0.1.0: its volume, and its finding under the name of now', () => {
  const run = (more: object) =>
    run1({
      from: 5,
      to: 9,
      fromLitres: null,
      toLitres: null,
      unchecked: [flat1, 'no_flow'],
      ...more,
    } as unknown as Run1);
  expect(run({})).toMatchObject({ ms: 4, litres: 0, unchecked: [flat, 'no_flow'] });
  expect(run({ fromLitres: 10.1, toLitres: 12.3 }).litres).toBe(2.2);
  expect(run({ fromLitres: 12.3, toLitres: 10.1 }).litres).toBe(0);
  expect(run({ toLitres: 3 }).litres).toBe(3);
  expect(recordOf1({ run: run({}), lastRestart: null } as never)).toMatchObject({ readings: null, began: null });
});

describe('in words', () => {
  const told = (event: Partial<AcceptanceEvent>) =>
    acceptanceText({ time: 0, event: 'counted', text: '18/16/13', quality: 'good', outcome: null, ...event });

  test('a place of which the event says nothing is empty', () => {
    expect(told({ event: 'not_counted', why: 'few_counted' })).toBe('Not counted: too few particles to be sure at .');
    expect(told({ event: 'not_counted', why: 'bad' })).toBe('Not counted, the reading is bad. ');
  });

  test('all columns that no count can prove, and those that a larger volume can', () => {
    const of = (leastMl: number | null) => ['4', '6'].map((column) => ({ column, leastMl }));
    expect(told({ unprovable: of(null) })).toContain('No count can prove 4, 6, however');
    expect(told({ unprovable: of(1.2) })).toContain('To prove 4, 6 one reading takes 2 mL');
  });

  test('where nothing is wanting, nothing is still to be shown; why volume does not count, where it is', () => {
    const none = { readings: 0, ms: 0, litres: 0 };
    expect(told({ wanting: none })).toBe('Counted: 18/16/13.');
    expect(told({ wanting: none, unproved: 'volume_leapt' })).toBe('Counted: 18/16/13.');
    expect(told({ wanting: none, unproved: 'counts_equal' })).toMatch(/^Counted: 18\/16\/13\. The counts of all/);
    expect(told({ wanting: { ...none, litres: 1 }, unproved: 'volume_leapt' })).toBe(
      'Counted: 18/16/13. Still to be shown: 1 L. ' +
        'The volume since the last does not count: it is more than the pump can deliver.',
    );
    const wrong = { wanting: { ...none, ms: 1 }, unproved: 'volume' } as never;
    expect(() => told(wrong)).toThrow(/^event\.unproved: received 'volume'/);
  });

  test('that it rests on codes alone is said of an acceptance', () => {
    const record = { run: {} } as never;
    expect(told({ event: 'accepted', record })).toContain('codes alone');
    expect(told({ event: 'after_acceptance', record })).not.toContain('codes alone');
  });
});
