import { fileURLToPath } from 'node:url';
import { defineConfig, type ViteUserConfig } from 'vitest/config';

const root = fileURLToPath(new URL('..', import.meta.url));

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
