/**
 * Handy steps of time up to a day, for buckets and for the marks of an axis; what goes beyond a day each adds itself.
 */
export const minute = 60000;
export const hour: number = 60 * minute;
export const day: number = 24 * hour;

const seconds = [1, 2, 5, 10, 15, 30, 60, 120, 300, 600, 900, 1800, 3600, 7200, 10800, 21600, 43200, 86400];

/** Ascending, in ms; each goes into a day without remainder. */
export const stepsOfADay: readonly number[] = /* @__PURE__ */ seconds.map((step) => step * 1000);
