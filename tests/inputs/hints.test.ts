/**
 * A refusal says what came and what would be right, also where another unit, name or kind of value was meant.
 */
import { expect, test } from 'vitest';
import { classify, iso4406 } from '../../src/codes/index.ts';
import { isMotescaleError } from '../../src/errors.ts';
import { advanceMonitor, prepareMonitor, startMonitor } from '../../src/monitor/index.ts';
import { parseReading } from '../../src/schema/index.ts';

const prepared = prepareMonitor({ codes: [{ table: iso4406 }] });
const refusal = (act: () => unknown): string => {
  try {
    act();
  } catch (error) {
    if (isMotescaleError(error)) return error.message;
    throw error;
  }
  return 'no refusal';
};
const ofReading = (reading: object) =>
  refusal(() => advanceMonitor(prepared, startMonitor(prepared), { time: 1e12, ...reading } as never));

test.each([
  [{ time: new Date(0) }, /input\.time: received a Date, .*getTime\(\) of a Date gives it/],
  [{ time: '2026-10-01T08:00:00Z' }, /Date\.parse gives it, if there is such a time/],
  [{ time: '2026-10-01T08:00:00' }, /1970-01-01T00:00:00Z.*; with its zone, as in/],
  [{ celsius: '44,5' }, /received '44,5', .*as a number, with a decimal point/],
  [{ celsius: '44.5' }, /as a number, not as text/],
  [{ code: '18/16/13' }, /expected 'codes', one of the members/],
  [{ codes: '18/16/13' }, /codes by table, such as \{ iso4406: '18\/16\/13' \}/],
  [{ iso4406: '18/16/13' }, /codes: \{ iso4406: '18\/16\/13' \}/],
  [{ celcius: 44 }, /expected 'celsius', one of the members/],
  [{ fahrenheit: 111 }, /'celsius': fahrenheitToCelsius/],
  [{ psi: 60 }, /'kPa': psiToKPa/],
  [{ lPerMin: 0.05 }, /'mlPerMin', 1000 times as many/],
  [{ waterSaturation: 45 }, /a share \(0\.45 for 45 %\)/],
  [{ celsius: -459.67 }, /a temperature in °C from -273\.15/],
  [{ counts: { 4: 1890, 6: 402, 14: 33 } }, /cumulativeCounts\(\{ 4: 1890, 6: 402 \}\) around counts by size/],
  [{ constructor: 4 }, /expected one of the members/],
])('a reading with %o', (reading, expected) => {
  expect(ofReading(reading)).toMatch(expected);
});

test('JSON says the same, and seconds and decimal commas besides', () => {
  expect(refusal(() => parseReading({ time: 1790000000 }))).toMatch(/looks like seconds, times 1000 it is a time/);
  expect(refusal(() => parseReading({ time: 1e12, celsius: '44,5' }))).toMatch(/with a decimal point/);
  expect(refusal(() => parseReading({ time: 1e12, code: '18/16/13' }))).toMatch(/'codes'/);
});

test('a configuration with `code` instead of `codes`', () => {
  expect(refusal(() => prepareMonitor({ code: [{ table: iso4406 }] } as never))).toMatch(/'codes', one of the members/);
});

test.each([
  [[1890, 402, 33], /counts from cumulativeCounts\(\{ 4: 1890 \}\)/],
  [{ 4: 1890, 6: 402, 14: 33 }, /counts from cumulativeCounts\(\{ 4: 1890 \}\)/],
  ['18/16/13', /counts from cumulativeCounts/],
  [
    { sizing: 'iso11171', sizes: [4], counted: [18900], volumeMl: 10 },
    /counts\.perMl: .*expected counts of cumulativeCounts/,
  ],
])('raw counts to classify: %o', (counts, expected) => {
  expect(refusal(() => classify(iso4406, counts as never))).toMatch(expected);
});
