/**
 * A thermometer that freezes again and again, on machines that run, rest and are controlled: how many freezes are told,
 * after how long, and how often a sound one is called stuck. The tables stand in docs/frozen.md; those of readings
 * every five minutes are made with MOTESCALE_FULL.
 */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { sensorStuck } from '../../../src/reading/assess/course.ts';
import { wholeLimits } from '../../../src/reading/ownLimits.ts';
import { advanceRepeats, noRepeats, type Repeats } from '../../../src/reading/remembered/repeats.ts';
import { full } from '../../volume.ts';
import { day, frozen, hour, type Rule, start, temperatures, toldBy, units } from './frozenUnits.ts';

const rules: readonly Rule[] = ['16 times the longest', 'twice the longest', 'nothing', 'where it comes again'];
const chosen: Rule = 'where it comes again';
const lengths = { '12 h': 12 * hour, '48 h': 48 * hour, '110 h': 110 * hour, '2 weeks': 14 * day, dead: 48 * hour };
const seeds = [4406, 1, 2];
const page = readFileSync('docs/frozen.md', 'utf8');

const limits = wholeLimits({});

/** The same by the sources. */
function toldBySources(values: readonly number[], every: number): number[] {
  const told: number[] = [];
  let repeats: Repeats = noRepeats;
  let before = false;
  values.forEach((celsius, i) => {
    const reading = { time: start + i * every, celsius };
    repeats = advanceRepeats(repeats, reading);
    const is = (sensorStuck.find({ limits, repeats, reading, tables: [], needed: [] }) ?? []).length > 0;
    if (is && !before) told.push(i);
    before = is;
  });
  return told;
}

interface Sum {
  years: number;
  /** Called stuck while sound: in all, and in the worst year. */
  falsely: number;
  worst: number;
  /** Of each length: of how many series the first, second and tenth freeze was told, all told, and their hours. */
  of: { [length: string]: { places: number[]; told: number; ms: number } };
}

const none = (): Sum => ({ years: 0, falsely: 0, worst: 0, of: {} });

function add(
  sum: Sum,
  length: string,
  freezes: readonly { from: number; to: number }[],
  told: readonly number[],
  every: number,
) {
  sum.of[length] ??= { places: [0, 0, 0], told: 0, ms: 0 };
  const one = sum.of[length];
  freezes.forEach(({ from, to }, k) => {
    const at = told.find((i) => i >= from && i < to);
    if (at === undefined) return;
    one.told += 1;
    one.ms += (at - from) * every;
    const place = [0, 1, 9].indexOf(k);
    if (place >= 0) one.places[place] = (one.places[place] as number) + 1;
  });
}

const row = (name: string, sum: Sum) => {
  const cells = Object.keys(lengths).map((length) => {
    const { places, told, ms } = sum.of[length] ?? none().of[length] ?? { places: [], told: 0, ms: 0 };
    const percent = places.map((n) => Math.round((100 * n) / sum.years)).join(', ');
    return told === 0 ? percent : `${percent}; ${Math.round(ms / told / hour)} h`;
  });
  return `| ${[name, ...cells, `${Math.round((100 * sum.falsely) / sum.years) / 100}; ${sum.worst}`].join(' | ')} |`;
};

/** By rule, and by machine for the rule that is built. */
function tables(every: number, years: readonly number[]): { byRule: string; byUnit: string } {
  const byRule: { [rule: string]: Sum } = {};
  const byUnit: { [name: string]: Sum } = {};
  const note = (rule: Rule, name: string, what: (sum: Sum) => void) => {
    byRule[rule] ??= none();
    what(byRule[rule]);
    if (rule !== chosen) return;
    byUnit[name] ??= none();
    what(byUnit[name]);
  };
  for (const [unit, machine] of Object.entries(units))
    for (const step of [0.1, 1])
      for (const seed of years) {
        const values = temperatures(machine, every, step, seed);
        expect(toldBySources(values, every), unit).toEqual(toldBy(chosen, values, every));
        for (const rule of rules) {
          const told = toldBy(rule, values, every).length;
          note(rule, `${unit}, ${step} °C`, (sum) => {
            sum.years += 1;
            sum.falsely += told;
            sum.worst = Math.max(sum.worst, told);
          });
        }
        for (const [length, ms] of Object.entries(lengths)) {
          const { shown, freezes } = frozen(values, every, ms, seed + ms, length === 'dead');
          expect(toldBySources(shown, every), unit).toEqual(toldBy(chosen, shown, every));
          for (const rule of rules) {
            const told = toldBy(rule, shown, every);
            note(rule, `${unit}, ${step} °C`, (sum) => add(sum, length, freezes, told, every));
          }
        }
      }
  const written = (sums: typeof byRule) =>
    Object.entries(sums)
      .map(([name, sum]) => row(name, sum))
      .join('\n');
  return { byRule: written(byRule), byUnit: written(byUnit) };
}

test('a reading every hour: the rule by hand tells what the sources tell', () => {
  expect(tables(hour, seeds.slice(0, 1)).byUnit).not.toBe('');
});

test.runIf(full)('a reading every hour: the tables of the page', { timeout: 300000 }, () => {
  const { byRule, byUnit } = tables(hour, seeds);
  expect(page).toContain(byRule);
  expect(page).toContain(byUnit);
});

test.runIf(full)('a reading every five minutes: the table of the page', { timeout: 900000 }, () => {
  expect(page).toContain(tables(hour / 12, [4406]).byRule);
});
