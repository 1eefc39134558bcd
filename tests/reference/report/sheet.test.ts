/** What the sheet of a sample says of how it was counted: diluted, and by a microscope. */
import { describe, expect, test } from 'vitest';
import { codeUncertainty, iso4406, type MeasurementErrors, targetProbability } from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { germanTexts } from '../../../src/german/index.ts';
import { type SampleSheet, sampleSheet, sheetText } from '../../../src/report/index.ts';

const page = (sheet: SampleSheet, texts?: typeof germanTexts) => sheetText(sheet, texts).replace(/\s+/g, ' ');

describe('a diluted sample', () => {
  const sizes = { 4: 12880, 6: 4790, 14: 330 };
  const [plain, diluted] = [1, 10].map((dilution) => cumulativeCounts(sizes, { volumeMl: 10, dilution }));
  const sheet = (errors: MeasurementErrors = {}) => sampleSheet(diluted as never, { errors });

  test('its dilution and the diluent are not looked at, unless an error says how good the dilution is', () => {
    expect(sheet().notLookedAt).toEqual(expect.arrayContaining(['dilution', 'diluent']));
    expect(sheet({ dilution: 0.02 }).notLookedAt).not.toContain('dilution');
    expect(sheet({ dilution: 0.02 }).notLookedAt).toContain('diluent');
    const { notLookedAt } = sampleSheet(plain as never);
    expect(notLookedAt.filter((each) => each === 'dilution' || each === 'diluent')).toEqual([]);
    expect(sampleSheet({ sizing: 'iso11171', sizes: [4], perMl: [90], dilution: 2 }).notLookedAt).toContain('dilution');
    expect(page(sheet())).toContain("- the error of the dilution - the diluent's own particles, which the dilution");
    expect(page(sheet(), germanTexts)).toContain('- die Unsicherheit der Verdünnung - Partikel aus der Verdünnungsfl');
  });

  test('its error is named among those taken; where nothing was diluted nothing comes of it', () => {
    expect(page(sheet({ dilution: 0.02 }))).toContain('sampling 0 %, dilution 2 %.');
    expect(page(sheet({ dilution: 0.02 }), germanTexts)).toContain('Verdünnung 2 %.');
    expect(page(sheet())).not.toContain('dilution 0 %');
    expect(sampleSheet(plain as never, { errors: { dilution: 0.02 } })).toEqual(sampleSheet(plain as never));
  });

  test('the error enters once, relative, as that of the volume does', () => {
    const own = { volume: 0, sizing: 0.03 };
    const [by, volume] = [{ dilution: 0.05 }, { volume: 0.05 }].map((errors) =>
      codeUncertainty(iso4406, diluted as never, { ...own, ...errors }),
    );
    const limits = (of: typeof by) => of?.columns.map(({ low, high }) => [low, high]);
    expect(limits(by)).toEqual(limits(volume));
    const rows = by?.budget.filter(({ part }) => part === 'dilution');
    expect(rows?.map(({ column, relative, basis }) => [column, relative, basis])).toEqual(
      ['4', '6', '14'].map((column) => [column, 0.05, 'given']),
    );
    const undiluted = codeUncertainty(iso4406, plain as never, { dilution: 0.05 });
    expect(undiluted).toEqual(codeUncertainty(iso4406, plain as never));
    // all sizes share it, as they share the volume
    const chance = (errors: MeasurementErrors) => targetProbability(iso4406, '21/19/15', diluted as never, errors);
    expect(chance({ ...own, dilution: 0.05 })).toEqual(chance({ ...own, volume: 0.05 }));
  });
});
