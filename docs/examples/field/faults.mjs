// What goes wrong in the field year. Each fault changes what is delivered of ten readings or so, and `told` is the word
// that must be heard: a finding, an event of the monitor, or what was said when the JSON was read.
import { cumulative } from './healthy.mjs';
import { day, hour, minute } from './unit.mjs';

/** Each of the readings changed, one by one; `frozen` is the last one before. */
const each = (change) => (given, frozen) => given.map((reading, n) => ({ ...reading, ...change(reading, n, frozen) }));
/** Particles counted changed, size by size. */
const counted = (change) =>
  each(({ counts }, _n, frozen) => ({
    counts: cumulative(counts.counted.map((n, i) => change(n, i, counts.counted, frozen.counts.counted))),
  }));

/** Read every minute while it lasts: what swings from hour to hour is no fault. */
const everyMinute = (change) => (given) =>
  given.map((reading, n) => ({ ...reading, ...change(n), time: given[0].time + n * minute }));

/** The faults of instruments, one after the other. */
const instrument = [
  [
    'no flow, and the oil hot',
    'no_flow',
    each(({ celsius }) => ({ mlPerMin: 0, celsius: celsius + 50, mm2PerS: 7.6 })),
  ],
  ['all counts stuck', 'values_stuck counts', each((_r, _n, frozen) => ({ counts: frozen.counts }))],
  [
    'two of six channels frozen',
    'channels_stuck',
    counted((n, i, _all, frozen) => (i === 2 || i === 3 ? frozen[i] : n)),
  ],
  ['a channel like its neighbour', 'channels_equal', counted((n, i, all) => (i === 2 ? all[1] : n))],
  ['counter died to zero', 'no_particles', counted(() => 0)],
  ['its large sizes died to zero', 'channel_empty', counted((n, i) => (i < 3 ? n : 0))],
  ['water sensor frozen', 'values_stuck waterSaturation', each((_r, _n, { waterSaturation }) => ({ waterSaturation }))],
  ['thermometer frozen', 'values_stuck celsius', each((_r, _n, { celsius }) => ({ celsius }))],
  [
    'no count at one size',
    'count_missing',
    each(({ counts }) => ({
      counts: { ...counts, counted: undefined, perMl: counts.perMl.map((n, i) => (i === 1 ? null : n)) },
    })),
  ],
  ['only a code comes', 'code alone', each(() => ({ counts: undefined, codes: { iso4406: '16/14/11' } }))],
  ['counts rise with size', 'counts_rise_with_size', counted((n, i, all) => (i === 3 ? all[2] + 40 : n))],
  [
    'counted too short',
    'few_particles',
    each(({ counts }) => ({
      counts: cumulative(
        counts.counted.map((n) => Math.round(n / 100)),
        0.25,
      ),
      measuringSeconds: 0.6,
    })),
  ],
  ['code and counts differ', 'code_disagrees', each(() => ({ codes: { iso4406: '22/20/17' } }))],
  ['flags its own counts', 'flagged_by_instrument', each(() => ({ qualities: { counts: 'bad' } }))],
  ['large air bubbles', 'flat_size_distribution', counted((n) => n + 200 * 25)],
  ['weak air in dirty oil', 'flat_size_distribution', counted((n) => 40 * n + 80 * 25)],
  ['pulsating flow', 'flow_pulsating', everyMinute((n) => ({ mlPerMin: n % 2 === 0 ? 34 : 66 }))],
  ['little flow', 'flow_low', each(() => ({ mlPerMin: 25, measuringSeconds: 120 }))],
  ['much flow', 'flow_high', each(() => ({ mlPerMin: 100, measuringSeconds: 30 }))],
  ['over-pressure', 'pressure_high', each(() => ({ kPa: 450 }))],
  ['too little pressure', 'pressure_low', each(() => ({ kPa: 4 }))],
  ['flow meter reads half', 'volume_disagrees', each(({ mlPerMin }) => ({ mlPerMin: mlPerMin / 2 }))],
  ['flow meter flags its flow', 'flow_unknown', each(() => ({ qualities: { mlPerMin: 'bad' } }))],
  ['thermometer 12 °C off', 'viscosity_off_line', each(({ celsius }) => ({ celsius: celsius + 12 }))],
  ['thermometer broken', 'figure_implausible', each(() => ({ celsius: 850 }))],
  ['another fluid', 'viscosity_off_line', each(({ mm2PerS }) => ({ mm2PerS: mm2PerS * 1.48 }))],
  ['cold and thick', 'viscosity_high', each(() => ({ celsius: 8, mm2PerS: 290 }))],
  ['too cold for the sensor', 'temperature_low', each(() => ({ celsius: 3, mm2PerS: 420 }))],
  ['too hot for the sensor', 'temperature_high', each(() => ({ celsius: 82, mm2PerS: 11 }))],
  ['more than can be told apart', 'above_coincidence_limit', counted((n) => n * 90)],
  ['free water', 'free_water_likely', each((_r, n) => ({ waterSaturation: 0.96 + n / 1000 }))],
  [
    'droplets from the night',
    'cooled_below_saturation',
    each((_r, n) => ({ waterSaturation: 0.6 + n / 500, coldestCelsius: 8 })),
  ],
  ['line not flushed', 'line_not_flushed', each(() => ({ flushedMl: 60 }))],
  ['calibration overdue', 'calibration_overdue', each(({ time }) => ({ calibratedAt: time - 401 * day }))],
];

/** The pump stands for the first two readings; then one comes every minute. */
const afterStop = (given) =>
  given.map((reading, n) => ({
    ...reading,
    ...(n < 2 ? { mlPerMin: 0 } : { time: given[1].time + (n - 1) * minute }),
  }));
/** From the third reading on; the host's clock is known from the first. */
const hostKnown = (change) =>
  each((reading, n) => ({ receivedAt: reading.time, ...(n < 2 ? {} : change(reading, n - 2)) }));

/** The faults of clocks and networks. */
const coming = [
  ['start-up', 'start_up', afterStop, { lead: 2 }],
  ['oil that stood in the line', 'standing_oil', afterStop, { lead: 2 }],
  ['one reading a year ahead', 'set_aside', each(({ time }, n) => (n === 0 ? { time: time + 365 * day } : {}))],
  [
    'the same, host clock known',
    'clock_set',
    hostKnown(({ time }, n) => (n === 0 ? { time: time + 365 * day } : {})),
    { lead: 2 },
  ],
  ['clock 4.5 h back', 'clock_set', each(({ time }) => ({ time: time - 4.5 * hour }))],
  ['the same, host clock known', 'clock_set', hostKnown(({ time }) => ({ time: time - 4.5 * hour })), { lead: 2 }],
  ['clock an hour ahead', 'clock_ahead', each(({ time }) => ({ time: time + hour, receivedAt: time }))],
  ['a boot at 1970', 'out_of_range', each((_r, n) => ({ time: n * hour }))],
  ['time in seconds', 'out_of_range', each(({ time }) => ({ time: time / 1000 }))],
  ['each reading twice', 'repeated', (given) => given.flatMap((reading) => [reading, reading])],
  [
    'one with other figures',
    'contradicted',
    (given) => given.flatMap((r, n) => (n === 0 ? [r, { ...r, celsius: 50 }] : [r])),
  ],
  ['a late reading', 'late', ([first, second, ...rest]) => [second, first, ...rest], { lead: 1 }],
  ['one 40 h late', 'too_late', each(({ time }, n) => (n === 0 ? { time: time - 40.5 * hour } : {}))],
  [
    'network down, then a burst',
    'late',
    (given) => [...given].reverse().map((reading) => ({ ...reading, receivedAt: given.at(-1).time + minute })),
    { lead: 1 },
  ],
  [
    'a gap of four days, ticks',
    'readings_stale',
    (given) => given.map(({ time }) => ({ kind: 'tick', time })),
    { lasts: 96 },
  ],
  ['a misspelt member', 'unknown_option', each(({ celsius }) => ({ celsius: undefined, celcius: celsius }))],
  ['digits as text, gaps', 'wrong_type', each(({ celsius }) => ({ celsius: String(celsius), kPa: null }))],
];

/** How many hours lie between the beginnings of two faults. */
const apart = 170;

/** All of them, each with its place in the year; `lead`: so many readings of the ten come before the fault shows. */
export const faults = [...instrument, ...coming].map(([name, told, deliver, { lasts = 10, lead = 0 } = {}], i) => ({
  ...{ name, told, deliver, lasts, lead },
  from: 240 + i * apart,
}));
