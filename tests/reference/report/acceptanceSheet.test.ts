/** The page of a proof: all that its record says, in English and German. */
import { describe, expect, test } from 'vitest';
import {
  type AcceptanceConfig,
  type AcceptanceReading,
  type AcceptanceRecord,
  advanceAcceptance,
  prepareAcceptance,
  resumeAcceptance,
  startAcceptance,
} from '../../../src/acceptance/index.ts';
import { iso4406, nas1638 } from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { germanTexts } from '../../../src/german/index.ts';
import { findingCodes } from '../../../src/reading/findingKinds.ts';
import { acceptanceSheetText, englishTexts } from '../../../src/report/index.ts';

const minute = 60000;
const start = Date.UTC(2026, 9, 25, 0);

function recordOf(config: AcceptanceConfig, given: readonly Partial<AcceptanceReading>[]): AcceptanceRecord {
  const prepared = prepareAcceptance(config);
  let state = startAcceptance(prepared);
  given.forEach((reading, i) => {
    state = advanceAcceptance(prepared, state, { time: start + 10 * i * minute, ...reading }).state;
  });
  return state.accepted as AcceptanceRecord;
}

const full = recordOf(
  {
    ...{ table: iso4406, target: '16/14/11', columns: ['4', '14'], readings: 4, leastMs: 25 * minute },
    ...{ leastLitres: 500, mostLitresPerMin: 60 },
  },
  [
    { litres: 900, codes: { iso4406: '15/13/10' } },
    { litres: 1200, codes: { iso4406: '17/13/10' } },
    { litres: 1500, counts: cumulativeCounts({ 4: 5201, 6: 1202, 14: 151 }, { volumeMl: 10 }) },
    { litres: 1800, counts: cumulativeCounts({ 4: 510, 6: 120, 14: 14 }) },
    { litres: 2100, counts: cumulativeCounts({ 4: 4801, 6: 1102, 14: 12 }, { volumeMl: 10 }) },
    { litres: 2400, counts: cumulativeCounts({ 4: 4801, 6: 1102 }, { volumeMl: 10 }) },
    { litres: 2700, codes: { iso4406: '13/12/8' } },
    { litres: 3000, codes: { iso4406: '14/12/9' } },
  ],
);

describe('the page of a proof', () => {
  test('says what was asked, what was shown, and how many tries it took', () => {
    const title = 'Lower gate, power unit A, return line, counter 2';
    const page = acceptanceSheetText(full, { title, utcOffsetMinutes: 60 });
    expect(page.slice(0, page.indexOf('\n\nNot checked'))).toBe(
      [
        title,
        'The oil sampled met the target, shown by the reading of 2026-10-25 02:10',
        '(UTC+01:00).',
        '',
        'Asked for',
        '  Table: ISO 4406, edition 1999, 2017, 2021',
        '  Target: 16/14/11, judged in column 4, 14',
        '  Columns not judged: 6',
        '  Readings in a row: 4',
        '  Time: 25 min',
        '  Volume: 500 L',
        '',
        'Shown',
        '  Readings in a row: 5, from 2026-10-25 01:20 to 2026-10-25 02:10',
        '  Of these, few particles, judged by the upper limit: 1',
        '  Of these, a code without counts, chance not judged: 2',
        '  Of these, counts without a volume, chance not judged: 1',
        '  Time from first to last: 50 min, of which proved: 30 min',
        '  Volume proved: 900 L; the volume counter went from 1,500 to 3,000 L',
        '  Worst class at each column: 16/-/11',
        '  Code of the last reading: 14/12/9',
        '  Classes cleaner than asked, at the least: 4: 0, 14: 0',
        '',
        'How it came about',
        '  Readings since 2026-10-25 01:00: 8',
        '  Did not count: 2',
        '  Did not count between those shown: 1',
        '  Begun anew, times: 1',
        '  Last begun anew at 2026-10-25 01:10. The run ends: this reading is',
        '  worse than the target (17/13/10).',
      ].join('\n'),
    );
    expect(page.replace(/\s+/g, ' ')).toContain('supports the signature of those who answer for the machine, and does');
    for (const code of full.run.unchecked)
      expect(page.replace(/\s+/g, ' ')).toContain(englishTexts.acceptanceSheet.checks[code]);
  });

  test('a proof that was contradicted does not begin with what it says no more', () => {
    const contradicted = { time: start + 30 * minute, text: '17/15/12' };
    for (const [texts, words] of [
      [englishTexts, 'Contradicted: a reading of 2026-10-25 01:30 (UTC+01:00), which came late'],
      [germanTexts, 'Widersprochen: Eine Messung vom 2026-10-25 01:30 (UTC+01:00)'],
    ] as const) {
      const page = acceptanceSheetText({ ...full, contradicted }, { utcOffsetMinutes: 60 }, texts);
      expect(page.replace(/\s+/g, ' ')).toContain(words);
      expect(page).not.toContain(texts.acceptanceSheet.shown.slice(0, 20));
    }
  });

  test('the title of a table of one’s own stands whole', () => {
    const own = { ...full, table: 'own', title: 'Lock gates, strict' };
    expect(acceptanceSheetText(own)).toContain('Table: Lock gates, strict, edition');
  });

  test('in German no English is left, whatever was not checked, and no place', () => {
    const all = { ...full, run: { ...full.run, unchecked: findingCodes } };
    const page = acceptanceSheetText(all, {}, germanTexts);
    expect(page).toContain('Tabelle: ISO 4406, Ausgabe 1999, 2017, 2021');
    expect(page).not.toMatch(/\{\w+\}|undefined|NaN|\b(the|whether|of|reading|counter)\b/);
    for (const texts of [englishTexts, germanTexts])
      for (const each of acceptanceSheetText(all, {}, texts).split('\n')) expect(each.length).toBeLessThanOrEqual(72);
    const old = recordOf({ table: nas1638, target: '6', readings: 2 }, [
      { codes: { nas1638: '5' } },
      { codes: { nas1638: '6' } },
    ]);
    expect(acceptanceSheetText(old, {}, germanTexts)).toContain('NAS 1638, Ausgabe Januar 1964; 2001');
    expect(acceptanceSheetText(old)).toContain('Worst class at each column: 6\n');
  });

  test('each time carries its offset where clocks were put back on the way', () => {
    const page = acceptanceSheetText(full, { utcOffsetMinutes: (time) => (time < start + 60 * minute ? 120 : 60) });
    expect(page).toContain('Readings since 2026-10-25 02:00 UTC+02:00: 8');
    expect(page.replace(/\s+/g, ' ')).toContain('2026-10-25 02:10 UTC+01:00 (UTC+02:00, UTC+01:00)');
  });

  test('time and volume proved are rounded down, those asked for up', () => {
    const run = { ...full.run, ms: 30 * minute - 1, litres: 899.99, to: full.run.to - 1 };
    const page = acceptanceSheetText({ ...full, run, required: { ...full.required, ms: 25 * minute + 1 } });
    expect(page).toContain('first to last: 49 min, of which proved: 29 min');
    expect(page).toContain('Volume proved: 899.9 L');
    expect(page).toContain('  Time: 26 min');
  });

  test('a record of version 0.1, resumed, says that it does not know how many readings there were', () => {
    const prepared = prepareAcceptance({ table: iso4406, target: '16/14/11', readings: 2 });
    const [first, second] = [0, 1].map((i) => ({ time: i * minute, codes: { iso4406: '15/13/10' } }));
    const half = advanceAcceptance(prepared, startAcceptance(prepared), first!).state;
    const { state } = advanceAcceptance(prepared, half, second!);
    const { table, target, run, text, required, notCounted, restarts, lastRestart } = state.accepted!;
    const accepted = { table, target, run, text, required, notCounted, restarts, lastRestart };
    const page = acceptanceSheetText(resumeAcceptance(prepared, { ...state, accepted }).state.accepted!);
    expect(page).toContain('How many readings there were is not known');
    expect(page).toContain('Worst class at each column: 15/13/10');
    expect(page).not.toContain('without counts');
    // by itself, as it was kept
    const bare = acceptanceSheetText(accepted as never);
    expect(bare).toContain('Table: ISO 4406\n');
    expect(bare).toContain('Worst class at each column: -\n');
    expect(() => acceptanceSheetText({ ...accepted, worst: '15/13/10' } as never)).toThrow('record.began');
  });

  test.each<[string, unknown, unknown]>([
    ['record', null, {}],
    ['record.run', { ...full, run: 7 }, {}],
    ['record.run.unchecked[0]', { ...full, run: { ...full.run, unchecked: ['x'] } }, {}],
    ['options.titel', full, { titel: 'x' }],
    ['options.title', full, { title: 7 }],
    ['options.utcOffsetMinutes', full, { utcOffsetMinutes: 9999 }],
  ])('what is wrong is refused by name: %s', (parameter, record, options) => {
    expect(() => acceptanceSheetText(record as never, options as never)).toThrow(parameter);
  });

  test('a title of several lines stays one paragraph', () => {
    expect(acceptanceSheetText(full, { title: 'Lower\ngate' }).split('\n')[0]).toBe('Lower gate');
  });
});
