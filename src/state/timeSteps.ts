/**
 * Handy steps of time up to a day, for buckets and for the marks of an axis; what goes beyond a day each adds itself.
 */
export const minute = 60000;
export const hour: number = 60 * minute;
export const day: number = 24 * hour;

const second = 1000;

/** Ascending, in ms; each goes into a day without remainder. */
export const stepsOfADay: readonly number[] = [
  second,
  2 * second,
  5 * second,
  10 * second,
  15 * second,
  30 * second,
  minute,
  2 * minute,
  5 * minute,
  10 * minute,
  15 * minute,
  30 * minute,
  hour,
  2 * hour,
  3 * hour,
  6 * hour,
  12 * hour,
  day,
];
