/**
 * The scripts on an engine whose heap has a limit: Duktape with an allocator that counts and refuses (duktapeHeap.c).
 * It needs a C compiler and Duktape's library, as CI has them.
 */
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { unitRunText } from '../package/scripts.ts';
import { all } from './engines.ts';

const codesRun = `
var texts = '';
for (var i = 1; i <= 100; i += 1) {
  var counts = motescale.cumulativeCounts({ 4: 90 * i, 6: 30 * i, 14: 3 * i, 21: i, 38: 0, 70: 0 });
  var tables = [motescale.iso4406, motescale.as4059Cumulative, motescale.as4059Differential, motescale.nas1638];
  tables.forEach(function (table) {
    texts += motescale.classify(table, counts).text + ' ';
  });
  if (motescale.meets(motescale.iso4406, '18/16/13', counts).met)
    texts += motescale.parseCode(motescale.iso4406, '18/16/13').text;
}
print(texts.slice(0, 40));`;

const unitRun = `
var run = (${unitRunText})(motescale);
print(run.events.length + ' ' + run.record.seq);`;

describe.runIf(all)('Duktape', () => {
  const folder = mkdtempSync(join(tmpdir(), 'motescale-heap-'));
  const heap = join(folder, 'heap');

  beforeAll(() => {
    execFileSync('cc', ['-O1', '-o', heap, resolve('tests/engines/duktapeHeap.c'), '-lduktape', '-lm']);
  });
  afterAll(() => rmSync(folder, { recursive: true }));

  test.each([
    ['motescale.codes.global.js', 'loaded', '', 512],
    ['motescale.codes.global.js', 'a hundred counts in four standards', codesRun, 512],
    ['motescale.unit.global.js', 'loaded', '', 1024],
    ['motescale.unit.global.js', 'two hundred readings', unitRun, 1024],
  ])('%s: %s', (file, what, run, kib) => {
    const program = join(folder, 'program.js');
    writeFileSync(program, `${readFileSync(`dist/scripts/${file}`, 'utf8')}\n${run}`);
    const { status, stdout, stderr } = spawnSync(heap, [String(kib), program], { encoding: 'utf8' });
    expect(stderr).toBe('');
    expect(status).toBe(0);
    console.info(`${file}, ${what}, limit ${kib} KiB: ${stdout.trim().replace(/\n/g, '; ')}`);
  });

  test('stops at its limit', () => {
    const program = join(folder, 'program.js');
    writeFileSync(program, readFileSync('dist/scripts/motescale.unit.global.js', 'utf8'));
    expect(spawnSync(heap, ['300', program], { encoding: 'utf8' }).status).not.toBe(0);
  });
});
