/** Rules of what stands in every configuration, input and state that lives on: times, spans of time, names. */
import { earliestWritten, farthest, largestFigure, largestWhole, latestWritten, longestName } from '../rules/bounds.ts';
import type { NumberRule, TextRule } from '../rules/rule.ts';

export const timeRule: NumberRule = {
  kind: 'number',
  whole: true,
  least: -farthest,
  most: farthest,
  expected: 'whole milliseconds since 1970-01-01 UTC',
};

/** The time of an input: one that an event can tell. */
export const inputTimeRule: NumberRule = { ...timeRule, least: earliestWritten, most: latestWritten };

/** A length of time of 0 or more. */
export const spanRule: NumberRule = {
  kind: 'number',
  whole: true,
  least: 0,
  most: farthest,
  expected: 'whole milliseconds',
};

/** A length of time above 0. */
export const spanAbove0Rule: NumberRule = { ...spanRule, least: 1 };

/** A number of readings. */
export const countRule: NumberRule = {
  kind: 'number',
  whole: true,
  least: 0,
  most: largestWhole,
  expected: 'a whole number',
};

/** A figure of this trade. */
export const figureRule: NumberRule = {
  kind: 'number',
  least: -largestFigure,
  most: largestFigure,
  expected: 'a number',
};

/** A name that can stand in an event. */
export const nameRule: TextRule = { kind: 'text', longest: longestName, expected: 'a name' };
