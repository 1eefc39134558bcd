/**
 * The scripts on an engine whose heap has a limit: Duktape with an allocator that counts and refuses (duktapeHeap.c).
 * The script is loaded first and the program after it, as the gateway of docs/gateways.md loads them.
 * It needs a C compiler and Duktape's library, as CI has them.
 */
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { unitRunText } from '../package/scripts.ts';
import { all, runLimit } from './engines.ts';
import { followingProgram, gatewayProgram, leastHeap, scriptFile, wholeFile } from './measure.ts';

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
    writeFileSync(program, run);
    const words = [String(kib), `dist/scripts/${file}`, program];
    const { status, stdout, stderr } = spawnSync(heap, words, { encoding: 'utf8' });
    expect(stderr).toBe('');
    expect(status).toBe(0);
    console.info(`${file}, ${what}, limit ${kib} KiB: ${stdout.trim().replace(/\n/g, '; ')}`);
  });

  describe('the table of docs/scripts.md', () => {
    const page = 'docs/scripts.md';
    const text = readFileSync(page, 'utf8');
    const part = /(<!-- heap: made by \.ci\/run -->\n)[\s\S]*?(<!-- \/heap -->)/;
    const own = join(folder, 'own.js');
    const aDay = 'runDays(0, 1);';
    const codes = 'dist/scripts/motescale.codes.global.js';
    type Row = readonly [script: string, what: string, library: string, program: () => string];
    const rows: readonly Row[] = [
      ['motescale.codes.global.js', 'loaded', codes, () => ''],
      ['', 'a hundred counts in four standards', codes, () => codesRun],
      ['motescale.unit.global.js', 'loaded', scriptFile, () => ''],
      ['', 'two hundred readings by `advanceUnit`', scriptFile, () => unitRun],
      ['', 'the gateway, a day', scriptFile, () => gatewayProgram(aDay)],
      ['', 'the same, both in one file', '', () => gatewayProgram(aDay)],
      [
        "one's own of what the gateway calls",
        'the gateway, a day, one figure followed',
        own,
        () => followingProgram(aDay, own),
      ],
      ['motescale.global.js', 'loaded', wholeFile, () => ''],
      ['', 'the gateway, a day, one figure followed', wholeFile, () => followingProgram(aDay)],
    ];
    /** The script, and what is left of a program without it; one file where none is named. */
    const filesOf = (library: string, program: () => string) => {
      const file = join(folder, 'row.js');
      const loaded = library === '' ? '' : readFileSync(library, 'utf8');
      writeFileSync(file, program().replace(loaded, ''));
      return library === '' ? [file] : [library, file];
    };

    beforeAll(() => {
      const gateway = readFileSync('docs/examples/gateways/gateway.js', 'utf8');
      const names = new Set([...gateway.matchAll(/motescale\.(\w+)/g)].map(([, name]) => name as string));
      names.delete('unit');
      execFileSync(process.execPath, ['dist/scripts/command.mjs', ...names, '--out', own]);
    });

    test.skipIf(process.env.MOTESCALE_TABLE !== '1')(
      'is made',
      () => {
        const cells = rows.map(([script, what, library, program]) => {
          const least = leastHeap({ name: 'Duktape' }, ...filesOf(library, program)) as number;
          const name = script.endsWith('.js') ? `\`${script}\`` : script;
          return [name, what, `${least}`, least > 1024 ? '-' : `${1024 - least}`];
        });
        const header = ['script', 'what it does', 'least heap, KiB', 'spare in 1 MiB, KiB'];
        const made = [header, header.map(() => '---'), ...cells].map((row) => `| ${row.join(' | ')} |`).join('\n');
        expect(text).toMatch(part);
        writeFileSync(page, text.replace(part, `$1\n${made}\n\n$2`));
        console.info(made);
      },
      runLimit,
    );

    test(
      'says what is enough',
      () => {
        const made = part.exec(readFileSync(page, 'utf8'))?.[0] ?? '';
        const lines = made
          .split('\n')
          .filter((line) => line.startsWith('| '))
          .slice(2);
        expect(lines).toHaveLength(rows.length);
        rows.forEach(([, what, library, program], i) => {
          const [, told, least] = (lines[i] as string).slice(2, -2).split(' | ');
          expect(told).toBe(what);
          const { stderr, status } = spawnSync(heap, [least as string, ...filesOf(library, program)], {
            encoding: 'utf8',
          });
          expect([what, stderr, status]).toEqual([what, '', 0]);
        });
      },
      runLimit,
    );
  });

  test('stops at its limit', () => {
    const program = join(folder, 'program.js');
    writeFileSync(program, readFileSync('dist/scripts/motescale.unit.global.js', 'utf8'));
    expect(spawnSync(heap, ['300', program], { encoding: 'utf8' }).status).not.toBe(0);
  });
});
