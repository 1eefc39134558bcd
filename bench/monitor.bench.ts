/**
 * One reading through a monitor of one table and two alarms, in µs, and as a multiple of a classification by hand in
 * the same run.
 */
import { bench, describe } from 'vitest';
import { iso4406 } from '../src/codes/index.ts';
import { advanceMonitor, prepareMonitor, startMonitor } from '../src/monitor/index.ts';
import { classifyByHand } from './byHand.ts';
import { source } from './samples.ts';

const prepared = prepareMonitor({
  codes: [{ table: iso4406, target: '18/16/13' }],
  alarms: [
    { id: 'dirty', type: 'high', figure: { code: 'iso4406' }, setpoint: '18/16/13' },
    { id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 65, deadband: 3 },
  ],
});
const sample = source();
let state = startMonitor(prepared);
let n = 0;

function advance(): void {
  n += 1;
  const reading = { counts: sample(), celsius: 50 + (n % 7), kPa: 300, mlPerMin: 60 + (n % 3) };
  state = advanceMonitor(prepared, state, { time: n * 60000, ...reading }).state;
}

function byHand(): void {
  classifyByHand(sample());
}

/** µs for one call: the least of ten rounds. */
function microseconds(call: () => void): number {
  let least = Infinity;
  for (let round = 0; round < 10; round += 1) {
    const from = performance.now();
    for (let i = 0; i < 5000; i += 1) call();
    least = Math.min(least, (performance.now() - from) / 5);
  }
  return least;
}

const whole = microseconds(advance);
const hand = microseconds(byHand);
console.log(`advanceMonitor ${whole.toFixed(1)} µs, by hand ${hand.toFixed(2)} µs: ${(whole / hand).toFixed(0)} times`);

describe('a reading through a monitor', () => {
  bench('classified by hand', byHand);
  bench('advanceMonitor, one table, two alarms', advance);
});
