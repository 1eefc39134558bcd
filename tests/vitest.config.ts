import { fileURLToPath } from 'node:url';
import { defineConfig, type ViteUserConfig } from 'vitest/config';
import { BaseSequencer, type TestSpecification } from 'vitest/node';

const root = fileURLToPath(new URL('..', import.meta.url));

/** Small files that run compilers and engines take longest: begun last, one would leave the other core idle. */
class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const sorted = await super.sort(files);
    const isLong = ({ moduleId }: TestSpecification) => /\/tests\/(engines|package|docs)\//.test(moduleId);
    return [...sorted.filter(isLong), ...sorted.filter((file) => !isLong(file))];
  }
}

const config: ViteUserConfig = defineConfig({
  root,
  resolve: {
    alias: [
      { find: /^motescale$/, replacement: `${root}src/index.ts` },
      { find: /^motescale\/(\w+)$/, replacement: `${root}src/$1/index.ts` },
    ],
  },
  test: {
    include: ['tests/**/*.test.ts'],
    sequence: { sequencer: LongestFirst },
    setupFiles: ['tests/setup.ts'],
    maxWorkers: '100%',
    // the files of a worker share what they import: none changes it
    isolate: false,
    testTimeout: process.env.MOTESCALE_FULL === '1' ? 600_000 : 120_000,
    hookTimeout: 120_000,
    // a failing test says what came, not how many
    chaiConfig: { truncateThreshold: 0 },
  },
});

export default config;
