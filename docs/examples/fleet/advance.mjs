// What a worker does with the inputs of one unit: the same arithmetic on every machine, and in verify.mjs. No I/O.
import { advanceUnit, mergeRollUps, prepareMonitor, rollUp, standardTables, startUnit } from 'motescale';

/** Oil temperature, in buckets of ten minutes; a reading stands for five minutes at most. */
export const rollUpOptions = { widthMs: 600000, holdMs: 300000 };

/**
 * So many inputs may wait for one before them: a week with one every five minutes, and 600 kB of what is kept of the
 * unit. With more the step throws, since a store may refuse them.
 */
const mostWaiting = 2000;

/**
 * What is kept of a unit: its record; the last bucket of its roll-up, which is still open; inputs that came before
 * their turn. `configurations`: by name, all that are in use; `first`: that of a unit not heard of yet.
 */
export function prepareUnits(configurations, first) {
  const known = new Map();
  for (const [name, config] of Object.entries(configurations))
    known.set(name, prepareMonitor(config, { tables: standardTables, configuration: name }));

  function inForce(record, { seq, payload }) {
    const brought = seq === record.seq + 1 && payload?.kind === 'configuration' ? payload.configuration : undefined;
    return known.get(brought) ?? known.get(record.configuration);
  }

  const fresh = (unit) => ({
    record: startUnit(known.get(first), { unit, configuration: first }),
    open: [],
    waiting: [],
  });

  /**
   * Takes inputs, as they came. Gives what is to be kept now, the events, the buckets that are full, and `told` for an
   * operator. A unit whose configuration is not installed here keeps its inputs waiting.
   */
  function advance(kept, inputs) {
    const todo = [...kept.waiting, ...inputs].sort((a, b) => a.seq - b.seq);
    const waiting = [];
    const events = [];
    const readings = [];
    let { record } = kept;
    let told = '';
    for (const input of todo) {
      try {
        const step = advanceUnit(inForce(record, input), record, input);
        if (step.outcome === 'gap') {
          told = `${record.unit} waits for input ${step.missing}`;
          if (!waiting.some(({ seq }) => seq === input.seq)) waiting.push(input);
        }
        record = step.record;
        events.push(...step.events);
        if (step.verdict?.arrival === 'in_order') readings.push(rolledUp(input.payload, step.verdict));
      } catch (error) {
        if (error.code !== 'bad_configuration') throw error;
        told = `${record.unit} waits at input ${input.seq}: ${error.message}`;
        waiting.push(input);
      }
    }
    if (waiting.length > mostWaiting) throw new Error(`${told}: ${waiting.length} inputs wait`);
    const buckets = mergeRollUps(kept.open, rollUp(inTime(readings, kept.open), rollUpOptions), rollUpOptions);
    return {
      kept: { record, open: buckets.slice(-1), waiting },
      events,
      readings,
      buckets: buckets.slice(0, -1),
      told,
    };
  }

  return { fresh, advance };
}

function rolledUp({ time, celsius = null }, { figureQualities }) {
  return { time, value: celsius, quality: figureQualities.celsius ?? 'good' };
}

/** A roll-up never goes back: readings of a clock that was set back are left out until it has caught up. */
export function inTime(readings, [open]) {
  let last = open?.last?.time ?? Number.NEGATIVE_INFINITY;
  return readings.filter(({ time }) => {
    if (time < last) return false;
    last = time;
    return true;
  });
}

/** The payload of a delivery: text that is no JSON is an input that cannot be taken, and is told like any other. */
export function payloadOf(text) {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}
