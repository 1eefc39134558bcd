// The trial: `npm run fleet`, `npm run fleet -- nats`, `npm run fleet -- postgres 1000` (units), `npm run fleet --
// postgres 5000 calm`. Many units on an engine that loses its leader, with workers that are killed and stopped; and
// whether all of it is as if one process had done it.
import { fork } from 'node:child_process';
import { chmodSync, mkdtempSync, rmSync } from 'node:fs';
import { cpus, loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { cpuOf } from './cpu.mjs';
import { beginsEarlier, roundsOf, unitName } from './inputs.mjs';
import { begunOf, verify } from './verify.mjs';

const [kind = 'postgres', units = '5000', mood = 'chaos'] = process.argv.slice(2);
const count = 10;
const all = Number(units) * count;
const began = Date.now();
const say = (line) => process.stderr.write(`${((Date.now() - began) / 1000).toFixed(1).padStart(6)} s  ${line}\n`);

/** Again and again until it is done: an engine without a leader refuses, and may have done it all the same. */
async function insist(act) {
  for (let tries = 0; ; tries += 1) {
    try {
      return await act();
    } catch (error) {
      if (tries > 300) throw error;
      await sleep(100);
    }
  }
}

const workers = new Map();
const gone = ({ child }) => child.exitCode !== null || child.signalCode !== null;
const folder = mkdtempSync(join(tmpdir(), 'fleet-'));
chmodSync(folder, 0o755);
const tidy = () => rmSync(folder, { recursive: true, force: true, maxRetries: 20 });
let engine;
try {
  if (!['postgres', 'nats'].includes(kind)) throw new Error(`no engine '${kind}': postgres or nats`);
  const { [kind]: startEngine } = await import(`./${kind}Server.mjs`);
  engine = await startEngine(folder);
} catch (error) {
  console.error(error.message);
  process.on('exit', tidy);
  process.exit(2);
}
// whatever happens, nothing goes on running; the engine has seen to itself before
process.on('exit', () => {
  for (const { child } of workers.values()) if (!gone({ child })) child.kill('SIGKILL');
  tidy();
});
for (const signal of ['SIGINT', 'SIGTERM']) process.on(signal, () => process.exit(1));
say(`${kind} runs; ${units} units, ${all} inputs`);

/** Sends again what was not acknowledged, and that alone: a sender that sends all of it again makes a flood. */
async function publishAll(inputs) {
  for (let left = inputs; left.length > 0; ) {
    left = await engine.publish(left);
    if (left.length > 0) await sleep(100);
  }
}

const acknowledged = new Set();
let publishing = 0;
let twice = 0;
/** One that comes twice is sent in two, so that the second finds the first there. */
async function publishOnce(inputs) {
  const [first, again] = [new Map(), []];
  for (const input of inputs) {
    const key = `${input.unit}.${input.seq}`;
    if (first.has(key)) again.push(input);
    else first.set(key, input);
  }
  await publishAll([...first.values()]);
  await publishAll(again);
  return { keys: first.keys(), again: again.length };
}

async function publishUntil(source, share) {
  const start = Date.now();
  while (acknowledged.size < all * share) {
    const { value, done } = source.next();
    if (done) break;
    const { keys, again } = await publishOnce(value);
    for (const key of keys) acknowledged.add(key);
    twice += again;
  }
  publishing += Date.now() - start;
}

function startWorker(name) {
  const path = fileURLToPath(new URL('process.mjs', import.meta.url));
  const child = fork(path, [kind, JSON.stringify(engine.connection)]);
  const worker = { child, started: 0, taken: 0, stepMs: 0, cpuMs: 0, letGo: 0 };
  workers.set(name, worker);
  child.on('message', ({ line, ...told }) => {
    if (line !== undefined && line !== worker.line && !line.includes('waits for')) say(`${name}: ${line}`);
    if (line !== undefined) worker.line = line;
    Object.assign(worker, told);
  });
  return worker;
}
const sum = (of) => [...workers.values()].reduce((total, worker) => total + of(worker), 0);
async function until(what, share) {
  for (let i = 0; sum(({ taken }) => taken) < all * share; i += 1) {
    if (i % 100 === 0) say(`${sum(({ taken }) => taken)} inputs taken`);
    await sleep(50);
  }
  say(what);
}
async function untilGone(worker) {
  while (!gone(worker)) await sleep(20);
}
/** It dies with a batch in hand; where the others have taken all in the meantime, with nothing in hand. */
async function untilKilled(worker) {
  while (!gone(worker)) {
    if ((await insist(engine.left)) === 0) worker.child.kill('SIGKILL');
    await sleep(100);
  }
}
async function untilEmpty() {
  for (let i = 0; ; i += 1) {
    const left = await insist(engine.left);
    if (left === 0) return;
    if (i % 50 === 0) say(`${left} inputs are left`);
    await sleep(100);
  }
}
async function endWorkers() {
  for (const { child } of workers.values()) if (child.connected) child.send('end');
  for (const worker of workers.values()) await untilGone(worker);
}

const early = Array.from({ length: Number(units) }, (_, i) => i).filter(beginsEarlier);
await insist(() => engine.begin(early.map((i) => ({ unit: unitName(i), kept: begunOf(i) }))));
const source = roundsOf(Number(units), count);
const engineBefore = cpuOf(engine.pids());
await publishUntil(source, { chaos: 0.4, back: 0.5 }[mood] ?? 1);
say(`${acknowledged.size} inputs published, ${Math.round((1000 * acknowledged.size) / publishing)} a second`);
const working = Date.now();
const [one, two] = [startWorker('worker 1'), startWorker('worker 2')];
let woke = true;
let stoppedMs = 0;
if (mood === 'chaos') {
  await until('worker 1 is killed', 0.15);
  process.kill(one.child.pid, 'SIGKILL');
  const three = startWorker('worker 3');
  two.child.send('SIGSTOP');
  const stopped = Date.now();
  await publishUntil(source, 0.6);
  await until('worker 2 has stopped, and what it held is no longer its own', 0.4);
  await sleep(engine.holdMs + 2000);
  const before = two.letGo;
  process.kill(two.child.pid, 'SIGCONT');
  stoppedMs = Date.now() - stopped;
  for (let i = 0; i < 200 && two.letGo === before; i += 1) await sleep(50);
  woke = two.letGo > before;
  say(`worker 2 wakes, and ${woke ? 'lets go' : 'goes on'}`);
  const more = publishUntil(source, 0.8);
  await sleep(200);
  say('the leader of the engine is killed');
  await engine.killLeader();
  await more;
  say('there is a leader again, and publishing goes on');
  three.child.send('SIGKILL');
  await publishUntil(source, 1);
  await untilKilled(three);
  startWorker('worker 4');
}
if (mood === 'back') {
  await untilEmpty();
  await endWorkers();
  const copy = await engine.copy();
  const since = [...source];
  await publishUntil(since[Symbol.iterator](), 1);
  startWorker('worker 3');
  await untilEmpty();
  await endWorkers();
  say('the records go back to the middle, and the inputs since are taken again');
  await engine.goBack(copy);
  for (const inputs of since) await publishOnce(inputs);
  startWorker('worker 4');
}
await untilEmpty();
const seconds = (Date.now() - working) / 1000;
// a server that was killed takes its figure with it
const engineMs = mood === 'chaos' || engineBefore === null ? null : cpuOf(engine.pids()) - engineBefore;
say('nothing is left to take');
await endWorkers();

say('the same by a single process');
const told = verify(await insist(engine.readAll), Number(units), count);
const taken = sum((worker) => worker.taken);
const stepMs = sum((worker) => worker.stepMs) / taken;
const cpuMs = sum((worker) => worker.cpuMs - worker.started) / taken;
const equal = told.unequal === 0 && acknowledged.size === all;
const listed = (counts) =>
  Object.entries(counts)
    .map(([name, n]) => `${name} ${n}`)
    .join(', ');
console.log(`${kind}: ${all} inputs of ${units} units, ${told.events} events, ${told.buckets} buckets; ${mood}`);
console.log(`inputs: ${listed(told.kinds)}; published twice ${twice}; records of an earlier library ${early.length}`);
console.log(`events: ${listed(told.names)}`);
console.log(
  `rate ${Math.round(all / seconds)} inputs a second, published ${Math.round((1000 * all) / publishing)} a second`,
);
const cpu = `worker CPU an input: step ${stepMs.toFixed(2)} ms, beside it ${(cpuMs - stepMs).toFixed(2)} (0.4 at most)`;
console.log(
  `${cpu}; a single process ${told.alone.toFixed(2)}; load ${loadavg()[0].toFixed(1)} on ${cpus().length} cores`,
);
if (engineMs !== null) console.log(`CPU of the engine ${(engineMs / all).toFixed(2)} ms an input, from its publish on`);
console.log(await insist(engine.size));
if (mood === 'chaos') {
  const known = engine.duplicateMs === undefined ? '' : `; a message id is known for ${engine.duplicateMs / 1000} s`;
  console.log(`worker 2 was stopped for ${(stoppedMs / 1000).toFixed(0)} s${known}`);
}
const woken = mood === 'chaos' ? `, stopped worker changed nothing ${woke}` : '';
const rework = (100 * (taken - all)) / all;
console.log(`rework ${rework.toFixed(1)} %, lost ${told.lost}, twice ${told.twice}, equal ${equal}${woken}`);
process.exit(equal && told.lost === 0 && told.twice === 0 && woke ? 0 : 1);
