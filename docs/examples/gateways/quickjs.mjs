// The gateway on QuickJS inside Node: node quickjs.mjs motescale.unit.global.js gateway.js < registers.txt
// Each line of the input is a time and a list of registers; each line of the output is a list of events.
import { readFileSync } from 'node:fs';
import { getQuickJS } from 'quickjs-emscripten';

const context = (await getQuickJS()).newContext();
const run = (text) => {
  const result = context.unwrapResult(context.evalCode(text));
  const value = context.dump(result);
  result.dispose();
  return value;
};
for (const file of process.argv.slice(2)) context.unwrapResult(context.evalCode(readFileSync(file, 'utf8'))).dispose();
for (const line of readFileSync(0, 'utf8').trim().split('\n')) {
  const [, time, registers] = /^(\d+) (.*)$/.exec(line);
  console.log(run(`gateway.take(${time}, ${JSON.stringify(registers)})`));
}
