/** The month of an instrument that gives codes alone: computed by hand. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { as4059Cumulative, type ClassTable, iso4406, nas1638 } from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { germanTexts } from '../../../src/german/index.ts';
import {
  countBuckets,
  type PeriodOptions,
  periodFigures,
  periodSummary,
  type ReportReading,
  reportRows,
  trendChart,
} from '../../../src/report/index.ts';
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
    expect(periodSummary(figures).split('\n').slice(6)).toEqual([
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

  test('a reading whose code cannot be read is bad, with a target or without', () => {
    const readings = coded(['18/16/13', 'n/a']);
    for (const options of [{}, { target: '18/16/13' }]) {
      const found = periodFigures(readings, options);
      expect(found.readings).toEqual({ good: 1, uncertain: 0, bad: 1 });
      expect([found.codes?.readings, found.codes?.classes[0]?.readings]).toEqual([1, 1]);
      expect(found.target?.judged ?? 1).toBe(1);
      expect(found.coverage.last).toEqual(found.coverage.first);
    }
    expect(periodFigures(coded(['n/a', 'constructor'])).readings.bad).toBe(2);
    // whatever else says that it is good, but for counts, which decide
    const [, second] = readings as [ReportReading, ReportReading];
    const trusted: ReportReading = { ...second, quality: 'good', figureQualities: { counts: 'good', celsius: 'good' } };
    expect(periodFigures([trusted]).readings.bad).toBe(1);
    const counts = cumulativeCounts({ 4: 1890, 6: 402, 14: 33 });
    expect(periodFigures([{ ...second, counts }]).readings.good).toBe(1);
    // another standard's is not read
    expect(periodFigures([{ time: 0, codes: { 'NAS 1638': 'n/a' } }]).readings.good).toBe(1);
  });

  test('charts and buckets take it for bad, too', () => {
    const readings = coded(['18/16/13', 'n/a', '18/16/13']);
    expect(trendChart(readings).description).toContain('Readings: 3, of them 2 good, 0 uncertain, 1 bad');
    const counts = cumulativeCounts({ 4: 1890, 6: 402, 14: 33 });
    const counted = readings.map((one, i) => (i === 1 ? one : { time: one.time, counts }));
    const [at4] = countBuckets(counted, { widthMs: hour, holdMs: hour });
    expect(at4?.buckets.map(({ badMs }) => badMs)).toEqual([0, hour, 0]);
  });
});

test('a table of readings calls bad what the page calls bad, and keeps the code', () => {
  const qualities = (readings: ReportReading[], options?: { table: ClassTable }) =>
    reportRows(readings, options).rows.map((row) => [row[1], row[2]]);
  const iso = coded(['18/16/13', 'ERR']);
  const nas = coded(['6', 'ERR'], 'NAS 1638');
  const rows = (good: string) => [
    [good, 'good'],
    ['ERR', 'bad'],
  ];
  expect(qualities(iso)).toEqual(rows('18/16/13'));
  expect(qualities(nas, { table: nas1638 })).toEqual(rows('6'));
  for (const { readings } of [periodFigures(iso), periodFigures(nas, { table: nas1638 })])
    expect(readings).toEqual({ good: 1, uncertain: 0, bad: 1 });
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
