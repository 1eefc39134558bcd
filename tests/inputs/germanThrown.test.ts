/**
 * German has words for what is thrown, and not only for what refusals/ records: those are of one member spoilt at a
 * time. Here are all errors of the walk through the engines, of a member misspelt anywhere, and of inputs that are
 * wrong by what stands beside them.
 */
import { expect, test } from 'vitest';
import { germanTexts } from '../../src/german/index.ts';
import * as motescale from '../../src/index.ts';
import { expectedText } from '../../src/report/messages/expectedText.ts';
import { parseReading } from '../../src/schema/index.ts';
import { walk as codes } from '../engines/cases/codes.ts';
import { walk as counts } from '../engines/cases/counts.ts';
import { walk as filtration } from '../engines/cases/filtration.ts';
import { walk as monitor } from '../engines/cases/monitor.ts';
import { walk as report } from '../engines/cases/report.ts';
import { walk as sampling } from '../engines/cases/sampling.ts';
import { walk as sure } from '../engines/cases/sure.ts';
import { walk as units } from '../engines/cases/units.ts';
import { walk as viscosity } from '../engines/cases/viscosity.ts';
import { walk as water } from '../engines/cases/water.ts';
import type { Library } from '../engines/recorder.ts';
import { calls } from '../house/misspelt/calls.ts';
import { englishIn } from './englishIn.ts';

const walks = { codes, counts, filtration, monitor, report, sampling, sure, units, viscosity, water };

/** All that the error of a call expects: its own, or of each of several mistakes. */
function expectedOf(call: () => unknown): string[] {
  try {
    call();
    return [];
  } catch (error) {
    if (!motescale.isMotescaleError(error)) return [];
    const problems = motescale.problemsOf(error);
    return problems.length > 0 ? problems.map(({ expected }) => expected) : [error.expected];
  }
}

/** What German has no words for, and what it says half in English. */
function faultsIn(all: Iterable<string>): string[] {
  return [...new Set(all)].flatMap((expected) => {
    const told = expectedText(expected, germanTexts);
    return told === null ? [expected] : englishIn(told).length > 0 ? [`${expected} => ${told}`] : [];
  });
}

test.each(Object.entries(walks))('%s: what the walk throws', (_name, walk) => {
  const thrown: string[] = [];
  const watched = Object.fromEntries(
    Object.entries(motescale).map(([name, member]) => {
      if (typeof member !== 'function') return [name, member];
      return [
        name,
        (...inputs: unknown[]) => {
          let came: unknown;
          thrown.push(
            ...expectedOf(() => {
              came = (member as (...all: unknown[]) => unknown)(...inputs);
            }),
          );
          return came;
        },
      ];
    }),
  );
  walk(watched as unknown as Library);
  expect(thrown.length).toBeGreaterThan(50);
  expect(faultsIn(thrown)).toEqual([]);
});

/** The same input with a member more in each of its objects, one after the other. */
function misspelt(value: unknown, depth = 0): unknown[] {
  if (typeof value !== 'object' || value === null || ArrayBuffer.isView(value) || depth > 5) return [];
  const copy = (): Record<string, unknown> =>
    (Array.isArray(value) ? [...value] : { ...value }) as Record<string, unknown>;
  const own = Array.isArray(value) ? [] : [{ ...value, celcius: 1 }];
  const within = Object.entries(value).flatMap(([key, each]) =>
    misspelt(each, depth + 1).map((bad) => Object.assign(copy(), { [key]: bad })),
  );
  return [...own, ...within];
}

test('a member misspelt', () => {
  const thrown = calls.flatMap(([, call, inputs]) =>
    inputs.flatMap((input, i) =>
      misspelt(input).flatMap((bad) =>
        expectedOf(() => call(...(inputs.map((one, k) => (k === i ? bad : one)) as never[]))),
      ),
    ),
  );
  expect(thrown.length).toBeGreaterThan(100);
  expect(faultsIn(thrown)).toEqual([]);
});

const time = 0;
const long = 'x'.repeat(65);
const rolls = { widthMs: 1, holdMs: 1 };
const day = 864e5;
/** Wrong by what stands beside it, or as customers' data are: the error, and what German says of it. */
const beside: readonly (readonly [called: string, call: () => unknown, german: string])[] = [
  [
    'too many buckets',
    () =>
      motescale.rollUp(
        [
          { time, value: 1 },
          { time: 1e12, value: 1 },
        ],
        { ...rolls, widthMs: 1000 },
      ),
    'höchstens 100.000 Abschnitte insgesamt',
  ],
  [
    'out of order',
    () =>
      motescale.rollUp(
        [
          { time: 5, value: 1 },
          { time: 4, value: 1 },
        ],
        rolls,
      ),
    '5 oder später: Messungen, nach der Zeit geordnet',
  ],
  [
    'a name too long',
    () => parseReading({ others: { [long]: 1 } }),
    "ein Name mit 1 bis 64 Zeichen, außer '__proto__'",
  ],
  ['a cell', () => motescale.toCsv({ header: ['a'], rows: [[Number.NaN]] }), 'ein Text, eine endliche Zahl oder null'],
  ['a member', () => motescale.trendChart([{ time, unit: 'x' } as never]), "eines von 'time'"],
  ['not sure', () => motescale.probabilityChart({} as never), 'was codeUncertainty fand'],
  [
    'one head twice',
    () => motescale.csvColumns({ header: ['a', 'a'], rows: [] }),
    'ein eigener Kopf für Spalte 2 (B): Spalte 1 (A) hat ihn auch',
  ],
  ['edges', () => motescale.rollUp([], { edges: [0, 0], holdMs: day }), 'eine Zeit nach 0, der Kante davor'],
];

test.each(beside)('wrong beside others: %s', (_what, call, german) => {
  const all = expectedOf(call);
  expect(all.length).toBeGreaterThan(0);
  expect(faultsIn(all)).toEqual([]);
  expect(expectedText(all[0] as string, germanTexts)).toContain(german);
});

test('a head that stands twice is not called a table', () => {
  let said = '';
  try {
    motescale.csvColumns({ header: ['a', 'a'], rows: [] });
  } catch (error) {
    said = motescale.errorText(error, germanTexts);
  }
  expect(said).toBe(
    "table.header[1] lässt sich nicht als Tabelle mit Trennzeichen lesen: 'a'. " +
      'Erwartet: ein eigener Kopf für Spalte 2 (B): Spalte 1 (A) hat ihn auch.',
  );
});
