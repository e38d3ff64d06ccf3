import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  root: fileURLToPath(new URL('..', import.meta.url)),
  test: {
    include: ['tests/**/*.test.ts'],
    benchmark: { include: ['tests/bench/**/*.bench.ts'] },
    reporters: ['default', fileURLToPath(new URL('./plain-line-reporter.ts', import.meta.url))],
    maxWorkers: 2,
    testTimeout: 30_000,
  },
});
