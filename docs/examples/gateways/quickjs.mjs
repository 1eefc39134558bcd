// The gateway on QuickJS inside Node: node quickjs.mjs motescale.unit.global.js gateway.js < registers.txt
// Each line of the input is a time and a list of registers; each line of the output is a list of events. A line that is
// none is told too, and the gateway goes on.
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
for (const line of readFileSync(0, 'utf8').match(/.*\n|.+$/g) ?? []) {
  let told = '[{"event":"rejected","part":"line"}]';
  const [, time, registers] = /^(\d+) (.+)/.exec(line) ?? [];
  try {
    if (registers !== undefined) told = run(`gateway.take(${time}, ${JSON.stringify(registers)})`);
  } catch (error) {
    console.error(String(error));
  }
  console.log(told);
}
