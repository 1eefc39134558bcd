// How long a filter cart must run: from the counts after the collapse, with what usually comes in (the unit stands: on
// the safe side), one ratio for each size.
import { iso4406, limitsOf, steadyStateCounts, timeToReachCode } from 'motescale';
import { day, hour, minute } from './units.mjs';

/**
 * The plan for a unit whose own filter has failed, and the counts measured while it was carried out; null for the
 * others.
 */
export function planOf({ unit, kept, events }) {
  const { collapse, cart } = unit;
  if (collapse === undefined) return null;
  const before = kept.find(({ time }) => time >= cart.from - 2 * hour);
  const tank = {
    litres: unit.litres,
    litresPerMin: cart.litresPerMin,
    counts: { ...before.counts, counted: undefined, volumeMl: undefined },
    beta: cart.beta,
    ingressionPerMin: ingressionOf(kept, unit),
  };
  const time = timeToReachCode(tank, limitsOf(iso4406, unit.target));
  const measured = kept
    .filter((reading) => reading.time >= cart.from && reading.time < cart.to)
    .filter((_reading, i) => i % 4 === 0);
  return {
    at: before.time,
    code: before.codes['ISO 4406'],
    tank,
    time,
    settles: steadyStateCounts(tank),
    measured: measured.map((reading) => ({ minutes: (reading.time - cart.from) / minute, counts: reading.counts })),
    returned: events.find((event) => event.event === 'returned' && event.alarm === 'dirt' && event.time > cart.from)
      ?.time,
  };
}

/** What came in per minute in the week before the collapse: in the steady state as much as the filter took out. */
function ingressionOf(kept, { collapse, litresPerMin, beta }) {
  const week = kept.filter(({ time }) => time >= collapse.from - 7 * day && time < collapse.from);
  return beta.map((ratio, i) => {
    const perMl = week.reduce((sum, { counts }) => sum + counts.perMl[i], 0) / week.length;
    return perMl * 1000 * litresPerMin * (1 - 1 / ratio);
  });
}
