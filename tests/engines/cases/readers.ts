/** The walk through the readings of schema/: raw JSON as gateways, queues and forms send it. */
import { type Next, numbersFrom, spoil } from '../inputs.ts';
import type { Library } from '../recorder.ts';

const time = 1795593600000;
const figures: readonly unknown[] = [
  41.5,
  '41.5',
  ' 41 ',
  '41,5',
  'NaN',
  null,
  '',
  '1e3',
  -0.01,
  -3,
  Number.POSITIVE_INFINITY,
  true,
  [],
  {},
];
const times: readonly unknown[] = [
  ...[
    time,
    `${time}`,
    time / 1000,
    12,
    '2026-11-25T08:00:00Z',
    '2026-11-25T09:00:00.250+01:00',
    '2026-02-30T08:00:00Z',
  ],
  ...['25.11.2026 08:00', '2026-11-25', null],
];
const counts: readonly unknown[] = [...[1890, '402', null, '>30000', '33.5', 'n.d.', -1, '1.890', 1e7, 0], Number.NaN];
const codes: readonly unknown[] = [
  '18/16/13',
  'ISO 18/16/13',
  'ISO 4406:2021 18/16/13',
  '*/16/13',
  '18/x/13',
  8,
  null,
  '',
];

const quantities = ['celsius', 'kPa', 'mlPerMin', 'mm2PerS', 'waterSaturation'];
const plain = figures.filter((figure) => typeof figure !== 'object' || figure === null);

/** Figures of which each may be broken; the time is none. */
function rawFigures(next: Next): { [name: string]: unknown } {
  const one = (list: readonly unknown[]) => list[next(list.length)];
  const raw: { [name: string]: unknown } = {};
  for (const name of quantities) if (next(3) === 0) raw[name] = one(figures);
  if (next(2) === 0)
    raw.counts = { sizing: 'iso11171', sizes: [4, '6', 14], perMl: [one(counts), one(counts), one(counts)] };
  if (next(3) === 0)
    raw.counts = { sizes: [4, 6, 14], counted: [one(counts), one(counts), 33], volumeMl: one(['25', 25, null]) };
  if (next(3) === 0) raw.codes = { iso4406: one(codes), nas1638: one(codes) };
  if (next(3) === 0) raw.others = { litres: one(plain), 'acid number': { value: one(plain), quality: 'bad' } };
  return raw;
}

export function walk(motescale: Library): void {
  const next = numbersFrom(19845);
  const options = { keepReadable: true };
  for (let i = 0; i < 300; i += 1) {
    const raw = { time, ...rawFigures(next) };
    motescale.parseReading(raw, [], options);
    motescale.parseMonitorReading(raw, [], options);
    motescale.parseAcceptanceReading({ ...raw, litres: next(9000) }, [], options);
  }
  // one mistake: of several the first is told, and engines have orders of their own
  for (const given of times) motescale.parseReading({ time: given, celsius: 41 });
  for (const given of figures) for (const name of quantities) motescale.parseReading({ [name]: given });
  for (const given of counts)
    motescale.parseReading({ counts: { sizing: 'iso11171', sizes: [4, 6], perMl: [5000, given] } });
  for (const given of codes) motescale.parseReading({ codes: { iso4406: given } });
  for (const given of plain) motescale.parseMonitorReading({ time, others: { litres: given } });
  spoil(motescale.parseReading, [{ celsius: 41 }]);
  spoil(motescale.parseMonitorReading, [{ time, celsius: 41 }]);
  spoil(motescale.parseAcceptanceReading, [{ time, celsius: 41 }]);
}
