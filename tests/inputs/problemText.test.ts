/** One mistake, or one entry of what was told, in words: on which line of a file, and in German without English. */
import { expect, test } from 'vitest';
import { germanTexts } from '../../src/german/index.ts';
import {
  classifyColumns,
  csvColumns,
  errorText,
  isMotescaleError,
  iso4406,
  type Problem,
  parseCsv,
  parseLocalTimes,
  problemsOf,
  problemText,
} from '../../src/index.ts';
import { parseMonitorConfig, parseMonitorReading } from '../../src/schema/index.ts';
import { englishIn } from './englishIn.ts';

const keepReadable = true;
const berlin = { order: 'day_month_year', utcOffsetMinutes: 60, keepReadable } as const;

/** What an import of a file tells, step by step, in one list. */
function toldOf(lines: readonly string[]): Problem[] {
  const told: Problem[] = [];
  const table = parseCsv(lines.join('\n'), { separator: ';', decimal: ',', keepReadable }, told);
  const [time, at4, at6] = csvColumns(table, told, { keepReadable });
  const place = { lines: table.lines };
  parseLocalTimes(time?.cells ?? [], { ...berlin, ...place }, told);
  const perMl = { 4: at4?.numbers as Float64Array, 6: at6?.numbers as Float64Array };
  classifyColumns(iso4406, perMl, { keepReadable, ...place }, told);
  return told.filter(({ column }) => column !== 'Zeit');
}

const file = [
  'Zeit;4;6',
  '30.11.2026 08:00;1890;402',
  '30.11.2026 08:10;1890;n/a',
  'kaputt',
  'Uhr verloren;1890;402',
  '30.11.2026 08:30;100;402',
  '30.11.2026 08:40;-999;402',
];

test('each entry has the line of the file, whichever function told it', () => {
  expect(toldOf(file).map(({ line, column }) => [line, column])).toEqual([
    [4, undefined],
    [3, '6'],
    [5, undefined],
    [7, '4 µm'],
    [6, '6 µm'],
  ]);
});

test('and says it in German and in English', () => {
  expect(toldOf(file).map((one) => problemText(one, germanTexts))).toEqual([
    "Zeile 4 lässt sich nicht als Tabelle mit Trennzeichen lesen: 'kaputt'. Weggelassen. " +
      'Erwartet: so viele Zellen wie im Kopf: 3, und nicht 1.',
    "Zeile 3, Spalte „6“, ist von falscher Art: 'n/a'. Weggelassen. Erwartet: eine Zahl.",
    "Zeile 5 ist von falscher Art: 'Uhr verloren'. Weggelassen. " +
      'Erwartet: ein Datum, oder Datum und Uhrzeit, in Ziffern, wie 25.11.2026 08:00.',
    'Zeile 7, Spalte „4 µm“, ist negativ: -999. Weggelassen. Erwartet: Partikel je mL von 0 bis 1.000.000.000.000.',
    'Zeile 6, Spalte „6 µm“, steigt mit der Größe: 402. Weggelassen. ' +
      'Erwartet: höchstens 100, der Zählwert der kleineren Größe.',
  ]);
  expect(
    toldOf(file)
      .slice(0, 2)
      .map((one) => problemText(one)),
  ).toEqual([
    "Line 4 cannot be read as separated values: 'kaputt'. Left out. " +
      'Expected: as many cells as in the header: 3, and not 1.',
    "Line 3, column '6', is of the wrong kind: 'n/a'. Left out. Expected: a number.",
  ]);
});

test('a decimal comma, and lines that are not one for each row', () => {
  const told: Problem[] = [];
  csvColumns(parseCsv('t;4\n1;1,5\n2;3\n', { separator: ';', keepReadable }), told, { keepReadable });
  csvColumns(parseCsv('t;4\n1;1,5\n2;n/a\n', { separator: ';', keepReadable }), told, { keepReadable });
  expect(told.map((one) => problemText(one, germanTexts))).toEqual([
    "Zeile 2, Spalte „4“, ist von falscher Art: '1,5'. Weggelassen. Erwartet: eine Zahl mit Dezimalpunkt.",
    "Zeile 2, Spalte „4“, ist von falscher Art: '1,5'. Weggelassen. " +
      'Erwartet: eine Zahl mit Dezimalpunkt; von 2 Texten ist keiner eine.',
  ]);
  const saidOf = (lines: unknown) => {
    try {
      classifyColumns(iso4406, { 4: Float64Array.of(1) }, { lines } as never);
    } catch (error) {
      return [errorText(error), errorText(error, germanTexts)];
    }
    return [];
  };
  expect(saidOf([1, 2])).toEqual([
    'options.lines has another length: 1, 2. Expected: an array of 1, one for each row.',
    'options.lines hat eine andere Länge: 1, 2. Erwartet: eine Liste von 1, je Zeile der Tabelle eine.',
  ]);
  expect(saidOf('2')[1]).toContain('Erwartet: eine Liste von Zeilennummern.');
});

test('a path leads from what was handed in to the value', () => {
  const told: Problem[] = [];
  const table = parseCsv('t;4\n1;2\nx\n1;y\n', { separator: ';', keepReadable }, told);
  csvColumns(table, told, { keepReadable });
  expect(told.map(({ path }) => path)).toEqual([[], ['rows', 1, 1]]);
  expect(table.rows[1]?.[1]).toBe('y');
});

test('a time that is refused has its line', () => {
  try {
    parseLocalTimes(['25.11.2026 08:00', 'never'], { ...berlin, keepReadable: false, lines: [2, 7] });
  } catch (error) {
    expect(isMotescaleError(error) && [error.line, error.message]).toEqual([
      7,
      "texts[1], line 7: received 'never', expected a date, or a date and a time, in figures, as in 25.11.2026 08:00",
    ]);
  }
  expect.assertions(1);
});

test.each([
  [[2], 'length_mismatch'],
  [[2, 0], 'out_of_range'],
  ['2, 3', 'wrong_type'],
])('lines %j are refused', (lines, code) => {
  const options = { ...berlin, lines } as never;
  expect(() => parseLocalTimes(['x', 'y'], options)).toThrow(expect.objectContaining({ code }));
  const perMl = { 4: Float64Array.of(1, -1) };
  const columns = { keepReadable, lines } as never;
  expect(() => classifyColumns(iso4406, perMl, columns)).toThrow(expect.objectContaining({ code }));
});

test('fields of a form, one by one', () => {
  try {
    const alarms = [{ id: 'hot', type: 'high', figure: { quantity: 'celcius' }, setpoint: 65, deadband: -1 }];
    parseMonitorConfig({ codes: [], alarms });
  } catch (error) {
    const said = problemsOf(error).map((one) => problemText(one, germanTexts));
    expect(said).toHaveLength(2);
    expect(said).toContain(
      'alarms.0.deadband ist negativ: -1. Erwartet: eine Hysterese in der Einheit des Wertes von 0 bis 1e+60.',
    );
    expect(said.flatMap((one) => englishIn(one.replace(/'[^']*'|[a-z]+\.\d\S*/g, '')))).toEqual([]);
  }
  expect.hasAssertions();
});

const time = 1795590000000;
const sizes = [4, 6, 14];

test.each<readonly [input: object, german: string]>([
  [{ celsius: '41.5' }, "celsius ist von falscher Art: '41.5'. Gelesen als 41,5."],
  [{ celsius: null, kPa: 2 }, 'celsius ist von falscher Art: null. Weggelassen.'],
  [
    { mlPerMin: -3 },
    'mlPerMin liegt außerhalb des Bereichs: -3. Gelesen als 0: ein Volumenstrom unter null bringt dem Sensor kein Öl.',
  ],
  [
    { counts: { sizes, counted: [18900, '4020', 330], volumeMl: 10 } },
    'counts ist von falscher Art: ein Objekt. Gelesen als eine Liste von Zahlen.',
  ],
  [
    { counts: { sizes, perMl: [9, 3, 1], counted: null } },
    'counts ist von falscher Art: ein Objekt. Gelesen als counts: was null ist, ist weggelassen.',
  ],
  [{ celsius: 'n/a' }, 'qualities.celsius kam nicht. Gelesen als ungültig.'],
  [{ codes: { ISO: '18/16/13' } }, "codes.ISO ist unbekannt: 'ISO'. Gelesen als iso4406."],
])('what is told of a reading %j', (input, german) => {
  const told: Problem[] = [];
  parseMonitorReading({ time, ...input }, told, { keepReadable });
  const said = told.map((one) => problemText(one, germanTexts));
  expect(said).toContain(german);
  expect(said.join(' ')).not.toMatch(/Erwartet: *$|left out|read as|kept/);
});

test('an hour struck twice is told with the time that was taken', () => {
  const summer = Date.UTC(2026, 9, 25, 1);
  const told: Problem[] = [];
  const offset = (at: number) => (at < summer ? 120 : 60);
  parseLocalTimes(['25.10.2026 02:30'], { order: 'day_month_year', utcOffsetMinutes: offset, lines: [9] }, told);
  expect(told.map((one) => problemText(one, germanTexts))).toEqual([
    "Zeile 9 liegt außerhalb des Bereichs: '25.10.2026 02:30'. Gelesen als 2026-10-25 02:30 UTC+02:00: " +
      'diese Stunde schlägt zweimal, und die Zeilen daneben sagen nicht, welche gemeint ist.',
  ]);
});

test('nobody is blamed for what was not sent', () => {
  const told: Problem[] = [];
  parseMonitorReading({ time, mlPerMin: 'n/a' }, told, { keepReadable });
  expect(told.map((one) => problemText(one))).toContain('qualities.mlPerMin did not come. Read as bad.');
});

test.each([undefined, null, 7, {}, { path: [], code: 'other', received: '', expected: '' }])('%j is none', (odd) => {
  expect(() => problemText(odd as never)).toThrow(/^problem/);
});
