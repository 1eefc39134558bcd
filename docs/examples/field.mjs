// A year of one unit in which everything goes wrong once: each fault, when it came, by what word and after how many
// readings it was told.
import { fieldYear } from './field/run.mjs';
import { heading, say, table } from './page.mjs';

/** Prints the year with its faults, and the same year without. */
export function printField() {
  heading('Lower gate, a year of faults: one reading an hour');
  say(
    'The hydraulic power unit of a lock gate, invented and made from a seed. Every week or so something else goes ' +
      'wrong, for ten readings. What comes is JSON, read by parseMonitorReading and taken by advanceMonitor.',
  );
  console.log();
  const { rows } = fieldYear();
  table(
    ['what goes wrong', 'from', 'told by', 'after', 'lost'],
    rows.map(({ name, time, told, after, lost }) => [name, dayOf(time), wordOf(told), after ?? '-', lost]),
    'lllrr',
  );
  console.log();
  say(summary(rows));
  const quiet = fieldYear({ broken: false });
  const happened = quiet.heard.flatMap(({ events }) => events);
  say(
    `The same year without faults: ${happened.length} events, both of the oil: ` +
      `${happened.map(({ time, alarm, event }) => `${alarm} ${event} ${dayOf(time)}`).join(', ')}.`,
  );
}

/** The year in two sentences. */
export function summary(rows) {
  const missed = rows.filter(({ told }) => told === null).map(({ name }) => name);
  const lost = rows.reduce((sum, row) => sum + row.lost, 0);
  const named = rows.reduce((sum, row) => sum + row.named, 0);
  return (
    `${rows.length - missed.length} of ${rows.length} faults told` +
    `${missed.length === 0 ? '' : `; not told: ${missed.join(', ')}`}. Readings that went unmentioned: ${lost}; ` +
    `${named} came late, twice or with a wrong time, and each is named by an event.`
  );
}

export function dayOf(time) {
  return new Date(time).toISOString().slice(0, 10);
}

/** The word without the figure it is about. */
export function wordOf(told) {
  return told === null ? 'not told' : told.split(' ')[0] === 'code' ? 'a code alone' : told.split(' ')[0];
}
