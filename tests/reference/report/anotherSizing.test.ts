/** A sensor changed for one of another sizing: no page, chart or table mixes them, and the error says what to do. */
import { expect, test } from 'vitest';
import { convertCounts, cumulativeCounts } from '../../../src/counts/index.ts';
import { germanTexts } from '../../../src/german/index.ts';
import { errorText, periodFigures, reportRows, trendChart } from '../../../src/report/index.ts';

const old = cumulativeCounts({ 5: 640, 15: 70 }, { sizing: 'iso4402' });
const readings = [
  { time: 0, counts: cumulativeCounts({ 4: 1890, 6: 402, 14: 33 }) },
  { time: 1, counts: old },
];
const takers = [periodFigures, trendChart, reportRows];

test.each(takers)('%o names convertCounts, in German too', (take) => {
  let said: unknown;
  try {
    take(readings);
  } catch (error) {
    said = error;
  }
  expect(errorText(said)).toBe(
    "readings[1].counts.sizing is of another sizing: 'iso4402'. Expected: 'iso11171', as in the readings before: " +
      'convertCounts takes counts to another sizing.',
  );
  expect(errorText(said, germanTexts)).toBe(
    "readings[1].counts.sizing hat eine andere Größenbestimmung: 'iso4402'. Erwartet: 'iso11171', wie in den " +
      'Messungen davor: convertCounts rechnet Zählwerte um.',
  );
  const converted = readings.map(({ time, counts }) => ({ time, counts: convertCounts(counts, 'iso11171') }));
  expect(() => take(converted)).not.toThrow();
});
