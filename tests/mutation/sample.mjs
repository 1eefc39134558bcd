/** Says of each change whether it is tried: all, a share drawn by a seed, or the survivors of an earlier run. */
import { createHash } from 'node:crypto';
import { declareClassPlugin, PluginKind } from '@stryker-mutator/api/plugin';
import { keyOf } from './report.mjs';

const { share, seed, only } = JSON.parse(process.env.MOTESCALE_SAMPLE ?? '{"share":1,"seed":1,"only":null}');

/** A number from 0 to 1 that belongs to a change and a seed. */
const drawn = (key) => createHash('sha256').update(`${seed} ${key}`).digest().readUInt32BE(0) / 2 ** 32;

/** A report counts lines and columns from 1, Stryker itself from 0. */
const fromOne = ({ line, column }) => ({ line: line + 1, column: column + 1 });
const asReported = (mutant) => ({
  ...mutant,
  location: { start: fromOne(mutant.location.start), end: fromOne(mutant.location.end) },
});

class Sample {
  async init() {}

  async check(mutants) {
    return Object.fromEntries(
      mutants.map((mutant) => {
        const key = keyOf(mutant.fileName.slice(mutant.fileName.lastIndexOf('/src/') + 1), asReported(mutant));
        const taken = only === null ? drawn(key) < share : only.includes(key);
        return [mutant.id, taken ? { status: 'passed' } : { status: 'compileError', reason: 'not in the sample' }];
      }),
    );
  }

  async group(mutants) {
    return [mutants.map(({ id }) => id)];
  }
}

export const strykerPlugins = [declareClassPlugin(PluginKind.Checker, 'sample', Sample)];
