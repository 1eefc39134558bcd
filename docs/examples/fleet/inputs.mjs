// The inputs of the trial, the same at every run: readings with counts and with a code alone, late and repeated ones,
// clocks that are wrong, commands, ticks, a change of the configuration in the middle, inputs that cannot be taken. The
// units are gates of a canal, invented.
import { cumulativeCounts } from 'motescale';

const hot = { id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 65, deadband: 3 };
const wet = { id: 'wet', type: 'high', figure: { quantity: 'waterSaturation' }, setpoint: 0.8, deadband: 0.05 };
const dirty = { id: 'dirty', type: 'high', figure: { code: 'iso4406' }, setpoint: '18/16/13', deadband: 1 };
const spring = {
  codes: [
    { table: 'iso4406', target: '18/16/13' },
    { table: 'nas1638', target: '8' },
  ],
  alarms: [hot, wet, dirty],
  follow: [{ id: '4 µm', figure: { perMlAt: 4 }, blockMs: 600000, least: 200 }],
};

/** Each may be in use at some unit. */
export const configurations = {
  spring,
  summer: {
    ...spring,
    alarms: [
      { ...hot, setpoint: 60 },
      wet,
      dirty,
      { id: 'cold', type: 'low', figure: { quantity: 'celsius' }, setpoint: 52 },
    ],
  },
};

/** The library's version in the records that some units begin with: one of before. */
export const earlierLibrary = '0.1.9';
export const beginsEarlier = (i) => i % 50 === 7;

export const unitName = (i) => `gate-${String(i).padStart(6, '0')}`;

/** The same numbers from 0 to 1 for the same seed (mulberry32, T. Ettinger, public domain; from memory). */
function randomOf(seed) {
  let a = seed;
  return () => {
    a = (a + 0x6d2b79f5) | 0;
    let t = Math.imul(a ^ (a >>> 15), 1 | a);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

const minute = 60000;
/** A message that was cut off. */
const noJson = '{"time":';
const start = 1.7e12;

/** The inputs of unit i, in the order of their numbers, each { unit, seq, text }. */
export function inputsOf(i, count) {
  const random = randomOf(i * 7919 + 1);
  const unit = unitName(i);
  const payloads = [];
  let clock = 0;
  for (let k = 0; k < count; k += 1) {
    const time = start + k * 2 * minute;
    const drawn = random();
    const before = payloads[k - 1];
    if (k === count >> 1) payloads.push({ kind: 'configuration', configuration: 'summer', time });
    else if (drawn < 0.04) payloads.push({ kind: 'tick', time });
    else if (drawn < 0.08)
      payloads.push({ kind: 'command', time, alarm: 'hot', command: 'acknowledge', by: 'gate keeper' });
    else if (drawn < 0.09) payloads.push({ kind: 'command', time, alarm: 'wet', command: 'shelve', forMs: 5 * minute });
    else if (drawn < 0.11 && before !== undefined) payloads.push(before);
    else if (drawn < 0.115) payloads.push({ time, celcius: 55 });
    else if (drawn < 0.12) payloads.push(null);
    else {
      // a clock that is wrong for one reading, and one that stays set back
      if (drawn > 0.99) clock -= 6 * 60 * minute;
      const wrong = drawn > 0.975 && drawn < 0.985 ? 3 * 24 * 60 * minute : 0;
      const late = drawn > 0.12 && drawn < 0.15 ? -3 * minute : 0;
      payloads.push(readingAt(time + clock + wrong + late, random));
    }
  }
  return payloads.map((payload, k) => ({
    unit,
    seq: k + 1,
    text: payload === null ? noJson : JSON.stringify(payload),
  }));
}

function readingAt(time, random) {
  const celsius = Math.round((50 + 20 * random()) * 10) / 10;
  const waterSaturation = Math.round(random() * 100) / 100;
  const common = { time, celsius, waterSaturation, mlPerMin: 60, kPa: 300 };
  if (random() < 0.1) return { ...common, codes: { iso4406: random() < 0.2 ? '20/17/14' : '17/15/12' } };
  const four = 1800 * (0.5 + random()) * (random() > 0.95 ? 4 : 1);
  const raw = { 4: 25 * four, 6: 25 * 0.22 * four, 14: 25 * 0.02 * four };
  const counts = cumulativeCounts(Object.fromEntries(Object.entries(raw).map(([size, n]) => [size, Math.round(n)])), {
    volumeMl: 25,
  });
  return { ...common, counts };
}

/**
 * All inputs as units send them, in pieces of a thousand: each twentieth twice, and of some units two in the wrong
 * order.
 */
export function* roundsOf(units, count) {
  const own = Array.from({ length: units }, (_, i) => inputsOf(i, count));
  for (let k = 0; k < count; k += 1) {
    const round = own.flatMap((inputs, i) => {
      const wrong = i % 100 === 3 ? (k % 2 === 0 ? k + 1 : k - 1) : k;
      const input = inputs[wrong];
      return (i + k) % 20 === 0 ? [input, input] : [input];
    });
    for (let from = 0; from < round.length; from += 1000) yield round.slice(from, from + 1000);
  }
}

/** What an input is, for the count that the trial prints. */
export function kindOf(text) {
  if (text === noJson) return 'no JSON';
  const { kind, codes, celcius } = JSON.parse(text);
  if (celcius !== undefined) return 'misspelt';
  return kind ?? (codes === undefined ? 'counts' : 'code alone');
}
