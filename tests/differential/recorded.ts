/** The recorded month of the example's lock gates through codes, monitor, trend and report of both libraries. */
import { readFileSync } from 'node:fs';
import type { Face } from './adapter.ts';

type Library = Readonly<Record<string, (...inputs: readonly unknown[]) => unknown>>;

const text = readFileSync(new URL('./0.1.0/lock-gates-march.csv', import.meta.url), 'utf8');
const [head = '', ...lines] = text.trim().split(/\r?\n/);
const sizes = head.split(',').slice(3);
const visits = lines.map((line) => {
  const [time = '', unit = '', volume, ...counted] = line.split(',');
  return { time: Date.parse(time), unit, volumeMl: Number(volume), counted: counted.map(Number) };
});

/** For each unit: every visit judged, watched, put into rows, charts and a summary. */
export function recordedWalk(face: Face): void {
  const library = face as Library;
  library.parseCsv?.(text);
  for (const unit of new Set(visits.map((visit) => visit.unit))) {
    const config = {
      codes: [{ table: face.iso4406, target: '18/16/13' }, { table: face.as4059Cumulative }],
      alarms: [{ id: 'dirt', type: 'high', figure: { code: 'iso4406' }, setpoint: '19/17/14' }],
      follow: [{ id: 'at 6', figure: { perMlAt: 6 }, blockMs: 86400000, blocks: 30 }],
    };
    let state = library.startMonitor?.(config);
    const reported: unknown[] = [];
    const own = visits.filter((visit) => visit.unit === unit);
    for (const { time, volumeMl, counted } of own) {
      const counts = library.cumulativeCounts?.(Object.fromEntries(sizes.map((size, i) => [size, counted[i]])), {
        volumeMl,
      });
      for (const table of [face.iso4406, face.nas1638, face.as4059Differential, face.gost17216]) {
        library.classify?.(table, counts);
      }
      library.codeInterval?.(counts);
      const reading = { time, counts };
      library.assessReading?.(reading);
      const step = library.advanceMonitor?.(config, state, reading) as { state: unknown; verdict: unknown } | undefined;
      if (step === undefined) continue;
      state = step.state;
      reported.push(library.reportReading?.(reading, step.verdict) ?? reading);
    }
    const at6 = own.map(({ counted }) => counted[1]);
    library.senSlope?.(
      own.map(({ time }) => time),
      at6,
    );
    library.forecastCrossing?.(
      own.map(({ time }) => time / 86400000),
      at6,
      { level: 20000 },
    );
    const rows = library.reportRows?.(reported, { utcOffsetMinutes: 60 });
    library.toCsv?.(rows);
    library.periodSummary?.(reported, { title: unit, target: '18/16/13' });
    library.trendChart?.(reported, { title: unit, target: '18/16/13', alarm: '20/18/15' });
  }
}
