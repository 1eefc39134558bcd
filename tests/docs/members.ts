/**
 * The table of docs/readings.md: every member of a reading, and the findings that cannot be made without it. Members
 * come from the rule that reads a reading, findings from readings that lack one member each.
 */
import {
  assessReading,
  type FindingCode,
  type OwnReadingLimits,
  type Quality,
  type Reading,
} from '../../src/reading/index.ts';
import { readingRule } from '../../src/reading/rules.ts';

type Counts = NonNullable<Reading['counts']>;
type Member = keyof Reading | `counts.${keyof Counts}`;

const ms = 'ms since 1970';

/** Each with what it is, and the findings about it that are made, or left, without a word in `unchecked`. */
const members: Readonly<Record<Member, readonly [what: string, ...told: FindingCode[]]>> = {
  time: [`when the measurement ended, ${ms}`],
  receivedAt: [`when the reading came in, by the clock of the host, ${ms}`],
  counts: ['counts of a size and larger:', 'count_missing'],
  'counts.sizing': ["how sizes are meant: `'iso11171'` for µm(c), `'iso11171b'`, `'iso4402'`, `'microscope'`"],
  'counts.sizes': ['µm, ascending, at most 32'],
  'counts.perMl': ['per mL, one for each size'],
  'counts.counted': ['particles counted, one for each size', 'few_particles'],
  'counts.volumeMl': ['the volume they were counted in, mL'],
  'counts.dilution': ['parts of mixture for each part of oil'],
  codes: [
    "codes by the id of their table, `{ iso4406: '18/16/13' }`",
    'code_disagrees',
    'code_unreadable',
    'code_rises_with_size',
  ],
  mlPerMin: ['flow through the sensor, mL/min', 'flow_unknown'],
  measuringSeconds: ['how long it counted, s'],
  kPa: ['gauge pressure in the sensor, kPa', 'figure_implausible'],
  celsius: ['oil temperature at the sensor, °C', 'values_stuck', 'figure_implausible'],
  mm2PerS: ['kinematic viscosity at that temperature, mm²/s', 'figure_implausible'],
  waterSaturation: ['share of saturation with water, 0.45 for 45 %', 'values_stuck'],
  coldestCelsius: ['the coldest the oil has been since the last reading, °C'],
  flushedMl: ['oil passed since the line was opened, mL'],
  calibratedAt: [`when the counter was last calibrated, ${ms}`],
  mode: ['what the machine does, a word of your own, for [alarms](alarms.md)'],
  qualities: ["what the instrument says of its figures, `{ counts: 'bad' }`", 'flagged_by_instrument', 'flow_unknown'],
  others: ['up to 64 figures of your own by name: a number, or `{ value, quality }`'],
};

const start = 1795593600000;

/** A reading that lets everything be checked. */
function wholeReading(i: number): Reading & { readonly qualities: Readonly<Record<string, Quality>> } {
  const counts: Counts = {
    sizing: 'iso11171',
    sizes: [4, 6, 14],
    perMl: [1890 + i, 402 + i, 33],
    counted: [18900 + 10 * i, 4020 + 10 * i, 330],
    volumeMl: 10,
    dilution: 1,
  };
  return {
    time: start + i * 600000,
    receivedAt: start + i * 600000,
    counts,
    codes: { iso4406: '18/16/12' },
    mlPerMin: 60,
    measuringSeconds: 10,
    kPa: 40,
    celsius: 40 + i,
    mm2PerS: 46,
    waterSaturation: 0.3 + i / 1000,
    coldestCelsius: 30,
    flushedMl: 9000,
    calibratedAt: start - 1e9,
    mode: 'lifting',
    qualities: { counts: 'good' },
    others: { litres: 380 },
  };
}

const limits: OwnReadingLimits = {
  mlPerMin: { low: 1, high: 100 },
  leastKPa: 1,
  mostMm2PerS: 500,
  celsius: { low: 0, high: 90 },
  coincidencePerMl: 90000,
  solubility: { b: 1500 },
  flushMl: 100,
  mostKPa: 1000,
  countedShare: 1,
  calibrationMs: 1e12,
};
const withLine: OwnReadingLimits = { ...limits, settleMs: 1000, viscosityLine: { a: 9, b: 3.5, form: 'short' } };

function without(reading: Reading, member: Member): Reading {
  const [name, part] = member.split('.') as [keyof Reading, string?];
  const lacks = (object: object, key: string) =>
    Object.fromEntries(Object.entries(object).filter(([known]) => known !== key));
  return part === undefined ? lacks(reading, name) : { ...reading, counts: lacks(reading.counts ?? {}, part) as never };
}

/** What stands in `unchecked` of the last of ten readings. */
function uncheckedOf(own: OwnReadingLimits, made: (reading: Reading) => Reading): readonly FindingCode[] {
  const readings = Array.from({ length: 10 }, (_, i) => made(wholeReading(i)));
  return assessReading(readings[9] as Reading, own, readings.slice(0, 9)).unchecked;
}

/** What cannot be found where a member is left out, and can be where it is there. */
function lostWithout(member: Member): FindingCode[] {
  const optional = ['counted', 'volumeMl', 'dilution'];
  if (member.startsWith('counts.') && !optional.includes(member.slice(7))) return [];
  const whole = (reading: Reading) => reading;
  // particles counted are told, or follow from the volume, or from flow and time: each by itself
  const shown = (reading: Reading) => without(reading, 'counts.counted');
  const untimed = (reading: Reading) => without(shown(reading), 'measuringSeconds');
  const timed = (reading: Reading) => without(shown(reading), 'counts.volumeMl');
  const ways = [
    [limits, whole],
    [withLine, whole],
    [withLine, untimed],
    [withLine, timed],
  ] as const;
  return ways.flatMap(([own, base]) => {
    const left = uncheckedOf(own, base);
    return uncheckedOf(own, (reading) => without(base(reading), member)).filter((code) => !left.includes(code));
  });
}

/** The members by the rule, in its order, those of counts below `counts`. */
function membersByRule(): Member[] {
  const { counts } = readingRule.members as { counts: typeof readingRule };
  const parts = Object.keys(counts.members).map((part) => `counts.${part}`);
  return Object.keys(readingRule.members).flatMap((name) =>
    name === 'counts' ? [name, ...parts] : [name],
  ) as Member[];
}

export function membersTable(): string {
  const rows = membersByRule().map((member) => {
    const known = members[member];
    if (known === undefined) throw new Error(`${member} has no word in tests/docs/members.ts`);
    const [what, ...told] = known;
    const findings = [...new Set([...lostWithout(member), ...told])].map((code) => `\`${code}\``);
    return `| \`${member}\` | ${what} | ${findings.join(', ')} |`;
  });
  return ['| member | what, and its unit | findings |', '| --- | --- | --- |', ...rows].join('\n');
}
