/**
 * Which branches of src the tests take, below the floor of report/, schema/ and exact/: `npm run coverage`. The tests
 * that read the sources, start programs or build the package are left out.
 */
import type { ViteUserConfig } from 'vitest/config';
import base from './vitest.config.ts';

const config: ViteUserConfig = {
  ...base,
  test: {
    ...base.test,
    include: [
      'tests/{inputs,properties,reference}/**/*.test.ts',
      'tests/house/{misspelt,errorsThrown}.test.ts',
      'tests/docs/examples.test.ts',
    ],
    coverage: {
      enabled: true,
      provider: 'v8',
      include: ['src/**/*.ts'],
      exclude: ['src/{report,german,schema,exact,scripts}/**', 'src/tsup.config.ts', 'src/sources.ts', 'src/index.ts'],
      // its own folder: it is emptied at the start
      reportsDirectory: 'coverage/branches',
      reporter: ['text', 'json'],
      thresholds: { branches: 98 },
    },
  },
};

export default config;
