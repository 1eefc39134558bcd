/** The month of an instrument that gives codes alone: computed by hand. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { as4059Cumulative, type ClassTable, iso4406, nas1638 } from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { germanTexts } from '../../../src/german/index.ts';
import { type PeriodOptions, periodFigures, periodSummary, type ReportReading } from '../../../src/report/index.ts';
import { some } from '../../volume.ts';

const hour = 3600000;
const coded = (codes: readonly string[], standard = 'ISO 4406'): ReportReading[] =>
  codes.map((code, i) => ({ time: 1795593600000 + i * hour, codes: { [standard]: code } }));
const classesOf = (codes: readonly string[], options: PeriodOptions = {}, standard?: string) =>
  periodFigures(coded(codes, standard), options).codes?.classes.map(({ lowest, median, highest, last }) =>
    [lowest, median, highest, last].map((span) => span && [span.low, span.high]),
  );
const known = (name: string) => [name, name];

describe('a period of codes', () => {
  const three = ['18/16/13', '22/20/17', '17/15/12'];

  test('tells cleanest, middle, dirtiest and last class at each size, beside a target or without', () => {
    const at = (...names: string[]) => names.map(known);
    const expected = [at('17', '18', '22', '17'), at('15', '16', '20', '15'), at('12', '13', '17', '12')];
    expect(classesOf(three)).toEqual(expected);
    expect(classesOf(three, { target: '18/16/13' })).toEqual(expected);
    expect(classesOf(three, { columns: ['6'] })).toEqual([expected[1]]);
    const { codes, counts } = periodFigures(coded(three));
    expect([codes?.readings, counts]).toEqual([3, null]);
    expect(codes?.classes[0]).toMatchObject({ column: '4', size: 4, readings: 3 });
  });

  test('is written, in English and in German', () => {
    const figures = periodFigures(coded([...three, '*/-/>=11'], undefined));
    expect(periodSummary(figures).split('\n').slice(5)).toEqual([
      'Codes, no counts          lowest      median     highest        last',
      '  4 µm(c)                     17          22           *           *',
      '  6 µm(c)                     15          16          20   not known',
      '  14 µm(c)              11 to 12    13 to 17        >=17        >=11',
      '  Sizes that not all readings have: 6 µm(c) in 3 of 4.',
      '',
    ]);
    expect(periodSummary(figures, germanTexts)).toContain('  14 µm(c)             11 bis 12');
    expect(periodSummary(figures, germanTexts)).toContain('Nur Klassen');
    expect(periodSummary(JSON.parse(JSON.stringify(figures)))).toBe(periodSummary(figures));
    const { codes: _codes, ...before } = figures;
    expect(periodSummary(before as typeof figures)).not.toContain('Codes');
  });

  test('* is dirtier than beyond the last class, and that than the last', () => {
    expect(classesOf(['*/28/28', '>28/>28/28'])?.map((four) => [four[0], four[2]])).toEqual([
      [known('>28'), known('*')],
      [known('28'), known('>28')],
      [known('28'), known('28')],
    ]);
  });

  test('one class for all sizes is one figure; a class over several sizes bounds each', () => {
    const nas = classesOf(['6', '8 or dirtier', '>12', '5'], { table: nas1638 }, 'NAS 1638');
    expect(nas).toEqual([[known('5'), ['8', null], known('>12'), known('5')]]);
    const lettered = classesOf(['6B-F', '7B/5C/5D/5E/5F'], { table: as4059Cumulative }, 'as4059Cumulative');
    expect(lettered?.[0]).toEqual([[null, '6'], known('7'), known('7'), known('7')]);
    expect(lettered?.[1]).toEqual([[null, '5'], ['5', '6'], ['5', '6'], known('5')]);
  });

  test('bad readings, those with counts and codes of another standard are no part of it', () => {
    const [first, second] = coded(['18/16/13', '24/22/20']) as [ReportReading, ReportReading];
    const counts = cumulativeCounts({ 4: 1890, 6: 402, 14: 33 });
    const others: ReportReading[] = [
      { ...second, quality: 'bad' },
      { ...second, time: 5, counts },
      { ...second, time: 6, codes: { 'NAS 1638': '12' } },
    ];
    expect(periodFigures([first, ...others]).codes).toEqual(periodFigures([first]).codes);
    expect(periodFigures(others).codes).toBeNull();
    const text = periodSummary(periodFigures([first, ...others]));
    expect(text.indexOf('Particles per mL')).toBeLessThan(text.indexOf('Codes, no counts'));
  });

  test('a code that cannot be read is refused with a target, and else told as one that lacks all sizes', () => {
    const readings = coded(['18/16/13', 'n/a']);
    expect(() => periodFigures(readings, { target: '18/16/13' })).toThrow('readings[1].codes');
    const { codes } = periodFigures(readings);
    expect([codes?.readings, codes?.classes[0]?.readings, codes?.classes[0]?.last]).toEqual([2, 1, null]);
    expect(periodSummary(periodFigures(readings))).toContain('not all readings have: 4 µm(c) in 1 of 2, 6');
    expect(periodSummary(periodFigures(coded(['n/a'])))).toContain('  ISO 4406             not known   not known');
  });
});

test('whatever the open classes are in truth, the figures hold what they make', () => {
  const part = fc.constantFrom(...'5 7 9 12 >=5 >=7 >=9 28 >28 *'.split(' '));
  const place = (table: ClassTable, name: string | null, open: number) =>
    name === null ? open : name === '*' ? 30 : name === '>28' ? 29 : table.classes.indexOf(name);
  const truths = fc.array(fc.tuple(part, fc.integer({ min: 0, max: 30 })), { minLength: 1, maxLength: 8 });
  fc.assert(
    fc.property(truths, (list) => {
      const four = classesOf(list.map(([name]) => `${name}/-/-`))?.[0] ?? [];
      const true_ = list.map(([name, more]) => {
        const from = place(iso4406, name.replace('>=', ''), 0);
        return name.startsWith('>=') ? Math.min(30, from + more) : from;
      });
      const sorted = [...true_].sort((a, b) => a - b);
      const { length } = sorted;
      [sorted[0], sorted[Math.floor(length / 2)], sorted[length - 1], true_[length - 1]].forEach((value, i) => {
        const [low, high] = four[i] as [string, string | null];
        expect(value).toBeGreaterThanOrEqual(place(iso4406, low, 0));
        expect(value).toBeLessThanOrEqual(place(iso4406, high, 30));
      });
    }),
    { numRuns: some(2000) },
  );
});
