/**
 * What a reading may be: its members and their bounds, once, for the gate, for schema/ and for the docs. A name of
 * another kind is refused: a misspelt figure would pass for one not measured.
 */
import { sizings } from '../counts/checkCounts.ts';
import { countedRule, dilutionRule, perMlRule, sizeRule, volumeRule } from '../counts/ranges.ts';
import { earliestWritten, largestRead, latestWritten, longestName, qualityWords } from '../rules/bounds.ts';
import type { EitherRule, NumberRule, ObjectRule, Rule } from '../rules/rule.ts';
import { otherNames } from './otherNames.ts';

/** The figures that have a quality. */
export const figureNames = ['counts', 'mlPerMin', 'kPa', 'celsius', 'mm2PerS', 'waterSaturation'] as const;

export const maxSizes = 32;
const mostOthers = 64;

/**
 * The most a relative saturation can be, as a share: above it, it is taken for percent, since no oil holds twice what
 * it can for long.
 */
export const mostSaturation = 2;

/** Where a sensor of water ends: free water shows as 1 and no more, so that a limit above could never be exceeded. */
export const fullSaturation = 1;

const quality: Rule = { kind: 'word', words: qualityWords };
const measured = { kind: 'number', most: largestRead, optional: true } as const;
const celsius = { kind: 'number', expected: 'a temperature in °C', least: -273.15, most: 1000 } as const;
const other: NumberRule = { kind: 'number', expected: 'a number', least: -largestRead, most: largestRead };
const otherWithQuality: ObjectRule = {
  kind: 'object',
  expected: 'a figure { value, quality }',
  members: { value: other, quality },
};
const otherFigure: EitherRule = {
  kind: 'either',
  expected: 'a number from -1e12 to 1e12, or { value, quality }',
  forms: [other, otherWithQuality],
  choose: (value) => (typeof value === 'object' && value !== null ? otherWithQuality : other),
};

/** Counts of a reading; what their members ask of each other, `checkCounts` says. */
const countsRule: ObjectRule = {
  kind: 'object',
  expected: 'counts { sizing, sizes, perMl }',
  members: {
    sizing: { kind: 'word', words: sizings },
    sizes: { kind: 'list', expected: 'sizes, ascending', of: sizeRule, longest: maxSizes },
    perMl: { kind: 'list', expected: 'counts, one for each size', of: perMlRule, longest: maxSizes },
    counted: {
      kind: 'list',
      expected: 'particles counted, one for each size',
      of: countedRule,
      longest: maxSizes,
      optional: true,
    },
    volumeMl: { ...volumeRule, expected: 'a volume counted in mL', optional: true },
    dilution: { ...dilutionRule, optional: true },
  },
};

const ms = 'whole milliseconds since 1970-01-01T00:00:00Z';
const time = { kind: 'number', expected: ms, least: earliestWritten, most: latestWritten, whole: true } as const;

export const readingRule: ObjectRule = {
  kind: 'object',
  hints: otherNames,
  expected: 'a reading { time, counts, ... }',
  members: {
    time: { ...time, expected: `the end of the measurement, ${ms}`, optional: true },
    receivedAt: { ...time, expected: `when the reading came in, ${ms}`, optional: true },
    counts: { ...countsRule, optional: true },
    codes: {
      kind: 'record',
      expected: "codes by table, such as { iso4406: '18/16/13' }",
      of: { kind: 'text', expected: 'a code as text', shortest: 0, longest: 200 },
      longest: 16,
      optional: true,
    },
    // a meter at rest shows a little below 0: that is no flow
    mlPerMin: { ...measured, expected: 'a flow in mL/min', least: -largestRead },
    measuringSeconds: { ...measured, expected: 'a measuring time in s', above: 0 },
    kPa: { ...measured, expected: 'a gauge pressure in kPa', least: -largestRead },
    celsius: { ...celsius, optional: true },
    mm2PerS: { ...measured, expected: 'a kinematic viscosity in mm²/s', above: 0 },
    waterSaturation: {
      ...measured,
      expected: 'a relative saturation with water as a share (0.45 for 45 %)',
      least: 0,
      most: mostSaturation,
    },
    coldestCelsius: { ...celsius, optional: true },
    flushedMl: { ...measured, expected: 'oil passed in mL', least: 0 },
    calibratedAt: { ...time, expected: `when the counter was calibrated, ${ms}`, optional: true },
    mode: { kind: 'text', expected: 'a word', longest: longestName, optional: true },
    qualities: {
      kind: 'record',
      expected: "what the instrument says of its figures, such as { counts: 'bad' }",
      of: quality,
      longest: figureNames.length,
      names: figureNames,
      optional: true,
    },
    others: { kind: 'record', expected: 'figures by name', of: otherFigure, longest: mostOthers, optional: true },
  },
};

export const timedReadingRule: ObjectRule = {
  ...readingRule,
  members: { ...readingRule.members, time: { ...time, expected: `the end of the measurement, ${ms}` } },
};
