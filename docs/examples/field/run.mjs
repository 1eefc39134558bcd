// The field year run through parser and monitor, as a host does it: what comes is JSON, and whatever is said is kept.
import { advanceMonitor, prepareMonitor, problemsOf, startMonitor } from 'motescale';
import { parseMonitorReading } from 'motescale/schema';
import { faults } from './faults.mjs';
import { healthyYear } from './healthy.mjs';
import { config } from './unit.mjs';

/** Runs the year, with the faults or without. */
export function fieldYear({ seed, broken = true } = {}) {
  const year = healthyYear(seed);
  const host = hostOf(prepareMonitor(config));
  const rows = [];
  let at = 0;
  for (const fault of broken ? faults : []) {
    const { from, lasts } = fault;
    while (at < from) host.take(year[at++]);
    const before = host.heard.length;
    const window = year.slice(from, from + lasts);
    const delivered = fault.deliver(window, year[from - 1]);
    delivered.forEach((one, i) => {
      host.take(one, window[Math.min(i, lasts - 1)].time);
    });
    at = from + lasts;
    rows.push({ ...fault, time: window[0].time, heard: host.heard.slice(before) });
  }
  while (at < year.length) host.take(year[at++]);
  return { rows: rows.map((row) => rowOf(row, host.heard)), heard: host.heard, state: host.state() };
}

/**
 * Takes what comes; a member nobody knows is put away, and a time that is none is replaced by the host's own: both are
 * told.
 */
function hostOf(prepared) {
  let state = startMonitor(prepared);
  const heard = [];
  return {
    heard,
    state: () => state,
    take(given, now = given.time) {
      const told = [];
      const input = given.kind === 'tick' ? given : parsed(JSON.parse(JSON.stringify(given)), told, now);
      const step = advanceMonitor(prepared, state, input);
      state = step.state;
      heard.push({ input, told, verdict: step.verdict, events: step.events });
    },
  };
}

function parsed(raw, told, now) {
  try {
    return parseMonitorReading(raw, told);
  } catch (error) {
    const problems = problemsOf(error);
    if (problems.length === 0) throw error;
    for (const { path, code } of problems) {
      const name = path[0];
      if (code === 'unknown_option') delete raw[name];
      else if (name === 'time') raw.time = now;
      else throw error;
    }
    told.push(...problems);
    return parseMonitorReading(raw, told);
  }
}

/** When the fault was told, and what became of every reading. */
function rowOf({ name, told, time, heard, lead }, all) {
  const place = heard.findIndex((one) => wordsOf(one).includes(told));
  const readings = heard.filter(({ verdict }) => verdict !== null);
  const judged = readings.filter(({ verdict }) => verdict.arrival === 'in_order').length;
  const events = all.flatMap((one) => one.events);
  const named = readings.filter(({ input, verdict }) => verdict.arrival !== 'in_order' && isNamed(input.time, events));
  return {
    name,
    time,
    told: place < 0 ? null : told,
    after: place < 0 ? null : heard.slice(lead, place + 1).filter(({ verdict }) => verdict !== null).length,
    lost: readings.length - judged - named.length,
    named: named.length,
    words: [...new Set(heard.flatMap(wordsOf))],
  };
}

function isNamed(time, events) {
  return events.some(
    ({ reading, judged = [], lost = [] }) => reading === time || judged.includes(time) || lost.includes(time),
  );
}

/** Everything said of one input: findings, events, and what was said when it was read. */
export function wordsOf({ told, verdict, events }) {
  const words = [...events.map(({ event }) => event), ...told.map(({ code }) => code)];
  for (const { code, affects } of verdict?.findings ?? [])
    words.push(code === 'values_stuck' ? `${code} ${affects[0]}` : code);
  if (verdict?.codes.some(({ from }) => from === 'code')) words.push('code alone');
  return words;
}
