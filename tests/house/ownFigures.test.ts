/**
 * Guides, defaults, examples and tests have figures of their own; those of common practice stand in one file of the
 * tests.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { filesBelow } from '../files.ts';

const kinds = ['.ts', '.md', '.mjs', '.json', '.ipynb', '.csv'];
const told = [
  ...['README.md', 'DEVELOPERS.md'],
  ...['src', 'docs', 'bench'].flatMap((folder) => kinds.flatMap((kind) => filesBelow(folder, kind))),
];
const tests = filesBelow('tests', '.ts').filter((file) => !/reference\/practice|house\/ownFigures/.test(file));

/** A number with its unit, in words or as a member of an object. A bare 350 stands rightly in tables of standards. */
const phrases = [
  /\b350(\.0)? ?(mm²\/s|mm2\/s|mm\^2\/s|cSt|centistokes)/,
  /mm2PerS"?: 350\b/i,
  /\b(689\.\d+|69\d|690) ?kPa\b|[Kk]Pa"?: ?(689|690)\b|\b6\.9 bar\b|\b100 ?psi\b|psiToKPa\(100\)/,
  /\b6 (ft|feet)\b|\b1\.8(3|29) ?m\b|[Mm]etres"?: 1\.8(3|29)\b/,
  /\b75 mm²\/s[^.]*\b25 ?%|\b25 ?%[^.]*\b75 mm²\/s|\b140 mm²\/s[^.]*\b35 ?%|\b35 ?%[^.]*\b140 mm²\/s/,
  /\b10 s\b[^.]{0,160}\b60 s\b/s,
];
/** What no page says. */
const sayings = [/few hundred bar/, /kept for a year/, /every (two|2) minutes/];

/** The faults of a text, each as it stands there. */
function faultsOf(text: string, rules: readonly RegExp[]): string[] {
  return rules.map((rule) => rule.exec(text)?.[0]).filter((found) => found !== undefined);
}

/** Curves of pump speed written out in a text. */
function curvesOf(text: string): { mm2PerS: number; percent: number }[][] {
  const point = String.raw`\{\s*"?mm2PerS"?: ([\d.]+),\s*"?percent"?: ([\d.]+),?\s*\}`;
  const curves = text.match(new RegExp(String.raw`\[\s*(\/\/.*\s*)?(\*?\s*${point},?\s*)+\]`, 'g')) ?? [];
  return curves.map((curve) =>
    [...curve.matchAll(new RegExp(point, 'g'))].map(([, x, y]) => ({ mm2PerS: Number(x), percent: Number(y) })),
  );
}

/** Whether a speed lies on the straight line of common practice, to half a percent of full speed. */
function onTheLine({ mm2PerS, percent }: { mm2PerS: number; percent: number }): boolean {
  return Math.abs(percent - (25 + ((mm2PerS - 75) * (35 - 25)) / (140 - 75))) < 0.5;
}

describe('own figures', () => {
  test.each(told)('%s', (file) => {
    const text = readFileSync(file, 'utf8');
    expect(faultsOf(text, [...phrases, ...sayings])).toEqual([]);
    for (const curve of curvesOf(text)) {
      expect(curve.filter(onTheLine).length, JSON.stringify(curve)).toBeLessThan(2);
      expect(curve.length, JSON.stringify(curve)).toBeGreaterThanOrEqual(3);
    }
  });

  test.each(tests)('%s', (file) => {
    const text = readFileSync(file, 'utf8');
    expect(faultsOf(text, phrases)).toEqual([]);
    for (const curve of curvesOf(text)) expect(curve.filter(onTheLine).length, JSON.stringify(curve)).toBeLessThan(2);
  });

  test.each([
    'oil at 350 mm²/s',
    'fluid: { mm2PerS: 350, kgPerM3: 880 }',
    'leastKPa: 690',
    'about 690 kPa of gauge pressure (100 psi)',
    'riseMetres: 1.83',
    'no higher than 6 ft',
    '10 s while the flow is set and about 60 s in service',
    'a reading every two minutes',
  ])('the rules find: %s', (text) => {
    expect(faultsOf(text, [...phrases, ...sayings]).length).toBeGreaterThan(0);
  });

  test('the rules find a curve on the line', () => {
    const [curve = []] = curvesOf('[\n  { mm2PerS: 75, percent: 25 },\n  { mm2PerS: 140, percent: 35 },\n]');
    expect(curve.filter(onTheLine)).toHaveLength(2);
    expect(faultsOf('0 to 350 °F, 350.3', phrases)).toEqual([]);
  });
});

describe('cautions', () => {
  const pages = ['commissioning', 'line', 'oil', 'water', 'filtration', 'year', 'alarms', 'monitor', 'frozen', 'flush'];
  test.each(pages)('docs/%s.md says what makes the line safe before its first code', (page) => {
    const text = readFileSync(`docs/${page}.md`, 'utf8').replace(/\s+/g, ' ');
    const caution = text.search(/[Ss]top[^.]*lock[^.]*release all pressure/i);
    expect(caution).toBeGreaterThanOrEqual(0);
    if (page !== 'water') expect(caution).toBeLessThan(text.search(/```ts/));
    expect(text).toContain('(safety.md)');
  });
});
