/**
 * Nothing that a person reads goes around the table of texts: with made-up words no English is left in charts,
 * summaries, messages, rows, sheets and errors, and with German neither.
 */
import { describe, expect, test } from 'vitest';
import { codeUncertainty, gost17216, iso4406, nas1638, standardTables } from '../../../src/codes/index.ts';
import { cumulativeCounts } from '../../../src/counts/index.ts';
import { germanTexts } from '../../../src/german/index.ts';
import {
  advanceMonitor,
  type MonitorEvent,
  prepareMonitor,
  resumeMonitor,
  startMonitor,
} from '../../../src/monitor/index.ts';
import { assessReading, type Finding, findingText } from '../../../src/reading/index.ts';
import { wrapped } from '../../../src/report/charts/textWidth.ts';
import {
  cleanUpChart,
  countBuckets,
  type EventWord,
  englishTexts,
  errorText,
  messageOf,
  periodFigures,
  periodSummary,
  probabilityChart,
  reportRows,
  sampleSheet,
  sheetText,
  sizeChart,
  type Texts,
  trendChart,
} from '../../../src/report/index.ts';
import { standardNames } from '../../../src/report/messages/figureTexts.ts';
import { paragraph } from '../../../src/report/textLayout.ts';
import { drawn, textsIn } from './drawn.ts';
import { sampleReadings } from './sampleReadings.ts';

/** Every text of English with its letters for others; places stay. */
function madeUp<T>(value: T): T {
  if (typeof value === 'string') {
    const parts = value.split(/(\{\w+\})/);
    return parts.map((part, i) => (i % 2 === 1 ? part : part.replace(/[A-Za-z]/g, 'ж'))).join('') as T;
  }
  return Object.fromEntries(Object.entries(value as object).map(([key, member]) => [key, madeUp(member)])) as T;
}
const inventedAll = madeUp(englishTexts);
// columns of one name would be one column
const invented: Texts = { ...inventedAll, rows: { ...inventedAll.rows, verdict: 'жжж', arrival: 'ж' } };

/**
 * What is a name or a sign and no word: standards, sizes, zones, what the caller gave, and months, which Vega writes.
 */
const named = /ISO|NAS|UTC|µm\([cb]\)|motescale|iso\d+|ANSI|SAE|AIA|\bNov\b|\bJan\b/.source;
const given = /\bhot\b|\bgate\b|\bpump\b|\bspeed\b|counts\[\d\]|\{|\}/.source;
const signs = new RegExp(`${named}|${given}`, 'g');
function englishIn(text: string): string[] {
  return text.replace(signs, ' ').match(/[A-Za-zÄÖÜäöüß]{2,}/g) ?? [];
}

/** Words of all English templates that are none in German. */
function wordsOf(value: unknown): string[] {
  if (typeof value === 'string') return value.replace(/\{\w+\}/g, ' ').match(/[A-Za-zÄÖÜäöüß]{2,}/g) ?? [];
  return Object.values(value as object).flatMap(wordsOf);
}
const inGerman = new Set(wordsOf(germanTexts).map((word) => word.toLowerCase()));
const onlyEnglish = new Set(
  wordsOf({ ...englishTexts, language: '' })
    .map((word) => word.toLowerCase())
    .filter((word) => !inGerman.has(word)),
);

const all = sampleReadings().map(({ verdict, ...reading }) => reading);
const raw = cumulativeCounts({ 4: 12500, 6: 2120, 14: 19, 21: 0 }, { volumeMl: 10 });
const tank = {
  litres: 600,
  litresPerMin: 40,
  counts: cumulativeCounts({ 4: 42000, 6: 9400, 14: 690 }),
  beta: [20, 75, 1000],
};
const events = [{ time: (all[20] as { time: number }).time, text: 'pump' }];

/** Everything that writes words, with as many of them as it can be made to say. */
const written = new Map<Texts, Promise<Record<string, string>>>();

/** All that is written in a language, once. */
function everything(texts: Texts): Promise<Record<string, string>> {
  const made = written.get(texts) ?? allOf(texts);
  written.set(texts, made);
  return made;
}

async function allOf(texts: Texts): Promise<Record<string, string>> {
  const looks = { target: '18/16/13', alarm: '20/18/15', title: 'gate', texts };
  const spoilt = all.map((r, i) => (i > 100 && i < 150 ? { ...r, quality: 'bad' as const } : r));
  const zeros = [0, 1].map((i) => ({ time: i * 3600000, counts: cumulativeCounts({ 4: i, 6: 0 }) }));
  const forecast = [{ size: 4, from: 1, now: 900, level: 2500, time: 1e9, earliest: 5e8, latest: null }];
  const many = Array.from({ length: 20 }, (_unused, i) => ({ time: i * 60000, text: 'pump' }));
  const charts = {
    trend: trendChart(spoilt, { ...looks, events }),
    'trend without a title': trendChart(zeros, { texts, forecast, events: many }),
    buckets: trendChart(countBuckets(all, { widthMs: 86400000, holdMs: 7200000 }), { texts }),
    codes: trendChart(
      all.map(({ time, codes = {} }) => ({ time, codes })),
      { texts },
    ),
    nothing: trendChart([], { texts }),
    size: sizeChart(raw, { target: '18/16/13', texts }),
    errors: sizeChart(raw, { errors: {}, texts }),
    'clean-up': cleanUpChart(tank, {
      minutes: 300,
      target: '16/14/11',
      texts,
      measured: [{ minutes: 0, counts: tank.counts }],
    }),
    never: cleanUpChart({ ...tank, ingressionPerMin: [4e7, 1e7, 4e5] }, { minutes: 60, target: '16/14/11', texts }),
    'from the start': cleanUpChart(tank, { minutes: 60, target: '24/22/20', texts }),
    probability: probabilityChart(codeUncertainty(iso4406, raw), { texts }),
  };
  const pages: Record<string, string> = {};
  for (const [name, spec] of Object.entries(charts)) {
    pages[name] = [...textsIn((await drawn(spec)).svg), spec.description].join('\n');
  }
  const lacking = cumulativeCounts({ 4: 1890, 6: 402 });
  pages.period = periodSummary(periodFigures(spoilt, { target: '18/16/13', columns: ['4', '6', '14'], events }), texts);
  pages['period of few'] = periodSummary(
    periodFigures([...all.slice(0, 2), { time: 2e12, counts: lacking }], { target: '18/16/13', events: [] }),
    texts,
  );
  pages['period of bad ones'] = periodSummary(
    periodFigures(all.map((r) => ({ ...r, quality: 'bad' as const }))),
    texts,
  );
  pages['period of one'] = periodSummary(periodFigures([{ time: 0, counts: lacking }], { target: '18/16/13' }), texts);
  const apart = [{ arrival: 'set_aside' }, { arrival: 'repeated' }, { counts: undefined, codes: {} }] as const;
  const someApart = [all[0], ...apart.map((own) => ({ ...all[0], ...own })), { time: 2e12, counts: raw }] as typeof all;
  pages['period of some'] = periodSummary(periodFigures(someApart), texts);
  const apartBy = (days: readonly number[]) => days.map((each) => ({ time: 1e12 + each * 86400000, counts: raw }));
  pages['period with a gap'] = periodSummary(periodFigures(apartBy([0, 1, 2, 40])), texts);
  pages['period with gaps'] = periodSummary(periodFigures(apartBy([0, 1, 2, 3, 40, 80])), texts);
  pages['rows of some'] = reportRows(someApart, { texts }).header.join('\n');
  pages['no period'] = periodSummary(periodFigures([], { from: 0 }), texts);
  pages.rows = reportRows(all, { texts }).header.join('\n');
  const tables = [iso4406, nas1638];
  pages.sheet = sheetText(
    sampleSheet(raw, { tables, target: '18/16/13', time: 1e12, errors: { sampling: 0.1 } }),
    texts,
  );
  pages['sheet of little'] = sheetText(sampleSheet(lacking, { tables, target: '18/16/13' }), texts);
  pages['sheet of few'] = sheetText(sampleSheet(raw, { target: '18/16/8' }), texts);
  for (const event of told) {
    const { subject, line, paragraph } = messageOf(event, texts);
    pages[`message ${event.event} ${JSON.stringify(event).length}`] = [subject, line, paragraph].join('\n');
  }
  const finding = {
    code: 'few_particles',
    quality: 'uncertain',
    affects: ['counts'],
    value: 4,
    limit: 20,
    sizes: [4, 14],
  };
  pages.finding = findingText(finding as never, texts);
  return pages;
}

const words = Object.keys(englishTexts.events.words) as EventWord[];
const figures = [
  'celsius',
  'waterSaturation',
  'waterSaturationAt 5',
  'perMlAt 6',
  'scaleNumberAt 6',
  'continuousScaleNumberAt 6',
  'kPa',
  'mlPerMin',
  'mm2PerS',
  'counts',
];
const full = {
  ...{
    time: 1e12,
    alarm: 'hot',
    followed: 'hot',
    value: 67.25,
    setpoint: 65,
    priority: 'high',
    note: 'pump',
    times: 2,
  },
  ...{
    latched: true,
    standing: true,
    silentRaises: 3,
    until: 2e12,
    since: 1e12,
    mode: 'speed',
    state: 'shelved',
    reason: 'not_latched',
  },
  ...{
    limit: 5,
    by: 'pump',
    why: 'speed',
    reading: 1e12,
    beyond: ['hot'],
    judged: [1],
    lost: [1, 2],
    direction: 'up',
    before: 1,
    after: 2,
    from: 1,
    to: 1e12,
  },
  ...{
    parameter: 'counts[4]',
    received: '-1',
    configuration: 'gate',
    kept: [],
    dropped: [],
    added: ['hot'],
    codes: ['iso4406'],
    finding: 'viscosity_off_line',
  },
};
/** What no sentence tells. */
const beside = ['priority', 'note', 'times', 'latched', 'standing', 'silentRaises', 'until', 'since', 'by', 'why'];
const bare = Object.fromEntries(Object.entries(full).filter(([name]) => !beside.includes(name)));
const told = [
  ...words.flatMap((event) => figures.map((figure) => ({ ...full, event, figure, findings: ['few_particles'] }))),
  ...words.map((event) => ({
    ...full,
    event,
    figure: 'code iso4406',
    code: '20/18/15',
    setpoint: '18/16/13',
    findings: [],
  })),
  ...words.map((event) => ({ ...bare, event })),
  ...(['rise', 'fall'] as const).flatMap((type) =>
    figures.flatMap((figure) => {
      const changed = { ...full, type, withinMs: 600000, figure };
      return [
        { ...changed, event: 'raised' },
        { ...changed, event: 'returned', latched: undefined },
      ];
    }),
  ),
] as unknown as MonitorEvent[];

describe('no English word', () => {
  test('where the texts are made up', async () => {
    const pages = await everything(invented);
    const left = Object.entries(pages).map(([name, page]) => [name, englishIn(page)] as const);
    expect(left.filter(([, found]) => found.length > 0)).toEqual([]);
    expect(Object.values(pages).every((page) => page.includes('ж'))).toBe(true);
  });

  test('in German', async () => {
    const pages = await everything(germanTexts);
    const left = Object.entries(pages).map(
      ([name, page]) => [name, englishIn(page).filter((word) => onlyEnglish.has(word.toLowerCase()))] as const,
    );
    expect(left.filter(([, found]) => found.length > 0)).toEqual([]);
  });

  test('English has them: the question can be answered with yes', async () => {
    const pages = await everything(englishTexts);
    expect(Object.values(pages).every((page) => englishIn(page).length > 0)).toBe(true);
  });
});

test('every place of an English template has its value: none is left in what is written', async () => {
  for (const texts of [englishTexts, germanTexts]) {
    for (const [name, page] of Object.entries(await everything(texts)))
      expect(page, name).not.toMatch(/\{\w+\}|undefined|NaN/);
  }
});

test('German has the places of English, text by text', () => {
  const places = (value: unknown, path: string): string[] =>
    typeof value === 'string'
      ? (value.match(/\{(?!hint|thing|rest)\w+\}/g) ?? []).sort().map((place) => `${path} ${place}`)
      : Object.entries(value as object).flatMap(([key, member]) => places(member, `${path}.${key}`));
  const unlike = new Set(places(englishTexts, ''));
  const german = new Set(places(germanTexts, ''));
  // why there is no code comes in English
  const left = ['.acceptance.not_counted.no_code {reason}'];
  expect([...unlike].filter((place) => !german.has(place))).toEqual(left);
  expect([...german].filter((place) => !unlike.has(place))).toEqual([]);
});

describe('a message', () => {
  test('has a line of at most 160 characters, and all of it in the paragraph', () => {
    const note = 'Look at the return filter and its indicator. '.repeat(10).trim();
    const event = {
      ...full,
      event: 'raised',
      alarm: 'x'.repeat(150),
      figure: 'celsius',
      note,
    } as unknown as MonitorEvent;
    const { line, paragraph } = messageOf(event);
    expect(line.length).toBeLessThanOrEqual(160);
    expect(line).toMatch(/…$/);
    expect(paragraph).toContain(note);
    for (const each of told)
      for (const texts of [englishTexts, germanTexts])
        expect(messageOf(each, texts).line.length).toBeLessThanOrEqual(160);
  });

  test('of an alarm on a code says the code', () => {
    const event = {
      time: 1e12,
      event: 'raised',
      alarm: 'dirty',
      figure: 'code iso4406',
      value: 2,
      code: '20/18/15',
      setpoint: '18/16/13',
    };
    expect(messageOf(event as MonitorEvent).line).toBe(
      'dirty: alarm raised. Code (ISO 4406) is 20/18/15, beyond 18/16/13.',
    );
    expect(messageOf(event as MonitorEvent, germanTexts).line).toBe(
      'dirty: Alarm. Klasse (ISO 4406): 20/18/15, Grenzwert 18/16/13 überschritten.',
    );
  });

  test.each<[string, string, unknown, unknown]>([
    ['wrong_type', 'event', null, {}],
    ['unknown_option', 'event.event', { time: 0, event: 'exploded' }, {}],
    ['wrong_type', 'event.time', { event: 'raised' }, {}],
    ['unknown_option', 'options.units', { time: 0, event: 'raised' }, { units: '' }],
    ['out_of_range', 'options.longestLine', { time: 0, event: 'raised' }, { longestLine: 19 }],
    ['out_of_range', 'options.longestLine', { time: 0, event: 'raised' }, { longestLine: 1601 }],
    ['not_an_integer', 'options.longestLine', { time: 0, event: 'raised' }, { longestLine: 70.5 }],
    ['wrong_type', 'options.longestLine', { time: 0, event: 'raised' }, { longestLine: '70' }],
    // a message with holes, or with [object Object], tells nobody anything
    ['wrong_type', 'event.alarm', { time: 0, event: 'raised' }, {}],
    ['wrong_type', 'event.value', { time: 0, event: 'raised', alarm: 'hot', setpoint: 65 }, {}],
    ['wrong_type', 'event.value', { time: 0, event: 'raised', alarm: 'hot', setpoint: 65, value: Number.NaN }, {}],
    ['wrong_type', 'event.setpoint', { time: 0, event: 're_alarmed', alarm: 'hot', value: 65 }, {}],
    ['wrong_type', 'event.withinMs', { ...full, event: 'raised', figure: 'kPa', type: 'rise' }, {}],
    ['wrong_type', 'event.figure', { time: 0, event: 'quality_bad' }, {}],
    ['wrong_type', 'event.finding', { time: 0, event: 'finding_came' }, {}],
    ['wrong_type', 'event.priority', { ...full, event: 'raised', priority: {} }, {}],
    ['wrong_type', 'event.state', { ...full, event: 'dropped', state: {} }, {}],
    ['wrong_type', 'event.reason', { ...full, event: 'refused', reason: 5 }, {}],
    ['wrong_type', 'event.limit', { time: 0, alarm: 'hot', event: 'refused', reason: 'longer_than_allowed' }, {}],
    ['wrong_type', 'event.after', { ...full, event: 'change_found', figure: 'kPa', after: Number.NaN }, {}],
    ['wrong_type', 'event.figure', { time: 0, event: 'relearning', followed: 'W' }, {}],
    ['wrong_type', 'event.direction', { ...full, event: 'change_found', direction: {} }, {}],
    ['wrong_type', 'event.findings[0]', { ...full, event: 'quality_bad', findings: [{}] }, {}],
    ['wrong_type', 'event.beyond[1]', { ...full, event: 'late', beyond: ['hot', {}] }, {}],
    ['wrong_type', 'event.codes[0]', { ...full, event: 'code_unused', codes: [null] }, {}],
  ])('%s on %s', (code, parameter, event, options) => {
    expect(() => messageOf(event as MonitorEvent, undefined, options as object)).toThrowError(
      expect.objectContaining({ code, parameter }),
    );
  });
});

test('a change of water saturation is one of percentage points', () => {
  const prepared = prepareMonitor({
    codes: [],
    alarms: [
      { id: 'wet', type: 'rise', figure: { quantity: 'waterSaturation' }, setpoint: 0.1, withinMs: 600000 },
      { id: 'damp', type: 'rise', figure: { quantity: 'waterSaturation' }, setpoint: 0.01, withinMs: 600000 },
      { id: 'high', type: 'high', figure: { quantity: 'waterSaturation' }, setpoint: 0.4 },
    ],
  });
  let { state, events } = advanceMonitor(prepared, startMonitor(prepared), { time: 0, waterSaturation: 0.3 });
  ({ state, events } = advanceMonitor(prepared, state, { time: 300000, waterSaturation: 0.45 }));
  expect(events.map((event) => messageOf(event).line)).toEqual([
    'wet: alarm raised. Water saturation has risen by 15 percentage points within 10 min; ' +
      'the setpoint is 10 percentage points.',
    'damp: alarm raised. Water saturation has risen by 15 percentage points within 10 min; ' +
      'the setpoint is 1 percentage point.',
    'high: alarm raised. Water saturation is 45 %, beyond 40 %.',
  ]);
  expect(messageOf(events[1] as MonitorEvent, germanTexts).line).toBe(
    'damp: Alarm. Wassersättigung: Anstieg um 15 Prozentpunkte innerhalb von 10 min, Grenzwert 1 Prozentpunkt.',
  );
});

test('a latched alarm that returns is not told as all clear', () => {
  const alarm = { type: 'high', figure: { quantity: 'celsius' }, setpoint: 65 } as const;
  const prepared = prepareMonitor({
    codes: [],
    alarms: [
      { ...alarm, id: 'hot', latching: true },
      { ...alarm, id: 'warm' },
    ],
  });
  let { state, events } = advanceMonitor(prepared, startMonitor(prepared), { time: 0, celsius: 70 });
  ({ state, events } = advanceMonitor(prepared, state, { time: 300000, celsius: 40 }));
  expect(events.map((event) => messageOf(event).line)).toEqual([
    'hot: alarm latched until it is reset. The figure is within the setpoint again; ' +
      'the alarm stays until it is reset.',
    'warm: back to normal. The figure is within the setpoint again.',
  ]);
  expect(messageOf(events[0] as MonitorEvent).paragraph).not.toMatch(/reset.*reset.*reset/);
  expect(messageOf(events[0] as MonitorEvent, germanTexts).subject).toBe(
    'hot: Alarm selbsthaltend bis zum Zurücksetzen',
  );
});

test('a change of level tells figure and unit, as an alarm does', () => {
  const told = {
    time: 1e12,
    event: 'change_found',
    followed: 'W',
    kind: 'step',
    direction: 'up',
    since: 9e11,
  } as const;
  const lines = (figure: string, before: number, after: number) => {
    const event = { ...told, figure, before, after };
    return [messageOf(event).line, messageOf(event, germanTexts).line];
  };
  expect(lines('waterSaturation', 0.296, 0.59901)).toEqual([
    'W: level has gone up. Water saturation was about 29.6 %; since about 1998-07-09 16:00 it is about 59.9 %.',
    'W: Niveau gestiegen. Wassersättigung: zuvor etwa 29,6 %; seit etwa 1998-07-09 16:00 etwa 59,9 %.',
  ]);
  expect(lines('waterSaturationAt -7.5', 0.31, 1.44)).toEqual([
    expect.stringContaining(
      'Water saturation at -7.5 °C was about 31 %; since about 1998-07-09 16:00 it is about 144 %.',
    ),
    expect.stringContaining('Wassersättigung bei -7,5 °C: zuvor etwa 31 %; seit etwa 1998-07-09 16:00 etwa 144 %.'),
  ]);
  expect(lines('continuousScaleNumberAt 6', 15.204, 16.4)[0]).toContain(
    'Continuous scale number at 6 µm(c) was about 15.2; since about 1998-07-09 16:00 it is about 16.4.',
  );
  // 14.3 lies in the class 15: no German takes it for the Ordnungszahl of the code
  expect(lines('continuousScaleNumberAt 6.5', 14.3, 15.5)[1]).toContain(
    'W: Niveau gestiegen. Stetige Ordnungszahl bei 6,5 µm(c): zuvor etwa 14,3;',
  );
  expect(lines('scaleNumberAt 6', 14, 15)[1]).toContain('. Ordnungszahl bei 6 µm(c): zuvor etwa 14;');
  const down = { ...told, direction: 'down', figure: 'perMlAt 5', before: 9, after: 4 } as const;
  expect(messageOf(down, germanTexts, { sizing: 'iso4402' }).line).toContain(
    'W: Niveau gesunken. Partikel ab 5 µm (ISO 4402): zuvor etwa 9 je mL;',
  );
  expect(() => messageOf(down, undefined, { sizing: 'µm' as never })).toThrow('options.sizing');
  expect(lines('perMlAt 6', 402, 1210)[0]).toContain('Count at 6 µm(c) and larger was about 402 per mL; since');
  expect(lines('other acid number', 0.2, 0.5)[0]).toContain('acid number was about 0.2; since');
  // one that has crept has no date; an event that was kept with one neither
  const crept = { ...told, kind: 'drift', figure: 'celsius', before: 40.2, after: 43, meanOverMs: 2419200000 } as const;
  for (const since of [null, 9e11]) {
    const [english, german] = [messageOf({ ...crept, since }), messageOf({ ...crept, since }, germanTexts)];
    expect(english.line).toBe(
      'W: level has crept up. Temperature was about 40.2 °C; its mean of late is 43 °C. When the change began ' +
        'cannot be told.',
    );
    expect(english.paragraph).toContain(' cannot be told. That mean is of the last 28 d. Time: ');
    expect(german.line).toBe(
      'W: Niveau schleichend gestiegen. Temperatur: zuvor etwa 40,2 °C; der Mittelwert der letzten Zeit ist ' +
        '43 °C. Wann es begann, ist nicht feststellbar.',
    );
    expect(german.paragraph).toContain('Der Mittelwert gilt für die letzten 28 d.');
  }
  const { meanOverMs: _, ...before } = { ...crept, kind: 'slow', since: 9e11 } as const;
  expect(messageOf(before).paragraph).toMatch(/cannot be told\. Time: /);
  const relearning = { time: 1e12, event: 'relearning', followed: 'W', figure: 'celsius' } as const;
  expect(messageOf(relearning).line).toBe('W: learned anew. Temperature: the next readings show what is usual.');
  expect(messageOf(relearning, germanTexts).line).toMatch(
    / Temperatur: Die nächsten Messungen zeigen, was normal ist\.$/,
  );
  const unjudged = { time: 1e12, event: 'change_unjudged', followed: 'W', figure: 'perMlAt 6' } as const;
  expect(messageOf(unjudged).line).toBe(
    'W: changes cannot be told. Count at 6 µm(c) and larger: too few blocks of time have a value. No ' +
      'readings come, or weekly ones need longer blocks.',
  );
  expect(messageOf({ ...unjudged, event: 'change_judged' }, germanTexts).line).toMatch(
    /^W: Änderungen wieder erkennbar\. .+: Genügend Zeitabschnitte haben einen Wert\.$/,
  );
});

describe('a message says no more than is known', () => {
  const hot = { id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 65 } as const;
  const linesOf = (events: readonly MonitorEvent[]) =>
    events.map((event) => [messageOf(event).line, messageOf(event, germanTexts).line]);

  test('of an alarm that returns because its setpoint was raised, and of one dropped for another meaning', () => {
    const before = prepareMonitor({ codes: [], alarms: [hot] });
    const raised = advanceMonitor(before, startMonitor(before), { time: 1e12, celsius: 70 });
    const higher = prepareMonitor({ codes: [], alarms: [{ ...hot, setpoint: 80 }] });
    const { state } = resumeMonitor(higher, raised.state);
    expect(linesOf(advanceMonitor(higher, state, { time: 1e12 + 60000, celsius: 70 }).events)).toEqual([
      [
        'hot: back to normal. The figure is within the setpoint again.',
        'hot: wieder im Normalzustand. Der Wert verletzt den Grenzwert nicht mehr.',
      ],
    ]);
    const other = prepareMonitor({ codes: [], alarms: [{ ...hot, figure: { quantity: 'kPa' } }] });
    expect(linesOf(resumeMonitor(other, raised.state).events)).toEqual([
      [
        'hot: alarm dropped. The configuration has it no longer, or with another meaning; ' +
          'its state was: alarm, not acknowledged.',
        'hot: Alarm entfallen. Die Konfiguration enthält ihn nicht mehr oder mit anderer Bedeutung; ' +
          'sein Zustand war: Alarm, nicht quittiert.',
      ],
    ]);
  });

  test('of an alarm that the configuration suppresses no longer', () => {
    const before = prepareMonitor({ codes: [], alarms: [{ ...hot, suppressedInModes: ['rest'] }] });
    const resting = advanceMonitor(before, startMonitor(before), { time: 1e12, celsius: 40, mode: 'rest' });
    const after = prepareMonitor({ codes: [], alarms: [hot] });
    const { state } = resumeMonitor(after, resting.state);
    const { events } = advanceMonitor(after, state, { time: 1e12 + 60000, celsius: 40, mode: 'rest' });
    expect(linesOf(events)).toEqual([
      [
        'hot: alarm no longer suppressed. The mode of the machine no longer suppresses it.',
        'hot: Alarm nicht mehr unterdrückt. Die Betriebsart der Maschine unterdrückt ihn nicht mehr.',
      ],
    ]);
  });

  test('of a leap in time, and of a clock that was doubted in vain', () => {
    const minute = 60000;
    const start = Date.UTC(2026, 10, 25, 8);
    const day = 1440;
    const prepared = prepareMonitor({ codes: [] });
    const told = (minutes: readonly number[]) => {
      let state = startMonitor(prepared);
      const events: MonitorEvent[] = [];
      for (const each of minutes) {
        const step = advanceMonitor(prepared, state, { time: start + each * minute, celsius: 40 + each / 1e5 });
        state = step.state;
        events.push(...step.events);
      }
      return linesOf(events.filter(({ event }) => event === 'clock_set' || event === 'clock_kept'));
    };
    expect(told([0, 5, 10, 5 * day, 5 * day + 5])).toEqual([
      [
        'Leap in time. The time of readings went from 2026-11-25 08:10 to 2026-11-30 08:00: ' +
          'the clock was set forward, or none came in between.',
        'Zeitsprung. Die Zeit der Messungen sprang von 2026-11-25 08:10 auf 2026-11-30 08:00: ' +
          'Die Uhr wurde vorgestellt, oder dazwischen kam keine.',
      ],
    ]);
    expect(told([0, 5, 10, -50, -45, -40])).toEqual([
      [
        'Leap in time. Back from 2026-11-25 08:10 to 2026-11-25 07:20: ' +
          'the clock was set back, older readings came in one go, or a tick or command was ahead.',
        'Zeitsprung. Von 2026-11-25 08:10 zurück auf 2026-11-25 07:20: Die Uhr wurde zurückgestellt, ' +
          'ältere Messungen kamen auf einmal, oder Takt oder Befehl ging vor.',
      ],
    ]);
    expect(told([0, 5, 10, 5 * day, 15])).toEqual([
      [
        'Clock goes on as before. Only readings that were set aside had a wrong time.',
        'Uhr läuft weiter wie bisher. Nur zurückgehaltene Messungen hatten eine falsche Zeit.',
      ],
    ]);
  });
});

test('the line of a reading out of order names the alarms whose setpoint it lies beyond', () => {
  const places = { time: 1e12, reading: 9e11, beyond: ['dirty', 'hot'] };
  const lines = (['late', 'too_late', 'set_aside'] as const).map((event) => messageOf({ ...places, event }).line);
  expect(lines).toEqual([
    'Late reading. It is beyond the setpoint of: dirty, hot. ' +
      'The reading of 1998-07-09 16:00 came after a newer one.',
    'Reading too late. It is beyond the setpoint of: dirty, hot. ' +
      'The reading of 1998-07-09 16:00 is so old that it does not count.',
    'Reading set aside. It is beyond the setpoint of: dirty, hot. ' +
      'Its time is far ahead: 1998-07-09 16:00. The next readings show whether the clock was set.',
  ]);
  expect(messageOf({ ...places, event: 'late' }, germanTexts).line).toBe(
    'Messung verspätet. Sie verletzt den Grenzwert von: dirty, hot. ' +
      'Die Messung vom 1998-07-09 16:00 kam nach einer neueren.',
  );
  expect(messageOf({ ...places, event: 'late', beyond: [] }).line).toBe(
    'Late reading. The reading of 1998-07-09 16:00 came after a newer one.',
  );
  expect(messageOf({ ...places, event: 'late' }).paragraph).toMatch(
    /newer one\. It is beyond the setpoint of: dirty, hot\. /,
  );
});

test('a shelf that is refused says how long is allowed', () => {
  const day = 86400000;
  const alarms = [
    { id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 65, longestShelfMs: day },
  ] as const;
  const prepared = prepareMonitor({ codes: [], alarms });
  const shelve = { kind: 'command', time: 1e12, alarm: 'hot', command: 'shelve', forMs: 2 * day } as const;
  const [event] = advanceMonitor(prepared, startMonitor(prepared), shelve).events as [MonitorEvent];
  expect(messageOf(event).line).toBe(
    'hot: refused. The command or reading did nothing: the time asked for is longer than the 24 h allowed.',
  );
  expect(messageOf(event, germanTexts).line).toBe(
    'hot: abgelehnt. Befehl oder Messung ohne Wirkung: die verlangte Zeit ist zu lang, erlaubt sind höchstens 24 h.',
  );
});

test('an input refused is said not to have been used, and a table by the name of its standard', () => {
  const refused = { ...bare, event: 'rejected', expected: 'a number of 0 or more' } as unknown as MonitorEvent;
  expect(messageOf(refused).line).toMatch(/ The input was not used\.$/);
  expect(messageOf(refused, germanTexts).line).toMatch(/ Die Eingabe wurde nicht verwendet\.$/);
  expect(Object.keys(standardNames)).toEqual(expect.arrayContaining(standardTables.map(({ id }) => id)));
  for (const { id, title } of standardTables) {
    expect(standardNames[id]).toBe(title.split(',')[0]);
    const stale = { time: 0, event: 'target_stale', figure: `code ${id}` } as MonitorEvent;
    expect(messageOf(stale).subject).toBe(`Code (${standardNames[id]}): target not judged`);
  }
  const own = { time: 0, event: 'target_stale', figure: 'code constructor' } as MonitorEvent;
  expect(messageOf(own).subject).toBe('Code (constructor): target not judged');
});

test('the German page of a sample names tables in German', () => {
  const text = sheetText(sampleSheet(raw, { tables: [iso4406, nas1638] }), germanTexts);
  expect(text).toContain('Tabelle 1');
  expect(text).toContain('Tabelle I');
  expect(text).not.toContain('Table');
});

test('the page of a sample says of a table that it is from memory, in the words of the language', () => {
  const counts = cumulativeCounts({ 5: 900, 10: 200, 25: 20 }, { volumeMl: 10, sizing: 'microscope' });
  const page = (texts: Texts) =>
    sheetText(sampleSheet(counts, { tables: [gost17216, nas1638] }), texts).replace(/\s+/g, ' ');
  expect(page(englishTexts)).toContain('; from memory, to be confirmed; limits per 100 mL NAS 1638: NAS 1638,');
  expect(page(germanTexts)).toContain(
    '; aus dem Gedächtnis, noch zu bestätigen; Grenzen je 100 mL NAS 1638: NAS 1638,',
  );
  // its place says of which cells, too
  expect(page(englishTexts).match(/memory/g)).toHaveLength(2);
  expect(page(germanTexts).match(/Gedächtnis/g)).toHaveLength(2);
});

test('the page of a sample tells each source in the words of the language, but for the names of documents', () => {
  const names = /\S*[A-Z]{3}\S*|Aviation Hydraulics Manual|log-log2|AS4059|\d[\dC.-]*/g;
  const perMl = {
    2: 950,
    4: 900,
    5: 800,
    6: 700,
    10: 200,
    14: 60,
    15: 50,
    21: 30,
    25: 20,
    38: 8,
    50: 5,
    70: 2,
    100: 1,
  };
  for (const table of standardTables) {
    const { id, source, standard = id } = table;
    const counts = cumulativeCounts(perMl, {
      sizing: id === 'iso4406' || id === 'nas1638' ? 'iso11171' : 'microscope',
    });
    const sheet = sampleSheet(counts, { tables: [table] });
    const wordsOf = (texts: Texts): string[] => {
      const page = sheetText(sheet, texts).replace(/\s+/g, ' ');
      const from = page.indexOf(`${standard}: ${source.document.slice(0, 8)}`);
      expect(from).toBeGreaterThan(0);
      const told = page.slice(from + standard.length, page.indexOf(' mL', from));
      return told.replace(names, ' ').match(/[A-Za-zÄÖÜäöüß]{2,}/g) ?? [];
    };
    // the same in both languages
    const english = wordsOf(englishTexts).filter((word) => word !== 'in');
    expect(wordsOf(germanTexts)).toContain('Grenzen');
    expect(wordsOf(germanTexts).filter((word) => english.includes(word))).toEqual([]);
  }
});

test('German has one word for bad', () => {
  expect(JSON.stringify(germanTexts)).not.toContain('verwertbar');
});

test('an alarm on a change tells by how much the figure has changed, not that it has this value', () => {
  const prepared = prepareMonitor({
    codes: [],
    alarms: [
      {
        id: 'heats',
        type: 'rise',
        figure: { quantity: 'celsius' },
        setpoint: 5,
        withinMs: 600000,
        reAlarmAfterMs: 1e6,
      },
      { id: 'leak', type: 'fall', figure: { quantity: 'kPa' }, setpoint: 20, withinMs: 5400000 },
    ],
  });
  let { state, events } = advanceMonitor(prepared, startMonitor(prepared), { time: 0, celsius: 40, kPa: 100 });
  ({ state, events } = advanceMonitor(prepared, state, { time: 300000, celsius: 45.5, kPa: 75 }));
  expect(events.map((event) => messageOf(event).line)).toEqual([
    'heats: alarm raised. Temperature has risen by 5.5 °C within 10 min; the setpoint is 5 °C.',
    'leak: alarm raised. Pressure has fallen by 25 kPa within 90 min; the setpoint is 20 kPa.',
  ]);
  expect(events.map((event) => messageOf(event, germanTexts).line)).toEqual([
    'heats: Alarm. Temperatur: Anstieg um 5,5 °C innerhalb von 10 min, Grenzwert 5 °C.',
    'leak: Alarm. Druck: Abfall um 25 kPa innerhalb von 90 min, Grenzwert 20 kPa.',
  ]);
  ({ events } = advanceMonitor(prepared, state, { kind: 'tick', time: 1300000 }));
  expect(events.map((event) => messageOf(event).line)).toEqual([
    'heats: alarm still stands. Temperature has risen by 5.5 °C within 10 min; the setpoint is 5 °C.',
  ]);
});

test.each([true, false])(
  'one that looks back no further than what changed does not say that all is well (%s)',
  (latching) => {
    const alarm = { figure: { quantity: 'celsius' }, setpoint: 5, withinMs: 600000, latching } as const;
    const [rise, fall] = [
      { ...alarm, id: 'up', type: 'rise' } as const,
      { ...alarm, id: 'down', type: 'fall' } as const,
    ];
    const prepared = prepareMonitor({ codes: [], alarms: [rise, fall] });
    let state = startMonitor(prepared);
    const back: MonitorEvent[] = [];
    for (const [minutes, celsius] of [
      [0, 60],
      [1, 40],
      [20, 40.5],
      [21, 60],
      [40, 60],
    ] as const) {
      const step = advanceMonitor(prepared, state, { time: minutes * 60000, celsius });
      state = step.state;
      back.push(...step.events.filter(({ event }) => event === 'returned'));
    }
    const heads = latching
      ? ['down: alarm latched until it is reset', 'up: alarm latched until it is reset']
      : ['down: fall within its setpoint again', 'up: rise within its setpoint again'];
    const told = [
      'What fell before may still stand. Temperature has fallen by 0 °C within 10 min; the setpoint is 5 °C.',
      'What rose before may still stand. Temperature has risen by 0 °C within 10 min; the setpoint is 5 °C.',
    ];
    expect(back.map((event) => messageOf(event).line)).toEqual(told.map((one, i) => `${heads[i]}. ${one}`));
    expect(messageOf(back[1] as MonitorEvent, germanTexts).paragraph).toContain(
      'Was vorher anstieg, kann noch so hoch stehen. Temperatur: Anstieg um 0 °C innerhalb von 10 min, Grenzwert 5 °C.',
    );
  },
);

test('an error in words, with what was expected', () => {
  let thrown: unknown;
  try {
    cumulativeCounts({ 4: -1 });
  } catch (error) {
    thrown = error;
  }
  expect(errorText(thrown)).toContain('counts[4] is negative: -1. Expected: ');
  expect(errorText(thrown, germanTexts)).toBe('counts[4] ist negativ: -1. Erwartet: Partikel je mL, ab 0.');
  // the configuration as a whole has a name too
  try {
    prepareMonitor(undefined as never);
  } catch (error) {
    thrown = error;
  }
  expect(errorText(thrown, germanTexts)).toMatch(/^config ist von falscher Art: undefined\./);
});

test('an alarm raised by a value below its setpoint says so; one that still stands only tells both', () => {
  const low = {
    time: 1e12,
    event: 'raised',
    alarm: 'dead',
    figure: 'perMlAt 6',
    value: 0,
    setpoint: 1,
  } as MonitorEvent;
  expect(messageOf(low).line).toBe('dead: alarm raised. Count at 6 µm(c) and larger is 0 per mL, below 1 per mL.');
  expect(messageOf(low, germanTexts).line).toBe(
    'dead: Alarm. Partikel ab 6 µm(c): 0 je mL, Grenzwert 1 je mL unterschritten.',
  );
  const high = { time: 1e12, alarm: 'hot', figure: 'celsius', value: 66, setpoint: 65 };
  const lines = (event: object) => [
    messageOf(event as MonitorEvent).line,
    messageOf(event as MonitorEvent, germanTexts).line,
  ];
  expect(lines({ ...high, event: 'raised' })).toEqual([
    'hot: alarm raised. Temperature is 66 °C, beyond 65 °C.',
    'hot: Alarm. Temperatur: 66 °C, Grenzwert 65 °C überschritten.',
  ]);
  // within the deadband
  expect(lines({ ...high, event: 're_alarmed', value: 63 })).toEqual([
    'hot: alarm still stands. Temperature is 63 °C; the setpoint is 65 °C.',
    'hot: Alarm steht weiter an. Temperatur: 63 °C, Grenzwert 65 °C.',
  ]);
});

test('sizes of few particles are told ascending, that of the fewest again', () => {
  const { findings } = assessReading({ counts: cumulativeCounts({ 4: 0, 6: 0, 14: 0 }, { volumeMl: 10 }) });
  const few = findings.find(({ code }) => code === 'few_particles') as Finding;
  expect(findingText(few)).toContain('4 µm(c), 6 µm(c) and 14 µm(c)');
  expect(findingText(few)).toContain('0 at 14 µm(c)');
  expect(findingText({ ...few, sizes: [6, 14, 4] })).toContain('4 µm(c), 6 µm(c) and 14 µm(c)');
});

test('a line does not break between a number and its percent sign', () => {
  const words = 'Coincidence up to 0 %, sampling 95 %-limits\nof 30 %';
  for (let width = 12; width < 60; width += 1)
    expect(wrapped(words, 6 * width).filter((line) => line.charAt(0) === '%')).toEqual([]);
  for (let head = 0; head < 50; head += 1)
    expect(paragraph('x'.repeat(head), words).filter((line) => /^ *%/.test(line))).toEqual([]);
});

test('a class that could be worse is told in the words of the language in rows too', () => {
  const reading = { time: 1e12, codes: { 'NAS 1638': '8 or dirtier' } };
  expect(reportRows([reading], { texts: germanTexts }).rows[0]).toContain('8 oder schmutziger');
  expect(reportRows([reading]).rows[0]).toContain('8 or dirtier');
});

describe('the sheet of a sample', () => {
  const sheet = sampleSheet(raw, {
    tables: [iso4406, nas1638],
    target: '18/16/13',
    title: 'Lock 3, return line',
    time: Date.UTC(2026, 10, 25, 8),
  });

  test('says what decided, how sure it is, and what was not looked at', () => {
    expect(sheet.codes[0]?.columns.map(({ above, upTo }) => [above, upTo])).toEqual([
      [640, 1300],
      [160, 320],
      [1.3, 2.5],
    ]);
    const sure = codeUncertainty(iso4406, raw);
    expect(sheet.codes[0]?.sure).toEqual({
      mostProbable: sure.mostProbable.text,
      low: sure.low.text,
      high: sure.high.text,
      confidence: 0.95,
    });
    expect(sheet.target?.met).toBe(true);
    expect(sheet.notLookedAt).toContain('sampling');
    expect(sampleSheet(raw, { errors: { sampling: 0.1 } }).notLookedAt).not.toContain('sampling');
    expect(JSON.parse(JSON.stringify(sheet))).toEqual(sheet);
  });

  test('fits on a page, in lines of 72 characters, in both languages', () => {
    for (const texts of [englishTexts, germanTexts]) {
      const lines = sheetText(sheet, texts).split('\n');
      expect(lines.length).toBeLessThanOrEqual(60);
      for (const line of lines) expect(line.length).toBeLessThanOrEqual(72);
    }
  });

  test('of counts per mL alone says that nothing can be told of how sure it is', () => {
    const bare = sampleSheet(cumulativeCounts({ 4: 1890, 6: 402 }), { target: '18/16/13' });
    expect(bare.errors).toBeNull();
    expect(bare.target).toMatchObject({ met: null, missing: ['14'], few: [], probability: null });
    expect(sampleSheet(cumulativeCounts({ 4: 1e6, 6: 402 }), { target: '18/16/13' }).target?.met).toBe(false);
    expect(() => sampleSheet(raw, { target: 'eighteen' })).toThrowError(expect.objectContaining({ code: 'bad_code' }));
    expect(() => sheetText({} as never)).toThrowError(expect.objectContaining({ code: 'wrong_type' }));
  });

  test('says why a target cannot be judged: sizes that are missing, or too few particles', () => {
    const openFor = (counts: Parameters<typeof cumulativeCounts>[0], target: string, table = iso4406) => {
      const one = sampleSheet(cumulativeCounts(counts, { volumeMl: 10 }), { tables: [table], target });
      expect(one.target?.met).toBeNull();
      const said = (texts: Texts) => sheetText(one, texts).replace(/\s+/g, ' ');
      return [one.target?.missing, one.target?.few, said(englishTexts), said(germanTexts)] as const;
    };
    // few at 6 too, where the class is far within what is asked
    const [missing, few, english, german] = openFor({ 4: 20000, 6: 19, 14: 10 }, '18/16/7');
    expect([missing, few]).toEqual([[], ['14']]);
    expect(english).toContain('18/16/7: cannot be judged, too few particles were counted in column 14 to tell');
    expect(german).toContain('18/16/7: nicht zu beurteilen, zu wenige Partikel gezählt in Spalte 14');
    const both = openFor({ 4: 20000, 6: 10 }, '18/7/7');
    expect(both.slice(0, 2)).toEqual([['14'], ['6']]);
    expect(both[2]).toContain('18/7/7: cannot be judged, the counts lack column 14 ');
    expect(both[3]).toContain('18/7/7: nicht zu beurteilen, den Zählwerten fehlt Spalte 14 ');
    // none of 38 µm, so none of 70: as `meets` has it of counts
    const ending = cumulativeCounts({ 4: 900, 6: 300, 14: 20, 21: 3, 38: 0 }, { volumeMl: 100 });
    expect(sampleSheet(ending, { tables: [nas1638], target: '8' }).target).toMatchObject({ met: true, missing: [] });
    // fibres and mass are not named: they decide nothing
    const fine = cumulativeCounts({ 5: 900, 10: 200, 25: 20, 50: 3 }, { volumeMl: 100, sizing: 'microscope' });
    const kept = { met: true, missing: [] };
    expect(sampleSheet(fine, { tables: [gost17216], target: '9' }).target).toMatchObject(kept);
    const none = openFor({ 4: 20000, 6: 10 }, '8', nas1638);
    expect(none[0]).toEqual(nas1638.columns.map(({ label }) => label));
    expect(none[2]).toContain('the counts lack column 5-15, 15-25, 25-50, 50-100, >100 ');
  });
});

test('an error of another origin is told by its message, and none is lost', () => {
  const caught = (call: () => unknown): unknown => {
    try {
      return call();
    } catch (error) {
      return error;
    }
  };
  const own = caught(() => cumulativeCounts({ 4: -1 })) as Error;
  expect(errorText(structuredClone(own), germanTexts)).toBe(own.message);
  expect(errorText(JSON.parse(JSON.stringify(own)), germanTexts)).toBe(errorText(own, germanTexts));
  expect(
    errorText(
      caught(() => JSON.parse('{')),
      germanTexts,
    ),
  ).toMatch(/JSON/);
  const odd = [undefined, null, 7, 'x', {}, Object.create(null), { message: 7 }, []];
  expect(odd.map((one) => errorText(one))).toEqual([
    ...['undefined', 'null', '7', 'x', 'an object', 'an object', 'an object', 'an array of 0'],
  ]);
});
