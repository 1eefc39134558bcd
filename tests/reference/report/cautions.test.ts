/**
 * A caution said in one language is said in the other: text by text, English and German have the same warnings.
 */
import { describe, expect, test } from 'vitest';
import { germanTexts } from '../../../src/german/index.ts';
import { englishTexts } from '../../../src/report/index.ts';

type Pair = readonly [english: RegExp, german: RegExp];

/** The steps before a line is opened; their order counts. */
const steps: readonly Pair[] = [
  [/\bstop the pump\b/i, /\bPumpe (der Messleitung )?anhalten\b/],
  [/\block(ed|s)? (it |them )?out\b/i, /\bgegen Wiedereinschalten sichern\b/],
  [/\brelease all pressure\b/i, /\bDruck ablassen\b/],
  [/\baccumulators?\b/i, /\bDruckspeicher entlasten\b/],
];

/** What else warns, or says what makes a step safe. */
const cautions: readonly Pair[] = [
  ...steps,
  [/\bstop a sample pump\b/i, /\bPumpe zur Probenahme( so lange)? anhalten\b/],
  [/\bfrom a distance\b/i, /\baus der Entfernung\b/],
  [/\bby its own procedure\b/i, /\bnach ihrer eigenen Anweisung\b/],
  [/\bstopping its pump alone\b/i, /\bNur ihre Pumpe anzuhalten\b/],
  [/\bstop the cooling\b/i, /\bdie Kühlung abstellen\b/],
  [/\bdrop a load\b/i, /\beine Last fallen lassen\b/],
  [/\bnever\b/i, /\bnie(mals)?\b/i],
  [/\bhot\b/i, /(^|\s)heiß/i],
  [/\bdo not touch\b/i, /\bnicht anfassen\b/i],
  [/\bbefore the line is touched\b/i, /\bbevor jemand die Leitung anfasst\b/i],
  [/\blet the oil cool\b/i, /\bdas Öl abkühlen lassen\b/],
  [/\b(warm up|warmer|run warm)\b/i, /\b(warm werden|wärmer|warm laufen)\b/],
  [/\brated\b/i, /\bfür den Druck( der Leitung)? ausgelegte/],
  [/\brelief valve\b/i, /\bDruckbegrenzungsventil\b/],
  [/\bfree path to the tank\b/i, /\bfreiem Abfluss zum Behälter\b/],
  [/\brestrictor\b/i, /\bDrossel\b/],
  [/\bprotects nothing\b/i, /\bschützt nicht\b/],
  [/\bthrottle\b/i, /\bdrosseln\b/],
  [/\blow-pressure\b/i, /\bNiederdruck-/],
  [/\bpressure side\b/i, /\bDruckseite\b/],
  [/\bfasten\b/i, /\bbefestigen\b/],
  [/\beyes and skin protected\b/i, /\bAugen und Haut geschützt\b/],
  [/\btakes no pressure off\b/i, /\bbaut sie keinen Druck ab\b/],
  [/\bfirst (stop|compare)\b/i, /\bzuerst die (Pumpe|Temperatur)\b/i],
];

/** Every text by its path. */
function textsOf(value: unknown, path: string): [string, string][] {
  if (typeof value === 'string') return [[path, value]];
  return Object.entries(value as object).flatMap(([key, member]) => textsOf(member, `${path}.${key}`));
}

const english = new Map(textsOf(englishTexts, 'texts'));
const german = new Map(textsOf(germanTexts, 'texts'));

test('German has the members of English and no others', () => {
  expect([...german.keys()].sort()).toEqual([...english.keys()].sort());
});

describe('a caution', () => {
  test.each(cautions)('%s is in English where %s is in German', (inEnglish, inGerman) => {
    const warned = [...english].filter(([, text]) => inEnglish.test(text)).map(([path]) => path);
    const warnedInGerman = [...german].filter(([, text]) => inGerman.test(text)).map(([path]) => path);
    expect(warned).not.toEqual([]);
    expect(warnedInGerman.sort()).toEqual(warned.sort());
  });

  test('comes in the same order: stop, lock out, release all pressure, accumulators', () => {
    const order = (text: string, language: 0 | 1): number[] => {
      const places = steps.map((pair, step) => [text.search(pair[language]), step] as const);
      return places
        .filter(([place]) => place >= 0)
        .sort(([a], [b]) => a - b)
        .map(([, step]) => step);
    };
    for (const [path, text] of english) expect(order(german.get(path) ?? '', 1), path).toEqual(order(text, 0));
  });

  test('no word that warns in English is outside the list of pairs', () => {
    const warning = /\b(stop|stopping|lock|pressure off|accumulators?|never|hot|protect\w*|eyes|skin)\b|\bDo not\b/i;
    const apart = /\bwhich the counts do not tell apart\b/;
    const left = textsOf(englishTexts.findings, 'findings').map(([path, text]) => {
      const without = cautions.reduce((rest, [pair]) => rest.replace(new RegExp(pair, 'gi'), ''), text);
      return [path, without.replace(apart, '').match(warning)?.[0]];
    });
    expect(left.filter(([, word]) => word !== undefined)).toEqual([]);
  });
});
