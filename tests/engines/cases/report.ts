/** The walk through report/. */
import type { CumulativeCounts } from '../../../src/counts/index.ts';
import type { ReportReading } from '../../../src/report/index.ts';
import { numbersFrom, spoil } from '../inputs.ts';
import type { Library } from '../recorder.ts';
import { countsBySize } from './counts.ts';

const texts = [
  'unit;perMl\ngate 3;12,5\n',
  'code,perMl\r\n"18/16/13",7\r\n',
  '"a ""b"""\n"c',
  '',
  'a,b\n1\n',
  '\uFEFFx\t1',
];

export function walk(motescale: Library): void {
  const next = numbersFrom(31);
  const table = {
    header: ['unit', 'perMl', 'note'],
    rows: [
      ['gate 3', 12.5, '=1+1'],
      ['gate; "4"', 7, null],
      ['3/4', -0.25, '\u00e9\n'],
      ['00', 1e5, 'MAR1'],
      ['10:9:7', 16, '1E5 \u20AC'],
      ['5 pm', 0, '1 Sept 2026'],
    ],
  };
  for (const separator of [',', ';', '\t'] as const) {
    for (const decimal of ['.', ','] as const) {
      for (const guard of ['formulas', 'formulas and dates', 'nothing'] as const) {
        motescale.toCsv(table, { separator, decimal, guard, byteOrderMark: guard === 'nothing', lineEnd: '\n' });
      }
      for (const text of texts) {
        motescale.parseCsv(text, { separator, decimal });
        motescale.parseCsv(text, { separator, decimal, cells: 'text' });
      }
    }
  }
  for (let i = 0; i < 12; i += 1) {
    const readings: ReportReading[] = [];
    for (let j = 0; j <= i; j += 1) {
      const counts = motescale.cumulativeCounts(countsBySize([4, 6, 14], next, 4));
      readings.push({
        time: 1e12 + (i * 50 + j) * 3600000,
        counts,
        codes: { 'ISO 4406': '18/16/13' },
        quality: 'good',
      });
    }
    const counts = (readings[0] as ReportReading).counts as CumulativeCounts;
    motescale.reportRows(readings, { utcOffsetMinutes: 60 * (i - 6) });
    motescale.periodSummary(
      motescale.periodFigures(readings, {
        title: 'Gate',
        target: '18/16/13',
        events: [{ time: 1e12, text: 'filter' }],
      }),
    );
    motescale.trendChart(readings, { title: 'Gate', target: '18/16/13', alarm: '20/18/15' });
    motescale.countBuckets(readings, { widthMs: 3600000, holdMs: 1200000 });
    motescale.figureBuckets(readings, ['celsius', 'other acid'], { widthMs: 3600000, holdMs: 1200000 });
    motescale.periodFigures(readings, {
      table: motescale.nas1638,
      target: '8',
      columns: ['5-15'],
      from: 1e12 + 1,
      to: 2e12,
    });
    motescale.sizeChart(counts, { target: '17/15/12' });
    motescale.sizeChart(counts, { table: motescale.nas1638, target: '8' });
    motescale.cleanUpChart(
      { litres: 400, litresPerMin: 40, counts, beta: [20, 75, 1000] },
      { minutes: 60, target: '16/14/11' },
    );
  }
  walkVerdicts(motescale);
  walkOddInputs(motescale);
}

function walkVerdicts(motescale: Library): void {
  const next = numbersFrom(53);
  const config = { codes: [{ table: motescale.iso4406, target: '18/16/13' }, { table: motescale.nas1638 }] };
  const prepared = motescale.prepareMonitor(config);
  let state = motescale.startMonitor(prepared);
  for (let i = 0; i < 8; i += 1) {
    const reading = {
      time: i * 60000,
      counts: motescale.cumulativeCounts(countsBySize([4, 6, 14], next, 4)),
      kPa: 100 * i,
    };
    const step = motescale.advanceMonitor(prepared, state, reading);
    state = step.state;
    if (step.verdict !== null) motescale.reportReading(reading, step.verdict);
    for (const event of step.events) motescale.messageOf(event, undefined, { unit: 'upper gate' });
    motescale.sheetText(motescale.sampleSheet(reading.counts, { title: 'Gate', tables: [motescale.iso4406] }));
  }
}

function walkOddInputs(motescale: Library): void {
  const { iso4406 } = motescale;
  const counts = { sizing: 'iso11171', sizes: [4, 6, 14], perMl: [1890, 402, 33] };
  const reading = { time: 1e12, counts, codes: { 'ISO 4406': '18/16/12' }, quality: 'good', verdict: 'run' };
  const format = { separator: ',', decimal: '.', byteOrderMark: false, lineEnd: '\n' };
  const looks = { title: 'Gate', table: iso4406, target: '18/16/13', width: 400 };
  spoil(motescale.toCsv, [
    { header: ['a'], rows: [[1]] },
    { ...format, guard: 'formulas' },
  ]);
  const winter = { order: 'day_month_year', utcOffsetMinutes: 60, keepReadable: true } as const;
  motescale.parseLocalTimes(['25.11.2026 08:00', '1/2/26, 8:00:30.5 PM', '31.11.2026', null], winter);
  motescale.parseLocalTimes(['2026-10-25 02:45', '2026-10-25 02:15'], {
    utcOffsetMinutes: (time: number) => (time < 1792890000000 ? 120 : 60),
  });
  spoil(motescale.parseLocalTimes, [['2026-11-25 08:00'], { utcOffsetMinutes: 60 }]);
  spoil(motescale.parseCsv, ['a,b\n1,2\n', { ...format, cells: 'typed' }]);
  spoil(motescale.reportRows, [[reading], { utcOffsetMinutes: 60 }]);
  const verdict = { time: 1e12, quality: 'good', inTarget: true, codes: [{ table: 'iso4406', text: '18/16/12' }] };
  spoil(motescale.reportReading, [reading, verdict]);
  const apart = { time: 1e12, codes: {}, arrival: 'repeated' } as const;
  spoil(motescale.reportRows, [[reading, apart], { utcOffsetMinutes: 60 }]);
  spoil(motescale.periodSummary, [motescale.periodFigures([reading as ReportReading, apart], { target: '18/16/13' })]);
  spoil(motescale.periodSummary, [[], { title: 'Gate', from: 1e12, to: 1.1e12, events: [] }]);
  spoil(motescale.periodSummary, [
    [reading],
    { title: 'Gate', table: iso4406, target: '18/16/13', utcOffsetMinutes: 0 },
  ]);
  spoil(motescale.trendChart, [[reading], { ...looks, alarm: '20/18/15', utcOffsetMinutes: 0 }]);
  spoil(motescale.sizeChart, [counts, looks]);
  const tank = { litres: 400, litresPerMin: 40, counts, beta: [20, 75, 1000] };
  const refusal = { name: 'MotescaleError', code: 'negative', parameter: 'kPa', received: '-1', expected: '0 or more' };
  motescale.errorText(refusal);
  for (const odd of [undefined, null, 7, {}, { name: 'MotescaleError' }]) motescale.errorText(odd);
  spoil(motescale.problemText, [{ path: [], code: 'wrong_type', received: "'x'", expected: 'a number', line: 2 }]);
  spoil(motescale.messageOf, [{ time: 1e12, event: 'readings_stale', since: 1 }]);
  spoil(motescale.sampleSheet, [counts, { title: 'Gate' }]);
  // a sheet is handed back as it came; anything else is refused
  for (const odd of [undefined, null, 7, {}, { counts: [] }]) motescale.sheetText(odd as never);
  spoil(motescale.cleanUpChart, [tank, { ...looks, minutes: 60 }]);
}
