// The same inputs through a single process, each unit in one go; and a comparison of every record, every event and
// every bucket.
import { rollUp } from 'motescale';
import { inTime, payloadOf, prepareUnits, rollUpOptions } from './advance.mjs';
import { beginsEarlier, configurations, earlierLibrary, inputsOf, kindOf, unitName } from './inputs.mjs';

export const trialUnits = prepareUnits(configurations, 'spring');

/** What is kept of unit i before its first input. */
export function begunOf(i) {
  const kept = trialUnits.fresh(unitName(i));
  return beginsEarlier(i) ? { ...kept, record: { ...kept.record, library: earlierLibrary } } : kept;
}

/** All of one unit: its record, its events, and its roll-up by one call. */
export function single(i, count) {
  const inputs = inputsOf(i, count).map(({ seq, text }) => ({ seq, payload: payloadOf(text) }));
  let kept = begunOf(i);
  const events = [];
  const readings = [];
  for (const input of inputs) {
    const step = trialUnits.advance({ ...kept, open: [] }, [input]);
    kept = step.kept;
    events.push(...step.events);
    readings.push(...step.readings);
  }
  return { record: kept.record, events, buckets: rollUp(inTime(readings, []), rollUpOptions) };
}

/**
 * Compares what an engine holds in the end with single processes: how many inputs are lost, events and buckets lost or
 * there twice, and unequal. `kinds` and `names` count what the inputs were, and the events.
 */
export function verify({ kept, events, buckets }, units, count) {
  const eventsOf = grouped(events);
  const bucketsOf = grouped(buckets);
  const told = { inputs: 0, events: 0, buckets: 0, lost: 0, twice: 0, unequal: 0, alone: 0, kinds: {}, names: {} };
  const before = process.cpuUsage();
  for (let i = 0; i < units; i += 1) {
    const unit = unitName(i);
    const wanted = single(i, count);
    const found = kept.get(unit);
    const own = { events: eventsOf.get(unit) ?? [], buckets: [...(bucketsOf.get(unit) ?? []), ...(found?.open ?? [])] };
    const ids = new Set(own.events.map(({ id }) => id));
    const starts = new Set(own.buckets.map(({ start }) => start));
    told.inputs += count;
    told.events += wanted.events.length;
    for (const { event } of wanted.events) oneMore(told.names, event);
    told.buckets += wanted.buckets.length;
    told.lost += Math.max(0, count - (found?.record.seq ?? 0));
    told.lost += wanted.events.filter(({ id }) => !ids.has(id)).length;
    told.lost += wanted.buckets.filter(({ start }) => !starts.has(start)).length;
    told.twice += own.events.length - ids.size + own.buckets.length - starts.size;
    const same = JSON.stringify({ record: found?.record, ...own }) === JSON.stringify(wanted);
    if (!same || found.waiting.length > 0) told.unequal += 1;
  }
  const { user, system } = process.cpuUsage(before);
  told.alone = (user + system) / 1000 / told.inputs;
  for (let i = 0; i < units; i += 1) for (const { text } of inputsOf(i, count)) oneMore(told.kinds, kindOf(text));
  return told;
}

function grouped(rows) {
  const all = new Map();
  for (const { unit, body } of rows) {
    if (all.has(unit)) all.get(unit).push(body);
    else all.set(unit, [body]);
  }
  return all;
}

function oneMore(counts, name) {
  counts[name] = (counts[name] ?? 0) + 1;
}
