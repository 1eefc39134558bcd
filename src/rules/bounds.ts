/**
 * Bounds and words that several folders share, each once. A bound of one folder stands in its `rules.ts` or
 * `ranges.ts`.
 */

/** No figure of this trade is larger, or (above zero) smaller; within, products and quotients of a few stay finite. */
export const largestFigure = 1e60;
export const smallestFigure = 1e-60;
/** The difference of two figures, as a state keeps it. */
export const largestDifference = 2e60;

/** Up to here a double holds every whole number exactly. */
export const largestWhole = 9007199254740991;

/**
 * The farthest a time lies from 1970, in ms: 100,000,000 days, the span of an ECMAScript time value (ECMA-262, Time
 * Values and Time Range).
 */
export const farthest = 8.64e15;

/** The times that can be written in any zone, a year from either end of the years of four digits: years 2 to 9998. */
export const earliestWritten = -62103974400000;
export const latestWritten = 253370678399999;

/** No figure of a reading is beyond it, so that means and slopes can be told and what is remembered of it is short. */
export const largestRead = 1e12;

/** The longest name that a person chooses. */
export const longestName = 64;

/** How far a figure can be trusted, best first, in the words of OPC UA. */
export const qualityWords = ['good', 'uncertain', 'bad'] as const;

/**
 * The temperatures of an oil, °C (our choice): below no oil flows, above none is a lubricant for long, and kelvin of an
 * oil from -23 °C up lie above. Viscosity baths and published check points lie within.
 */
export const leastOilCelsius = -80;
export const mostOilCelsius = 250;
/** No oil is thinner, mm²/s: where the chart of ASTM D341 ends. */
export const leastOilMm2PerS = 0.2;
/** No pressure at all, as a gauge pressure in kPa below the standard atmosphere (ISO 2533). */
export const leastGaugeKPa = -101.325;

/** All of something, in percent. */
export const mostPercent = 100;
