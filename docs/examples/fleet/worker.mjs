// The loop of a worker, on any engine with four functions. As many workers as there are processors may run, on as many
// machines.
//
// take()               the next inputs of some units, each { unit, seq, text }; no other worker has them meanwhile.
//                      Null where there are none
// load(batch, units)   what is kept of these units, a Map; a unit not heard of is not in it
// store(batch, steps)  keeps all of it with its events and buckets, and the inputs are done; or throws
// letGo(batch)         gives the inputs back as they were
//
// A worker may be killed or stopped at any line. What it had not stored another one does again, with the same result;
// what it stored stands.
import { setTimeout as sleep } from 'node:timers/promises';
import { payloadOf } from './advance.mjs';

/** After a failure a worker pauses, each time twice as long up to this, and never as long as another. */
const longestPauseMs = 2000;

/**
 * Works until `stopping()`. `units`: of prepareUnits. `tell`: lines for an operator. `seen(batch, stepMs)`: called
 * between step and store, for figures and tests. `pauseMs`: how long to wait where nothing is to do, and after a first
 * failure.
 */
export async function work({ engine, units, tell, stopping, seen = () => {}, pauseMs = 200 }) {
  let pause = pauseMs;
  while (!stopping()) {
    let batch = null;
    try {
      batch = await engine.take();
      if (batch === null) {
        await sleep(pauseMs);
        continue;
      }
      const inputs = byUnit(batch.inputs);
      const kept = await engine.load(batch, [...inputs.keys()]);
      const before = process.cpuUsage();
      const steps = stepsOf(units, inputs, kept, tell);
      const { user, system } = process.cpuUsage(before);
      await seen(batch, (user + system) / 1000);
      await engine.store(batch, steps);
      pause = pauseMs;
    } catch (error) {
      tell(`let go: ${error.message}`);
      await engine.letGo(batch).catch(() => {});
      await sleep(pause * (0.5 + Math.random()));
      pause = Math.min(2 * pause, longestPauseMs);
    }
  }
}

function byUnit(inputs) {
  const all = new Map();
  for (const { unit, seq, text } of inputs) {
    const input = { seq, payload: payloadOf(text) };
    if (all.has(unit)) all.get(unit).push(input);
    else all.set(unit, [input]);
  }
  return all;
}

/** A step for each unit that has changed. */
function stepsOf(units, inputs, kept, tell) {
  const steps = [];
  for (const [unit, own] of inputs) {
    const before = kept.get(unit) ?? units.fresh(unit);
    const { kept: after, events, buckets, told } = units.advance(before, own);
    if (told !== '') tell(told);
    const waits = JSON.stringify(before.waiting) !== JSON.stringify(after.waiting);
    if (after.record !== before.record || waits) steps.push({ unit, kept: after, events, buckets });
  }
  return steps;
}
