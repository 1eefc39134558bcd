/** Counts of zero on a page: said in a plain sentence, and no probability is 100 % or 0 %. */
import { describe, expect, test } from 'vitest';
import { iso4406Microscope, type MeasurementErrors } from '../../../src/codes/index.ts';
import { type CumulativeCounts, cumulativeCounts } from '../../../src/counts/index.ts';
import { germanTexts } from '../../../src/german/index.ts';
import { type PeriodOptions, periodFigures, periodSummary, sampleSheet, sheetText } from '../../../src/report/index.ts';

const counted = (at4: number, at6: number, at14: number) =>
  cumulativeCounts({ 4: at4, 6: at6, 14: at14 }, { volumeMl: 10 });
const zero = counted(0, 0, 0);
const page = (text: string) => text.replace(/\s+/g, ' ');
const period = (counts: readonly CumulativeCounts[], options: PeriodOptions = {}, german = false) => {
  const readings = counts.map((each, i) => ({ time: i * 3600000, counts: each }));
  const figures = periodFigures(readings, { target: '18/16/13', errors: {}, ...options });
  return page(german ? periodSummary(figures, germanTexts) : periodSummary(figures));
};

describe('nothing counted', () => {
  const plain = 'No particle at any size: clean oil, or a counter that counts nothing.';
  const inGerman = 'Bei keiner Größe ein Partikel: sauberes Öl, oder ein Zähler, der nichts zählt.';

  test('a period says so, if it is so of each reading', () => {
    expect(period([zero, zero])).toContain(plain);
    expect(period([zero, zero], {}, true)).toContain(inGerman);
    expect(period([zero, counted(1, 0, 0)])).not.toContain(plain);
    expect(period([zero], { target: '18/16/13' })).toContain(plain);
  });

  test('a sheet says so', () => {
    expect(page(sheetText(sampleSheet(zero)))).toContain(plain);
    expect(page(sheetText(sampleSheet(zero), germanTexts))).toContain(inGerman);
    expect(page(sheetText(sampleSheet(cumulativeCounts({ 4: 0, 6: 0 }))))).toContain(plain);
    expect(page(sheetText(sampleSheet(counted(1, 0, 0))))).not.toContain(plain);
  });
});

test('no probability is 100 % or 0 %', () => {
  const dirty = counted(9e8, 8e8, 7e8);
  const texts = [zero, dirty].flatMap((counts) => [
    period([counts]),
    period([counts], {}, true),
    page(sheetText(sampleSheet(counts, { target: '18/16/13' }))),
    page(sheetText(sampleSheet(counts, { target: '18/16/13' }), germanTexts)),
  ]);
  expect(texts.map((text) => /[<>] [\d,.]+ % Wahr|probability of [<>] [\d.]+ %/.exec(text)?.[0])).toEqual([
    'probability of > 99.9 %',
    '> 99,9 % Wahr',
    'probability of > 99.9 %',
    '> 99,9 % Wahr',
    'probability of < 0.1 %',
    '< 0,1 % Wahr',
    'probability of < 0.1 %',
    '< 0,1 % Wahr',
  ]);
});

describe('a period names the errors that its probability rests on', () => {
  test('those really used, the usual ones where left out', () => {
    const counts = counted(13000, 2500, 400);
    expect(period([counts])).toContain(
      'Relative standard uncertainties taken: volume 3 %, flow 0 %, sizes 3 %, certificate 0 %, ' +
        'coincidence up to 0 %, sampling 0 %.',
    );
    expect(period([counts], { errors: { volume: 0.01, sampling: 0.125 } })).toContain(
      'volume 1 %, flow 0 %, sizes 3 %, certificate 0 %, coincidence up to 0 %, sampling 12.5 %.',
    );
    expect(period([counts], {}, true)).toContain('Angenommene relative Standardunsicherheiten: Volumen 3 %,');
  });

  test('none without a probability', () => {
    const perMl = cumulativeCounts({ 4: 1300, 6: 250, 14: 40 });
    expect(period([perMl])).not.toContain('uncertainties');
    const figures = periodFigures([{ time: 0, counts: perMl }], { target: '18/16/13' });
    expect(figures.target).not.toHaveProperty('errors');
  });

  test('none of a microscope whose errors are not told: nothing was reckoned with the usual ones', () => {
    const counts = cumulativeCounts({ 5: 312, 15: 41 }, { sizing: 'microscope', volumeMl: 100 });
    const of = (errors: MeasurementErrors) => {
      const options = { table: iso4406Microscope, target: '-/16/13', errors };
      return periodFigures([{ time: 0, counts }], options).target;
    };
    expect(of({})).toMatchObject({ met: 1, probability: null });
    expect(of({})).not.toHaveProperty('errors');
    expect(of({ volume: 0.05, sizing: 0.1 })?.errors).toMatchObject({ volume: 0.05, sizing: 0.1 });
  });

  test('figures kept without them, as before, are still put into words', () => {
    const figures = periodFigures([{ time: 0, counts: zero }], { target: '18/16/13', errors: {} });
    const { errors: _errors, ...target } = figures.target as NonNullable<typeof figures.target>;
    expect(periodSummary({ ...figures, target })).not.toContain('uncertainties');
  });
});
