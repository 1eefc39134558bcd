/**
 * Every public function under hostile inputs: one valid call each, with one to three places of its inputs replaced,
 * removed, repeated or added to; and every saved state, damaged the same way and restored. An error is ours, a result
 * holds no NaN, no input is changed (they are frozen) and no prototype is touched.
 *
 * With MOTESCALE_FULL=1 about 200,000 inputs: half from the fixed seed or MOTESCALE_SEED, half from a seed that is
 * printed.
 */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import * as motescale from '../../src/index.ts';
import { calls, handedBack } from '../house/misspelt/calls.ts';
import { full, some } from '../volume.ts';
import { changes, hostile } from './hostile.ts';

const { prepareAcceptance, prepareAlarm, prepareFlowControl, prepareMonitor } = motescale;
type Whole = (...inputs: unknown[]) => unknown;

/** Left whole: class tables and what a `prepare` made, for which `classTable` and `prepare` answer. */
const tables: readonly unknown[] = motescale.standardTables;
const isPrepared = (value: unknown): boolean => typeof value === 'object' && value !== null && 'prepared' in value;

const monitor = prepareMonitor({
  codes: [{ table: motescale.iso4406, target: '18/16/13' }],
  alarms: [{ id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 65, deadband: 3, latching: true }],
  follow: [{ id: 'at 6', figure: { perMlAt: 6 }, blockMs: 300000, blocks: 12 }],
});
const counts = motescale.cumulativeCounts({ 4: 18900, 6: 4020, 14: 330 }, { volumeMl: 10 });
const reading = (i: number) => ({ time: 1e12 + 60000 * i, counts, celsius: 60 + i, mlPerMin: 50, kPa: 500, litres: i });
let watched = motescale.startMonitor(monitor);
for (let i = 0; i < 40; i += 1) {
  const { litres: _litres, ...input } = reading(i);
  watched = motescale.advanceMonitor(monitor, watched, input).state;
}
const alarm = prepareAlarm({ id: 'hot', type: 'high', setpoint: 65, deadband: 3, onDelayMs: 1000 });
let alarmState = motescale.startAlarm(alarm);
for (let i = 0; i < 9; i += 1)
  alarmState = motescale.advanceAlarm(alarm, alarmState, { time: 1e12 + 60000 * i, value: 60 + i }).state;
const proof = prepareAcceptance({ table: motescale.iso4406, target: '18/16/13', readings: 3, maxGapMs: 600000 });
let proofState = motescale.startAcceptance(proof);
for (let i = 0; i < 2; i += 1) proofState = motescale.advanceAcceptance(proof, proofState, reading(i)).state;
const flow = prepareFlowControl({
  mlPerMin: 100,
  gain: 0.1,
  integralSeconds: 2.5,
  leastPercent: 5,
  mostPercent: 90,
  slewPerSecond: 5,
});
const change = motescale.prepareChange();

/** A saved state, restored and taken one step on. */
const restored: [string, Whole, unknown[]][] = [
  [
    'a saved monitor',
    (state) => {
      const { litres: _litres, ...next } = reading(50);
      return motescale.advanceMonitor(monitor, motescale.resumeMonitor(monitor, state).state, next);
    },
    [watched],
  ],
  [
    'a saved alarm',
    (state) => {
      const back = motescale.resumeAlarm(alarm, state).state;
      return motescale.advanceAlarm(alarm, back, { time: 1e12 + 6e6, value: 70 });
    },
    [alarmState],
  ],
  [
    'a saved acceptance run',
    (state) => motescale.advanceAcceptance(proof, motescale.resumeAcceptance(proof, state).state, reading(3)),
    [proofState],
  ],
  [
    'a saved flow control',
    (state) =>
      motescale.advanceFlowControl(flow, motescale.resumeFlowControl(flow, state as never).state, {
        elapsedSeconds: 1,
        mlPerMin: 90,
      }),
    [motescale.startFlowControl(flow)],
  ],
  [
    'a saved search for a change',
    (state) => motescale.advanceChange(change, motescale.resumeChange(state), { day: 20001, value: 16 }),
    [motescale.startChange()],
  ],
  ['parseCode', motescale.parseCode as Whole, [motescale.iso4406, '18/16/13']],
  ['findCodes', motescale.findCodes as Whole, ['oil 18/16/13 after the filter']],
];
const all = [...calls.map(([name, call, inputs]) => [name, call as Whole, inputs] as const), ...restored];

function freeze(value: unknown): void {
  if (typeof value !== 'object' || value === null || ArrayBuffer.isView(value) || Object.isFrozen(value)) return;
  Object.freeze(value);
  for (const name of Reflect.ownKeys(value)) freeze((value as Record<PropertyKey, unknown>)[name]);
}

/** The path of a NaN in a result, if there is one. */
function nanIn(value: unknown, path = 'result', seen: unknown[] = []): string | undefined {
  if (Number.isNaN(value)) return path;
  if (typeof value !== 'object' || value === null || ArrayBuffer.isView(value) || seen.includes(value))
    return undefined;
  for (const [name, member] of Object.entries(value)) {
    const found = nanIn(member, `${path}.${name}`, [...seen, value]);
    if (found !== undefined) return found;
  }
  return undefined;
}

const prototypes = [Object.prototype, Array.prototype, String.prototype, Number.prototype, Function.prototype];
const owned = () => prototypes.map((one) => Reflect.ownKeys(one).map(String).join()).join('\n');

const fixed = Number(process.env.MOTESCALE_SEED ?? 4406);
const seeds = full ? [fixed, Math.floor(Math.random() * 2 ** 31)] : [fixed];
if (full) console.log(`fuzz: seeds ${seeds.join(' and ')}, to repeat with MOTESCALE_SEED`);
const tries = Number(process.env.MOTESCALE_TRIES ?? some(200_000, 3000));
const numRuns = Math.ceil(tries / seeds.length / all.length);

describe.each(seeds)('seed %i', (seed) => {
  test.each(all)('%s', (name, call, inputs) => {
    // a state is damaged where it is restored
    const states = name.startsWith('advance') ? inputs.slice(1, 2) : [];
    const whole = [...tables, ...handedBack, ...inputs.filter(isPrepared), ...states];
    const before = owned();
    fc.assert(
      fc.property(changes, (made) => {
        const tried = hostile(inputs, made, whole);
        freeze(tried);
        try {
          expect(nanIn(call(...tried)), 'NaN').toBeUndefined();
        } catch (error) {
          if (!motescale.isMotescaleError(error)) throw error;
        }
        expect(owned() === before, 'prototypes untouched').toBe(true);
      }),
      { seed, numRuns },
    );
  });
});
