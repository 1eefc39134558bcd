/** The script of the package in Duktape, an engine of gateways: `duk`, where it is on the PATH. */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { particles, volumeMl } from './samples.ts';

/** Milliseconds in Duktape, the median of five rounds; null without `duk`. */
export interface InDuktape {
  readonly tenThousandClassifications: number;
  readonly monitorStep: number;
}

const library = 'dist/scripts/motescale.unit.global.js';

/** What the rows of Node do: samples of six sizes, a monitor of one table and two alarms. */
const program = `
var samples = ${JSON.stringify(particles)}.map(function (sample) {
  return motescale.cumulativeCounts(sample, { volumeMl: ${volumeMl} });
});
var prepared = motescale.prepareMonitor({
  codes: [{ table: motescale.iso4406, target: '18/16/13' }],
  alarms: [
    { id: 'dirty', type: 'high', figure: { code: 'iso4406' }, setpoint: '18/16/13' },
    { id: 'hot', type: 'high', figure: { quantity: 'celsius' }, setpoint: 65, deadband: 3 }
  ]
});
var state = motescale.startMonitor(prepared), n = 0;
function classify() { n += 1; motescale.classify(motescale.iso4406, samples[n % samples.length]); }
function step() {
  n += 1;
  var reading = { time: n * 60000, counts: samples[n % samples.length], celsius: 50 + n % 7, kPa: 300, mlPerMin: 60 };
  state = motescale.advanceMonitor(prepared, state, reading).state;
}
function took(call, calls) {
  var rounds = [], round, began, i;
  for (round = 0; round < 5; round += 1) {
    began = Date.now();
    for (i = 0; i < calls; i += 1) call();
    rounds.push(Date.now() - began);
  }
  return rounds.sort(function (a, b) { return a - b; })[2];
}
print(JSON.stringify({
  tenThousandClassifications: took(classify, 10000),
  monitorStep: took(step, 1000) / 1000
}));`;

export function inDuktape(): InDuktape | null {
  const folder = mkdtempSync(join(tmpdir(), 'motescale-bench-'));
  const file = join(folder, 'bench.js');
  writeFileSync(file, `${readFileSync(library, 'utf8')}\n${program}`);
  try {
    return JSON.parse(execFileSync('duk', [file], { encoding: 'utf8' })) as InDuktape;
  } catch (error) {
    if ((error as { readonly code?: string }).code === 'ENOENT') return null;
    throw error;
  } finally {
    rmSync(folder, { recursive: true });
  }
}
