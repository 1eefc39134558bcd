/**
 * Runs the tests for Stryker in one process. Each test file is one script with all it imports of src and tests; it is
 * evaluated anew for each change, so nothing that a changed function has remembered reaches the next one.
 */
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import { Script } from 'node:vm';
import { INSTRUMENTER_CONSTANTS } from '@stryker-mutator/api/core';
import { declareClassPlugin, PluginKind } from '@stryker-mutator/api/plugin';
import { determineHitLimitReached, toMutantRunResult } from '@stryker-mutator/api/test-runner';
import { build } from 'esbuild';
import * as fastCheck from 'fast-check';
import { collector, prepare } from './vitestStandIn.mjs';

const fc = fastCheck.default;
const require = createRequire(import.meta.url);
const foundBefore = 'coverage-found-before.json';
const named = (process.env.MOTESCALE_TESTS ?? '').split(',');

/** A module knows its own address, also within a script of many. */
const addresses = {
  name: 'addresses',
  setup({ onLoad }) {
    onLoad({ filter: /\/tests\/.*\.ts$/ }, ({ path }) => {
      const text = readFileSync(path, 'utf8').replaceAll('import.meta.url', JSON.stringify(pathToFileURL(path).href));
      return { contents: text, loader: 'ts' };
    });
  },
};

async function scripts(root) {
  const { outputFiles } = await build({
    absWorkingDir: root,
    entryPoints: named,
    bundle: true,
    write: false,
    outdir: 'out',
    outbase: '.',
    format: 'cjs',
    platform: 'node',
    target: 'node20',
    packages: 'external',
    plugins: [addresses],
    logLevel: 'error',
  });
  return new Map(
    outputFiles.map(({ path, text }) => {
      const file = path.slice(resolve(root, 'out').length + 1).replace(/\.js$/, '.ts');
      return [file, new Script(`(function (module, exports, require) {${text}\n})`, { filename: file })];
    }),
  );
}

/**
 * A law that does not hold shows it within a few cases, or is not broken enough for a test of every change. A test that
 * counts its cases, and fails with few, gets all.
 */
const few = 40;
let most = few;
const assert = (property, options) =>
  fc.assert(property, { ...options, numRuns: Math.min(options?.numRuns ?? few, most) });
const fewCases = { ...fastCheck, __esModule: true, default: { ...fc, assert }, assert };

/** What draws charts waits as it is loaded, which `require` does not: it is loaded before. */
const drawing = Object.fromEntries(
  await Promise.all(['vega', 'vega-lite'].map(async (name) => [name, { ...(await import(name)), __esModule: true }])),
);

/** What a script asks for. */
const given = (face) => (name) => ({ vitest: face, 'fast-check': fewCases, ...drawing })[name] ?? require(name);

class Runner {
  capabilities() {
    return { reloadEnvironment: true };
  }

  async init() {
    fc.configureGlobal({ seed: Number(process.env.MOTESCALE_SEED ?? 4406), endOnFailure: true });
    this.scripts = await scripts(process.cwd());
    // a runner that is started again after an endless loop knows what the first one found
    const none = { whole: [], out: [], took: {} };
    const before = existsSync(foundBefore) ? JSON.parse(readFileSync(foundBefore, 'utf8')) : none;
    this.whole = before.whole;
    this.out = before.out;
    this.took = before.took;
    this.state = globalThis[INSTRUMENTER_CONSTANTS.NAMESPACE] ??= {};
  }

  /** Loads a test file; its tests, each with a name that no other has. */
  load(file) {
    const { face, tests } = collector();
    const module = { exports: {} };
    this.scripts.get(file).runInThisContext()(module, module.exports, given(face));
    return tests.map((test, i) => ({ ...test, id: `${file}#${i}`, file }));
  }

  async run(test) {
    const began = performance.now();
    const told = { id: test.id, name: test.name, fileName: resolve(test.file) };
    const took = () => Math.max(0, Math.round(performance.now() - began));
    most = this.whole.includes(test.id) ? Infinity : few;
    try {
      await prepare(test.suite);
      await test.run();
      return { ...told, status: 0, timeSpentMs: took() };
    } catch (error) {
      return { ...told, status: 1, timeSpentMs: took(), failureMessage: String(error?.message ?? error).slice(0, 500) };
    }
  }

  async dryRun() {
    const { state } = this;
    state.activeMutant = undefined;
    state.currentTestId = undefined;
    state.mutantCoverage = undefined;
    const tests = [];
    for (const file of named) {
      const began = performance.now();
      for (const test of this.load(file)) {
        state.currentTestId = test.id;
        let ended = await this.run(test);
        if (ended.status === 1) {
          this.whole.push(test.id);
          ended = await this.run(test);
        }
        state.currentTestId = undefined;
        if (ended.status === 0) tests.push(ended);
        else this.leaveOut(ended);
      }
      this.took[file] = performance.now() - began;
    }
    writeFileSync(foundBefore, JSON.stringify({ whole: this.whole, out: this.out, took: this.took }));
    return { status: 'complete', tests, mutantCoverage: state.mutantCoverage };
  }

  /** A test that fails here without a change, though vitest lets it pass, notices nothing: it is told and left out. */
  leaveOut({ id, name, failureMessage }) {
    this.out.push(id);
    console.error(`mutation: left out ${id} ${name}: ${failureMessage.split('\n')[0]}`);
  }

  async mutantRun({ testFilter, hitLimit: hundredfold, activeMutant, mutantActivation }) {
    const { state } = this;
    const wanted = testFilter && new Set(testFilter);
    const files = wanted ? [...new Set(testFilter.map((id) => id.split('#')[0]))] : [...named];
    // the first that notices ends the search: the quick ones first
    files.sort((a, b) => this.took[a] - this.took[b]);
    // a change that is met five times as often as without it does not end
    const hitLimit = hundredfold && Math.ceil(hundredfold / 20);
    state.hitLimit = hitLimit;
    state.hitCount = 0;
    const tests = [];
    const failed = () => tests.some(({ status }) => status === 1);
    for (const file of files) {
      state.activeMutant = mutantActivation === 'static' ? activeMutant.id : undefined;
      let loaded = [];
      try {
        loaded = this.load(file);
      } catch (error) {
        tests.push({
          id: `${file}#`,
          name: file,
          timeSpentMs: 0,
          status: 1,
          failureMessage: String(error?.message ?? error),
        });
      }
      state.activeMutant = activeMutant.id;
      const isWanted = (test) => !this.out.includes(test.id) && (!wanted || wanted.has(test.id));
      // what a hook reaches counts for the first test of its suite, but the others look at what it made
      const hooked = new Set(loaded.filter((test) => isWanted(test) && test.suite.hooked).map(({ suite }) => suite));
      for (const test of loaded) {
        if (failed() || !(isWanted(test) || hooked.has(test.suite))) continue;
        tests.push(await this.run(test));
      }
      if (failed()) break;
    }
    state.activeMutant = undefined;
    return toMutantRunResult(determineHitLimitReached(state.hitCount, hitLimit) ?? { status: 'complete', tests });
  }
}

export const strykerPlugins = [declareClassPlugin(PluginKind.TestRunner, 'in one process', Runner)];
