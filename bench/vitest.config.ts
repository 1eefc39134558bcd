import { fileURLToPath } from 'node:url';
import { defineConfig, type ViteUserConfig } from 'vitest/config';

const config: ViteUserConfig = defineConfig({
  root: fileURLToPath(new URL('..', import.meta.url)),
  test: { benchmark: { include: ['bench/**/*.bench.ts'] } },
});

export default config;
