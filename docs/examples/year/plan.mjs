// How long a filter cart must run: from the counts after the collapse, with what usually comes in, one ratio for each size.
import { iso4406, limitsOf, steadyStateCounts, timeToReachCode } from 'motescale';
import { day, hour, minute } from './units.mjs';

/** The plan for a unit whose own filter has failed, and the counts measured while it was carried out; null for the others. */
export function planOf({ unit, days, kept, events }) {
  const { collapse, cart } = unit;
  if (collapse === undefined) return null;
  const before = kept.find(({ time }) => time >= cart.from - 2 * hour);
  const tank = {
    litres: unit.litres,
    litresPerMin: cart.litresPerMin,
    counts: { ...before.counts, counted: undefined, volumeMl: undefined },
    beta: cart.beta,
    ingressionPerMin: unit.usual.map(
      (usual, i) => usual * worn(days, unit) * 1000 * unit.litresPerMin * (1 - 1 / unit.beta[i]),
    ),
  };
  const time = timeToReachCode(tank, limitsOf(iso4406, unit.target));
  const measured = kept
    .filter((reading) => reading.time >= cart.from && reading.time < cart.to)
    .filter((_reading, i) => i % 10 === 0);
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

/** What came in during the week before the collapse, as a multiple of the usual: in the steady state the counts tell. */
function worn(days, { collapse, usual }) {
  const week = days.filter(
    ({ at6 }) => at6.mean !== null && at6.start < collapse.from - day && at6.start >= collapse.from - 8 * day,
  );
  return week.reduce((sum, { at6 }) => sum + at6.mean, 0) / week.length / usual[1];
}
