/**
 * A fortnight of an invented lock-gate power unit, from a fixed seed: steady, then a filter gives way, then a new one;
 * with a dropout.
 */
import { classify, iso4406 } from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import type { ReportReading } from '../../../src/report/index.ts';

const start = Date.UTC(2026, 10, 2);
const hour = 3600000;

export function sampleReadings(): ReportReading[] {
  let seed = 7;
  const noise = () => {
    seed = (seed * 48271) % 2147483647;
    return seed / 2147483647 - 0.5;
  };
  const readings: ReportReading[] = [];
  for (let i = 0; i < 336; i += 1) {
    if (i > 120 && i < 136) continue;
    const worse = i < 190 ? 1 : i < 260 ? Math.exp((i - 190) / 32) : Math.max(1, 9 * Math.exp(-(i - 260) / 9));
    const level = worse * Math.exp(0.25 * noise() + 0.12 * Math.sin((i * Math.PI) / 12));
    const quality = i % 83 === 40 ? 'bad' : i % 47 === 20 ? 'uncertain' : 'good';
    const air = quality === 'bad' ? 60 : 1;
    const counts = cumulativeCounts({
      4: Math.round(1700 * level * air),
      6: Math.round(410 * level * air * Math.exp(0.1 * noise())),
      14: Math.round(38 * level * air * Math.exp(0.3 * noise()) * 10) / 10,
    });
    const text = classify(iso4406, counts).text;
    const verdict = quality === 'bad' ? 'not to be relied on' : level > 1.5 ? 'above target' : 'in target';
    readings.push({ time: start + i * hour, counts, codes: { 'ISO 4406': text }, quality, verdict });
  }
  return readings;
}
