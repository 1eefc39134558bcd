/** Words that every object has as members, objects that are no number, findings kept elsewhere: named, and no NaN. */
import { describe, expect, test } from 'vitest';
import { acceptanceText, prepareAcceptance } from '../../src/acceptance/index.ts';
import { continuousScaleNumber, nas1638 } from '../../src/codes/index.ts';
import { problemsOf } from '../../src/errors.ts';
import { prepareMonitor } from '../../src/monitor/index.ts';
import { findingText } from '../../src/reading/index.ts';
import { convertViscosity } from '../../src/viscosity/index.ts';
import { expectRefused } from './refused.ts';

const noNumber = JSON.parse('{ "toString": 0, "valueOf": 0 }');

test('no count is too large for a number', () => {
  expectRefused('out_of_range', 'perMl', 'up to 1e60', () => continuousScaleNumber(Number.MAX_VALUE));
  expect(continuousScaleNumber(1e60)).toBeGreaterThan(200);
});

test.each([
  ['limits.0.0', (table: never) => Object.assign((table as typeof nas1638).limits[0] as [], { 0: noNumber })],
  [
    'columns.1.from.iso4402',
    (table: never) => Object.assign((table as typeof nas1638).columns[1]?.from ?? {}, { iso4402: noNumber }),
  ],
  [
    'columns.1.to.iso4402',
    (table: never) => Object.assign((table as typeof nas1638).columns[1]?.to ?? {}, { iso4402: noNumber }),
  ],
])('a table with an object at %s', (place, spoil) => {
  const table = JSON.parse(JSON.stringify(nas1638));
  spoil(table as never);
  const placesOf = (prepare: () => unknown) => {
    try {
      prepare();
    } catch (error) {
      return problemsOf(error).map(({ path }) => path.join('.'));
    }
    return [];
  };
  expect(placesOf(() => prepareMonitor({ codes: [{ table }] }))).toContain(`codes.0.table.${place}`);
  const proof = { table, target: '5', readings: 7, leastMs: 1 };
  expect(placesOf(() => prepareAcceptance(proof))).toContain(`table.${place}`);
});

describe('a reason of a proof that it does not know stands for itself', () => {
  test.each(['constructor', 'toString', 'valueOf', '__proto__', 'spoilt by a visitor'])('%s', (why) => {
    const event = { time: 0, event: 'not_counted', text: null, quality: 'good', outcome: null, why } as const;
    expect(acceptanceText(event as never)).toBe(why);
  });

  test('and signs of a replacement are none', () => {
    const event = {
      time: 0,
      event: 'not_counted',
      text: "$'$&",
      quality: 'good',
      outcome: null,
      why: '{text}',
    } as const;
    expect(acceptanceText(event as never)).toBe("$'$&");
  });
});

const finding = { code: 'values_stuck', quality: 'bad', affects: ['counts'], value: 9, limit: 5 } as const;

test.each([
  ['wrong_type', 'finding.value', { value: null }],
  ['wrong_type', 'finding.value', { value: '9' }],
  ['not_a_number', 'finding.limit', { limit: NaN }],
  ['wrong_type', 'finding.affects', { affects: 'counts' }],
  ['unknown_option', 'finding.affects[0]', { affects: ['constructor'] }],
  ['wrong_type', 'finding.received', { received: 5 }],
  ['wrong_type', 'finding.most', { most: '5' }],
  ['wrong_type', 'finding.sizes', { sizes: 6 }],
  ['wrong_type', 'finding.sizes[1]', { sizes: [6, '14'] }],
  ['unknown_option', 'finding.sizing', { sizing: 'constructor' }],
])('a finding: %s at %s', (code, parameter, more) => {
  expect(findingText(finding)).toContain('9');
  expectRefused(code, parameter, '', () => findingText({ ...finding, ...more } as never));
});

test('a scale of viscosity', () => {
  expectRefused('unknown_option', 'from', 'SUS', () => convertViscosity(30, 'constructor' as never, 'SUS'));
});
