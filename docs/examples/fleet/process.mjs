// One worker of the trial, a process of its own. It tells fleet.mjs what it has done, and dies or stops when it is told
// to, at the worst moment: after the step and before anything is kept.
import { trialUnits } from './verify.mjs';
import { work } from './worker.mjs';

const [kind, connection] = process.argv.slice(2);
const { workOn } = await import(`./${kind}Server.mjs`);
const engine = await workOn(JSON.parse(connection));
const told = { taken: 0, stepMs: 0, letGo: 0 };
let ending = null;
let stopping = false;

process.on('message', (order) => {
  if (order === 'end') stopping = true;
  else ending = order;
});
process.on('disconnect', () => process.exit(0));
const report = () => {
  const { user, system } = process.cpuUsage();
  process.send({ ...told, cpuMs: (user + system) / 1000 });
};
// what it takes to start is not counted
const start = process.cpuUsage();
process.send({ started: (start.user + start.system) / 1000 });

await work({
  engine,
  units: trialUnits,
  stopping: () => stopping,
  tell: (line) => {
    if (line.startsWith('let go')) told.letGo += 1;
    process.send({ line, letGo: told.letGo });
  },
  seen: async ({ inputs }, stepMs) => {
    told.taken += inputs.length;
    told.stepMs += stepMs;
    report();
    if (ending === null) return;
    const signal = ending;
    ending = null;
    process.send({ line: `${signal} between step and store, ${inputs.length} inputs in hand` });
    // the words go out first
    await new Promise((resolve) => setTimeout(resolve, 20));
    process.kill(process.pid, signal);
    await new Promise((resolve) => setTimeout(resolve, 20));
  },
});
report();
await engine.close();
process.disconnect();
