/** What the sheet of a sample says of how it was counted: diluted, and by a microscope. */
import { describe, expect, test } from 'vitest';
import {
  codeUncertainty,
  iso4406,
  iso4406Microscope,
  type MeasurementErrors,
  targetProbability,
} from '../../../src/codes/index.ts';
import { cumulativeCounts, microscopeCount } from '../../../src/counts/index.ts';
import { germanTexts } from '../../../src/german/index.ts';
import { periodFigures, type SampleSheet, sampleSheet, sheetText } from '../../../src/report/index.ts';

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

describe('a microscope sample', () => {
  const { volumeMl } = microscopeCount({
    counted: 312,
    fields: 20,
    fieldMm2: 0.785,
    effectiveMm2: 1164.2,
    volumeMl: 100,
  });
  const counts = cumulativeCounts({ 5: 312, 15: 41 }, { sizing: 'microscope', volumeMl });
  const tables = [iso4406Microscope, iso4406];
  const sheet = sampleSheet(counts, { tables, target: '-/16/13' });

  test('what a sensor suffers from is not on its list, and what a count on a membrane is open to is', () => {
    const ofMembrane = ['blank', 'fields', 'membrane', 'reader'];
    expect(sheet.notLookedAt).toEqual(['sampling', ...ofMembrane, 'particle_nature', 'larger_sizes']);
    for (const sizing of ['iso11171', 'iso4402'] as const) {
      const { notLookedAt } = sampleSheet(cumulativeCounts({ 5: 312 }, { sizing, volumeMl: 10 }));
      expect(notLookedAt).toEqual(expect.arrayContaining(['flow', 'certificate', 'coincidence', 'water_and_air']));
      expect(notLookedAt.filter((each) => ofMembrane.indexOf(each) >= 0)).toEqual([]);
    }
    expect(page(sheet)).toContain('- a blank: the particles of bottle, solvent and membrane - whether the fields');
    expect(page(sheet)).not.toMatch(/sensor|calibration fluid|droplets/);
    expect(page(sheet, germanTexts)).toContain('- ein Blindwert: die Partikel von Flasche, Lösungsmittel und Membran');
  });

  test('how sure it is, is told by errors that are given: those of a counter are not a person\'s', () => {
    expect(page(sheet)).toContain('ISO 4406 (5/15): cannot be told');
    expect(page(sheet)).toContain('With what probability it is met in truth cannot be told.');
    expect(page(sheet)).not.toContain('Relative standard uncertainties');
    expect(sheet.counts[0]?.low).toBeLessThan(231);
    const refused = expect.objectContaining({ code: 'no_answer', parameter: 'errors' });
    for (const errors of [{}, { volume: 0.02 }, { sizing: 0.05, sampling: 0.25 }]) {
      expect(() => codeUncertainty(iso4406Microscope, counts, errors)).toThrow(refused);
      expect(() => targetProbability(iso4406Microscope, '-/16/13', counts, errors)).toThrow(refused);
      expect(sampleSheet(counts, { target: '-/16/13', errors }).target?.probability).toBeNull();
    }
    const errors = { volume: 0.02, sizing: 0.05, sampling: 0.25 };
    const { target, codes } = sampleSheet(counts, { target: '-/16/13', errors });
    expect(target?.probability).toBe(targetProbability(iso4406Microscope, '-/16/13', counts, errors).probability);
    expect(codes[0]?.sure?.low).toBe(codeUncertainty(iso4406Microscope, counts, errors).low.text);
    const figures = (given: object) => periodFigures([{ time: 0, counts }], { target: '-/16/13', errors: given });
    expect([figures({}), figures(errors)].map((one) => one.target?.probability)).toEqual([null, target?.probability]);
  });

  test('two tables of one standard are told apart, one alone has its name', () => {
    expect(sheet.codes.map(({ standard }) => standard)).toEqual(['ISO 4406 (5/15)', 'ISO 4406 (4/6/14)']);
    expect(sheet.target?.standard).toBe('ISO 4406 (5/15)');
    expect(sampleSheet(counts).codes[0]?.standard).toBe('ISO 4406');
  });

  test('a volume and a dilution have at most four digits', () => {
    expect(String(volumeMl).length).toBeGreaterThan(10);
    expect(page(sheet)).toContain('Counted in 1.349 mL ');
    expect(page(sheet, germanTexts)).toContain('Gezählt in 1,349 mL ');
    const how = (ml: number, dilution: number) =>
      /Counted in .*? mL, diluted .*? times/.exec(
        page(sampleSheet(cumulativeCounts({ 4: 9 }, { volumeMl: ml, dilution }))),
      );
    expect(how(10, 10 / 3)?.[0]).toBe('Counted in 10 mL, diluted 3.333 times');
    expect(how(0.1, 2.5)?.[0]).toBe('Counted in 0.1 mL, diluted 2.5 times');
    expect(how(1250, 1000)?.[0]).toBe('Counted in 1,250 mL, diluted 1,000 times');
  });
});
