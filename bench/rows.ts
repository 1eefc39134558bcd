/** The rows of bench/RESULTS.md. */
import { execFileSync } from 'node:child_process';
import papaparse from 'papaparse';
import * as z from 'zod/mini';
import {
  as4059Cumulative,
  as4059Differential,
  type ClassTable,
  classify,
  classifyColumns,
  iso4406,
  nas1638,
  scaleNumbers,
} from '../src/codes/index.ts';
import type { CumulativeCounts } from '../src/counts/index.ts';
import { advanceMonitor, prepareMonitor, startMonitor } from '../src/monitor/index.ts';
import { parseCsv, periodFigures, trendChart } from '../src/report/index.ts';
import { parseReading } from '../src/schema/index.ts';
import { senSlope } from '../src/trend/index.ts';
import { classifyByHand } from './byHand.ts';
import { inDuktape } from './duktape.ts';
import { measure } from './measure.ts';
import { source } from './samples.ts';

type Row = readonly [what: string, beside: string, time: string, ratio: string, wanted: string, kept: string];

const root = `${process.cwd()}/`;
const told = (us: number): string =>
  us >= 1e6 ? `${(us / 1e6).toFixed(2)} s` : us >= 1000 ? `${(us / 1000).toFixed(1)} ms` : `${us.toFixed(2)} µs`;
const spread = ([median, least, most]: readonly [number, number, number]): string =>
  `${median.toFixed(2)} (${least.toFixed(2)} to ${most.toFixed(2)})`;
const verdict = (kept: boolean): string => (kept ? 'kept' : '**missed**');

let state = 7;
function next(): number {
  state = (state * 48271) % 2147483647;
  return state / 2147483647;
}

/** Beside another one in the same rounds, with a bound on the ratio. */
function beside(
  what: string,
  other: string,
  calls: [() => unknown, () => unknown],
  each: number[],
  most?: number,
): Row {
  const { microseconds, ratios } = measure(calls, each, 9);
  const ratio = ratios[0] as readonly [number, number, number];
  const wanted = most === undefined ? '' : `${most} x`;
  return [
    what,
    other,
    told(microseconds[0] as number),
    spread(ratio),
    wanted,
    most === undefined ? '' : verdict(ratio[0] <= most),
  ];
}

/** Beside another one, with a bound on the time. */
function within(what: string, other: string, calls: [() => unknown, () => unknown], each: number[], most: number): Row {
  const { microseconds, ratios } = measure(calls, each, 9);
  const time = microseconds[0] as number;
  return [
    what,
    other,
    told(time),
    spread(ratios[0] as readonly [number, number, number]),
    told(most),
    verdict(time <= most),
  ];
}

function columns(): Row[] {
  const perMl = Float64Array.from({ length: 3_000_000 }, () => 10 ** (8 * next() - 2));
  const numbers = new Uint8Array(perMl.length);
  const limits = iso4406.limits.map(([limit]) => limit as number);
  const ours = () => scaleNumbers(perMl, numbers);
  const added = () => {
    let sum = 0;
    for (let i = 0; i < perMl.length; i += 1) sum += perMl[i] as number;
    return sum;
  };
  const found = () => {
    for (let i = 0; i < perMl.length; i += 1) numbers[i] = limits.findIndex((most) => (perMl[i] as number) <= most);
  };
  const formula = () => {
    for (let i = 0; i < perMl.length; i += 1) numbers[i] = Math.ceil(Math.log2((perMl[i] as number) / 0.01));
  };
  const one = [1, 1];
  const result = [
    beside('`scaleNumbers`, 3 million counts', 'adding the column up', [ours, added], one, 2.5),
    beside('`scaleNumbers`, 3 million counts', '`findIndex` over the limits', [ours, found], one),
  ];
  const right = Uint8Array.from(scaleNumbers(perMl, new Uint8Array(perMl.length)));
  formula();
  let wrong = 0;
  for (let i = 0; i < right.length; i += 1) if (right[i] !== numbers[i] && (right[i] as number) < 29) wrong += 1;
  const share = ((100 * wrong) / right.length).toFixed(1);
  const name = `\`ceil(log2(count / 0.01))\`, wrong for ${share} % of the counts`;
  const few = Float64Array.of(1890, 402, 33);
  const third = Math.floor(perMl.length / 3);
  const falling = (size: number) => perMl.slice(0, third).map((count) => count / size);
  const sizes = { 6: falling(1), 14: falling(8), 21: falling(64) };
  const classes = (table: ClassTable) => () => classifyColumns(table, sizes);
  const into = new Uint8Array(3);
  return [
    ...result,
    beside('`scaleNumbers`, 3 million counts', name, [ours, formula], one),
    beside(
      '`classifyColumns(as4059Cumulative)`, as many',
      '`scaleNumbers`',
      [classes(as4059Cumulative), ours],
      one,
      10,
    ),
    beside('`classifyColumns(nas1638)`, as many', '`scaleNumbers`', [classes(nas1638), ours], one, 10),
    within(
      '`scaleNumbers`, three counts',
      '`findIndex`',
      [
        () => scaleNumbers(few, into),
        () => {
          for (let i = 0; i < 3; i += 1) into[i] = limits.findIndex((most) => (few[i] as number) <= most);
        },
      ],
      [20000, 20000],
      1,
    ),
  ];
}

const sample = source();
const byHand = () => classifyByHand(sample());

function samples(): Row[] {
  const of = (table: ClassTable) => () => classify(table, sample());
  const hand = '`classify(iso4406)` by hand';
  const each = [5000, 5000];
  return [
    within('`classify(iso4406)`', hand, [of(iso4406), byHand], each, 1),
    within('`classify(nas1638)`', hand, [of(nas1638), byHand], each, 1),
  ];
}

const high = { type: 'high', setpoint: 65, deadband: 3 } as const;
const tables = [iso4406, nas1638, as4059Cumulative, as4059Differential];
const small = prepareMonitor({
  codes: [{ table: iso4406, target: '18/16/13' }],
  alarms: [
    { id: 'dirty', type: 'high', figure: { code: 'iso4406' }, setpoint: '18/16/13' },
    { id: 'hot', figure: { quantity: 'celsius' }, ...high },
  ],
});
const large = prepareMonitor({
  codes: tables.map((table) => ({ table })),
  alarms: Array.from({ length: 8 }, (_, i) => ({ id: `hot ${i}`, figure: { quantity: 'celsius' }, ...high }) as const),
  follow: Array.from({ length: 4 }, (_, i) => ({ id: `at ${i}`, figure: { perMlAt: 4 + i }, blockMs: 3600000 })),
});

function stepping(prepared: typeof small, units: number, sampled = sample): () => unknown {
  const states = Array.from({ length: units }, () => startMonitor(prepared));
  let i = 0;
  return () => {
    i += 1;
    const unit = i % units;
    const reading = { time: i * 60000, counts: sampled(), celsius: 50 + (i % 7), kPa: 300, mlPerMin: 60 };
    states[unit] = advanceMonitor(prepared, states[unit] as (typeof states)[number], reading).state;
  };
}

function monitors(): Row[] {
  const each = [2000, 2000];
  const one = stepping(small, 1);
  return [
    within('`advanceMonitor`, one table, two alarms', 'by hand', [one, byHand], each, 4),
    beside('the same, two of six sizes dead', 'none dead', [stepping(small, 1, source([38, 70])), one], each),
    within('`advanceMonitor`, 4 tables, 8 alarms, 4 followed', 'by hand', [stepping(large, 1), byHand], each, 20),
    beside('a reading among 1,000 units', 'among one', [stepping(small, 1000), stepping(small, 1)], each, 1.2),
  ];
}

function trends(): Row[] {
  const series = (length: number) => {
    const times = Array.from({ length }, (_x, i) => i * 105000 + Math.floor(next() * 30000));
    return [times, times.map((_time, i) => 17 + next() + Math.sin(i / 131) + i / length)] as const;
  };
  const [times, values] = series(262800);
  const [fewTimes, fewValues] = series(26280);
  const { microseconds, ratios } = measure(
    [() => senSlope(times, values), () => senSlope(fewTimes, fewValues)],
    [1, 1],
    3,
  );
  const [time, less] = microseconds as [number, number];
  const exponent = Math.log10(time / less);
  const kept = verdict(time <= 1e6 && exponent <= 1.15);
  const name = '`senSlope`, 262,800 points';
  const wanted = '1 s, exponent 1.15';
  const ratio = `${spread(ratios[0] as readonly [number, number, number])}, exponent ${exponent.toFixed(2)}`;
  return [[name, 'a tenth of the points', told(time), ratio, wanted, kept]];
}

function files(): Row[] {
  const csv = Array.from({ length: 105120 }, (_, i) => {
    const six = 300 + Math.floor(200 * next());
    return `${1.7e12 + i * 300000},${10 * six},${six},${Math.floor(six / 9)},45.2,312,60`;
  }).join('\n');
  const text = `time,4,6,14,celsius,kPa,mlPerMin\n${csv}`;
  const step = () => {
    let last = startMonitor(small);
    for (const row of parseCsv(text).rows) {
      const [time, four, six, fourteen, celsius, kPa, mlPerMin] = row as number[];
      const seen = {
        sizing: 'iso11171',
        sizes: [4, 6, 14],
        perMl: [four, six, fourteen],
      } as unknown as CumulativeCounts;
      const input = { time, counts: seen, celsius, kPa, mlPerMin } as Parameters<typeof advanceMonitor>[2];
      last = advanceMonitor(small, last, input).state;
    }
    return last;
  };
  const plain = () => papaparse.parse(text, { header: false, dynamicTyping: true });
  const { microseconds, ratios } = measure([step, plain], [1, 1], 3);
  const ratio = ratios[0] as readonly [number, number, number];
  const name = 'a year of one unit every 5 minutes: read, assessed, classified, two alarms';
  return [[name, 'papaparse alone', told(microseconds[0] as number), spread(ratio), '2 x', verdict(ratio[0] <= 2)]];
}

function reports(): Row[] {
  const readings = Array.from({ length: 150_000 }, (_, i) => ({ time: 1.7e12 + i * 60000, counts: sample() }));
  const drawn = () => trendChart(readings, { target: '18/16/13', alarm: '20/18/15' });
  const summed = () => periodFigures(readings, { target: '18/16/13' });
  const { microseconds } = measure([drawn, summed], [1, 1], 3);
  const names = ['`trendChart`, 150,000 readings', '`periodFigures`, as many'];
  return names.map((name, i) => {
    const time = microseconds[i] as number;
    return [name, '', told(time), '', told(2e6), verdict(time <= 2e6)];
  });
}

function schemas(): Row[] {
  const list = z.array(z.number().check(z.minimum(0)));
  const shape = z.object({
    ...{ time: z.number(), celsius: z.number(), kPa: z.number(), mlPerMin: z.number().check(z.minimum(0)) },
    counts: z.object({ sizing: z.string(), sizes: list, perMl: list, counted: list, volumeMl: z.number() }),
  });
  const reading = JSON.parse(
    JSON.stringify({ time: 1e12, counts: sample(), celsius: 50, kPa: 300, mlPerMin: 60 }),
  ) as unknown;
  const each = [2000, 2000];
  const parsed = [() => parseReading(reading), () => shape.parse(reading)] as [() => unknown, () => unknown];
  const file = `${root}dist/schema.js`;
  const code = `const t=performance.now();await import(${JSON.stringify(file)});console.log(performance.now()-t)`;
  const load = () => Number(execFileSync(process.execPath, ['--input-type=module', '-e', code], { encoding: 'utf8' }));
  const loads = [load(), load(), load(), load(), load()].sort((a, b) => a - b);
  const middle = loads[2] as number;
  const span = `(${loads[0]?.toFixed(0)} to ${loads[4]?.toFixed(0)} ms)`;
  return [
    beside('`parseReading`', 'a shape of zod/mini with the same members', parsed, each, 2),
    ['import of `motescale/schema`', '', told(1000 * middle), span, '60 ms', verdict(middle <= 60)],
  ];
}

function gateways(): Row[] {
  const took = inDuktape();
  const row = (what: string, ms: number | undefined, most: number): Row =>
    ms === undefined
      ? [what, '', 'not measured: no `duk` here', '', told(1000 * most), '']
      : [what, '', told(1000 * ms), '', told(1000 * most), verdict(ms <= most)];
  return [
    row('Duktape: `classify(iso4406)` 10,000 times', took?.tenThousandClassifications, 1000),
    row('Duktape: `advanceMonitor`, one table, two alarms', took?.monitorStep, 1),
  ];
}

export function rows(): Row[] {
  return [
    ...columns(),
    ...samples(),
    ...monitors(),
    ...trends(),
    ...files(),
    ...reports(),
    ...schemas(),
    ...gateways(),
  ];
}
