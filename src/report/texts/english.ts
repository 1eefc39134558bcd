/** English. */
import { englishAcceptanceTexts } from '../../acceptance/index.ts';
import { englishFindingTexts, type FindingTexts } from '../../reading/index.ts';
import { requireLike } from '../../rules/like.ts';
import { flowControlTexts } from '../../sampling/index.ts';
import { englishAcceptanceSheetTexts } from './englishAcceptanceSheet.ts';
import { englishChartTexts } from './englishCharts.ts';
import { englishErrorTexts } from './englishErrors.ts';
import { englishEventTexts } from './englishEvents.ts';
import { englishExpectedTexts } from './englishExpected.ts';
import { englishPeriodTexts, englishSheetTexts } from './englishPages.ts';
import type { Texts } from './types.ts';

/** All words in English: what stands where no other texts are given, and the pattern for another language. */
export const englishTexts: Texts = /* @__PURE__ */ withFindings(englishFindingTexts, {
  language: 'en',
  groupSign: ',',
  percent: '{number} %',
  qualities: { good: 'good', uncertain: 'uncertain', bad: 'bad' },
  arrivals: { set_aside: 'set aside: its time is far ahead', repeated: 'repeated' },
  verdicts: {
    in_target: 'in target',
    above_target: 'above target',
    not_judged: 'target not judged',
    not_relied_on: 'not to be relied on',
  },
  durations: {
    seconds: '{number} s',
    minutes: '{number} min',
    hours: '{number} h',
    days: '{number} d',
    centuries: 'more than 100 years',
  },
  orDirtier: 'or dirtier',
  noParticles: 'No particle at any size: clean oil, or a counter that counts nothing.',
  rows: {
    time: 'time ({zone})',
    offset: 'UTC offset',
    perMl: '{size} per mL',
    quality: 'quality',
    verdict: 'verdict',
    doubts: 'doubtful figures',
    arrival: 'arrival',
  },
  measured: {
    mlPerMin: 'flow (mL/min)',
    kPa: 'pressure (kPa)',
    celsius: 'temperature (°C)',
    mm2PerS: 'viscosity (mm²/s)',
    waterSaturation: 'water saturation (%)',
  },
  charts: englishChartTexts,
  period: englishPeriodTexts,
  sheet: englishSheetTexts,
  events: englishEventTexts,
  flowControl: flowControlTexts,
  acceptance: englishAcceptanceTexts,
  acceptanceSheet: englishAcceptanceSheetTexts,
  errors: englishErrorTexts,
  errorLine: '{parameter}, line {number},',
  problems: {
    whole: 'The input',
    line: 'Line {number}',
    cell: "Line {number}, column '{column}',",
    column: "Column '{column}'",
    absent: '{parameter} did not come.',
    leftOut: 'Left out.',
    kept: 'Kept.',
    readAs: 'Read as {value}.',
    readBecause: 'Read as {value}: {why}.',
  },
  expectation: 'Expected: {expected}.',
  expected: englishExpectedTexts,
});

/** The texts of findings, which stand with the findings, joined to all others. */
export function withFindings(findings: FindingTexts, others: Omit<Texts, keyof FindingTexts>): Texts {
  return { ...findings, ...others };
}

/** The texts given, English where left out. */
export function requireTexts(given: Texts | undefined, parameter: string): Texts {
  const texts = given ?? englishTexts;
  requireLike(texts, englishTexts, parameter);
  return texts;
}
