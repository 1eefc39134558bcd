/**
 * The packed package in a project of its own: as modules, with types, in Deno and in a browser. It asks the npm
 * registry for the dependencies, so it runs where MOTESCALE_ALL_ENGINES is set, as CI does.
 */
import { execFileSync, type SpawnSyncReturns, spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { basename, join, resolve } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import pkg from '../../package.json' with { type: 'json' };
import { findExamples } from '../docs/examples.ts';
import { showPage } from '../engines/engines.ts';
import { filesBelow } from '../files.ts';
import { entries, packed } from './pack.ts';
import { scripts } from './scripts.ts';

const all = process.env.MOTESCALE_ALL_ENGINES === '1';
if (!all) console.info('MOTESCALE_ALL_ENGINES is not set, skipped: the packed package in a project of its own');

/** Runs in the consumer's folder; what went wrong becomes the message. */
function run(folder: string, command: string, ...inputs: string[]): string {
  try {
    const options = { cwd: folder, encoding: 'utf8', stdio: ['ignore', 'pipe', 'pipe'] as ['ignore', 'pipe', 'pipe'] };
    return execFileSync(command, inputs, { ...options, encoding: 'utf8' }).trim();
  } catch (error) {
    const { stdout, stderr } = error as SpawnSyncReturns<string>;
    throw new Error(`${command} ${inputs.join(' ')}\n${stdout}\n${stderr}`);
  }
}

const modules = `
import { classify, iso4406 } from 'motescale/codes';
import { cumulativeCounts } from 'motescale/counts';
import { classifyExact } from 'motescale/exact';
import * as everything from 'motescale';
const counts = cumulativeCounts({ 4: 1890, 6: 402, 14: 33 });
const exact = classifyExact(iso4406, { at: { 4: '1890', 6: '402', 14: '33' } });
console.log(classify(iso4406, counts).text, exact.text, everything.classify === classify);
`;

const commonJs = `
const { classify, iso4406 } = require('motescale/codes');
const { cumulativeCounts } = require('motescale/counts');
const { classifyExact } = require('motescale/exact');
const everything = require('motescale');
const counts = cumulativeCounts({ 4: 1890, 6: 402, 14: 33 });
const exact = classifyExact(iso4406, { at: { 4: '1890', 6: '402', 14: '33' } });
console.log(classify(iso4406, counts).text, exact.text, everything.classify === classify);
`;

const twoCopies = `
import { createRequire } from 'node:module';
import * as esm from 'motescale';
const cjs = createRequire(import.meta.url)('motescale');
const caught = (copy) => { try { copy.cumulativeCounts({ 4: -1 }); } catch (error) { return error; } };
const [ours, theirs] = [esm.isMotescaleError(caught(cjs)), cjs.isMotescaleError(caught(esm))];
console.log(esm.isMotescaleError === cjs.isMotescaleError, ours, theirs);
`;

/** Types that are wrong must be refused, else the right ones prove nothing. */
const typed = `
import { type Classification, classify, iso4406 } from 'motescale/codes';
import { type CumulativeCounts, cumulativeCounts } from 'motescale/counts';
import { classifyExact } from 'motescale/exact';
import { type ErrorCode, isMotescaleError, type Source } from 'motescale';
export const counts: CumulativeCounts = cumulativeCounts({ 4: 1890, 6: 402, 14: 33 }, { volumeMl: 10 });
export const found: Classification = classify(iso4406, counts);
export const exact: string = classifyExact(iso4406, { at: { 4: '1890' }, volumeMl: '10' }).text;
export const source: Source = iso4406.source;
export const codeOf = (error: unknown): ErrorCode | null => (isMotescaleError(error) ? error.code : null);
// @ts-expect-error counts come first as a record by size
cumulativeCounts('1890/402/33');
// @ts-expect-error the result is readonly
found.text = '1/1/1';
`;

const page = `<!doctype html><title></title>
<script src="node_modules/motescale/dist/scripts/motescale.global.js"></script>
<script>
  var counts = motescale.cumulativeCounts({ 4: 1890, 6: 402, 14: 33 });
  document.title = motescale.classify(motescale.iso4406, counts).text;
</script>`;

describe.skipIf(!all)('the packed package', () => {
  let folder: string;
  let tarball: string;

  beforeAll(() => {
    ({ folder, tarball } = packed());
    writeFileSync(join(folder, 'package.json'), '{ "name": "consumer", "private": true, "type": "module" }');
    run(folder, 'npm', 'install', '--no-audit', '--no-fund', tarball);
    writeFileSync(join(folder, 'modules.mjs'), modules);
    writeFileSync(join(folder, 'common.cjs'), commonJs);
    writeFileSync(join(folder, 'copies.mjs'), twoCopies);
    writeFileSync(join(folder, 'typed.ts'), typed);
    writeFileSync(join(folder, 'typedCommon.cts'), typed);
    writeFileSync(join(folder, 'page.html'), page);
  });

  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  /** Compiles in the consumer's folder, the declarations of the package included. */
  function typeCheck(options: object, files: object): void {
    const compilerOptions = { target: 'es2022', strict: true, noEmit: true, types: [], ...options };
    writeFileSync(join(folder, 'tsconfig.json'), JSON.stringify({ compilerOptions, ...files }));
    run(folder, process.execPath, resolve('node_modules/typescript/bin/tsc'));
  }

  test('Node imports it', () => {
    expect(run(folder, process.execPath, 'modules.mjs')).toBe('18/16/12 18/16/12 true');
  });

  test('Node requires it', () => {
    expect(run(folder, process.execPath, 'common.cjs')).toBe('18/16/12 18/16/12 true');
  });

  test('an error of one copy is known to the other', () => {
    expect(run(folder, process.execPath, 'copies.mjs')).toBe('false true true');
  });

  test.each([
    ['node16', 'node16'],
    ['preserve', 'bundler'],
  ])('its types hold: module %s, moduleResolution %s', (module, moduleResolution) => {
    const files = ['typed.ts', 'typedCommon.cts'];
    typeCheck({ module, moduleResolution, exactOptionalPropertyTypes: true }, { files });
  });

  test('every example of the docs and doc comments compiles', () => {
    const pages = ['README.md', 'DEVELOPERS.md', ...filesBelow('docs', '.md')];
    const examples = findExamples([...filesBelow('src', '.ts'), ...pages]);
    mkdirSync(join(folder, 'examples'));
    for (const { file, line, code } of examples) {
      const name = `${file.replace(/\W/g, '_')}_line_${line}.ts`;
      writeFileSync(join(folder, 'examples', name), `${code}\nexport {};\n`);
    }
    expect(examples.length).toBeGreaterThan(50);
    // the data that pages read stands beside them, as in docs/
    for (const data of filesBelow('docs/examples', '.json')) {
      mkdirSync(join(folder, 'examples/examples'), { recursive: true });
      cpSync(data, join(folder, 'examples', data.replace(/^docs\//, '')));
    }
    for (const drawing of ['vega', 'vega-lite'])
      symlinkSync(resolve('node_modules', drawing), join(folder, 'node_modules', drawing));
    // the helpers of an example may leave the types of their parameters out
    const options = { module: 'nodenext', lib: ['es2022', 'dom'], noImplicitAny: false, resolveJsonModule: true };
    typeCheck(options, { include: ['examples'] });
  });

  test('every entry has types for every way to import it', () => {
    const attw = resolve('node_modules/@arethetypeswrong/cli/dist/index.js');
    // the scripts are for pages and for require: no names are imported from them
    const apart = ['--exclude-entrypoints', ...scripts.map((file) => `./${file}`)];
    const { analysis } = JSON.parse(run(folder, process.execPath, attw, tarball, '--format', 'json', ...apart));
    const names = Object.keys(analysis.entrypoints).map((path) => path.replace(/^\./, 'motescale'));
    expect(names).toEqual(expect.arrayContaining([...entries]));
    expect(analysis.problems).toEqual([]);
  });

  test('npm would publish it as it is, with provenance', () => {
    const inputs = ['publish', '--dry-run', '--provenance', '--access', 'public', '--ignore-scripts'];
    const { status, stdout, stderr } = spawnSync('npm', inputs, { encoding: 'utf8' });
    expect(stderr).not.toMatch(/corrected|npm (ERR|error)/);
    expect([status, stdout.trim()]).toEqual([0, `+ motescale@${pkg.version}`]);
  });

  test('its command makes a script of names', () => {
    run(folder, 'npm', 'install', '--no-audit', '--no-fund', 'esbuild', 'terser', 'typescript@6');
    run(folder, 'npx', '--no-install', 'motescale-script', 'classify', 'gost17216', '--out', 'gate.js');
    const load = "require('vm').runInThisContext(require('fs').readFileSync('gate.js', 'utf8'))";
    const names = run(folder, process.execPath, '-p', `${load}, Object.keys(motescale).join()`);
    expect(names).toBe('classify,gost17216');
  });

  test('Deno runs it and checks its types', () => {
    expect(run(folder, 'deno', 'run', 'modules.mjs')).toBe('18/16/12 18/16/12 true');
    run(folder, 'deno', 'check', 'typed.ts');
  });

  /** Each block of the pages in a file of its own, the data beside them; not those that draw by another package. */
  test('every example of the pages runs in Deno as the README says', () => {
    const tried = join(folder, 'tried');
    mkdirSync(tried);
    const pages = ['README.md', ...filesBelow('docs', '.md')];
    const examples = findExamples(pages).filter(({ code }) => !code.includes("from 'vega"));
    const names = examples.map(({ file, line, code }) => {
      const name = `${file.replace(/\W/g, '_')}_line_${line}.mts`;
      writeFileSync(join(tried, name), code);
      return name;
    });
    expect(names.length).toBeGreaterThan(100);
    const readme = readFileSync('README.md', 'utf8');
    const [, from] = /^ {4}cp -r (\S+) \.$/m.exec(readme) ?? [];
    expect(from).toBeDefined();
    cpSync(join(folder, String(from)), join(tried, basename(String(from))), { recursive: true });
    const lines = names.map((name) => `await import('./${name}').catch((error) => failed.push('${name}: ' + error));`);
    writeFileSync(
      join(tried, 'all.mjs'),
      `const failed = [];\n${lines.join('\n')}\nconsole.log(failed.join('\\n'));\n`,
    );
    expect(run(tried, 'deno', 'run', '--allow-all', 'all.mjs')).toBe('');
    const [first] = names.filter((name) => name.startsWith('docs_commissioning'));
    run(tried, 'deno', 'run', String(first));
  });

  test('a browser runs its script file', () => {
    expect(showPage('chromium', join(folder, 'page.html'), folder)).toContain('<title>18/16/12</title>');
  });
});
