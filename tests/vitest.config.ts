import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';
import LongestFirst from './longest-first.js';

export default defineConfig({
  root: fileURLToPath(new URL('..', import.meta.url)),
  test: {
    include: ['tests/**/*.test.ts'],
    globalSetup: fileURLToPath(new URL('./folder-of-run.ts', import.meta.url)),
    benchmark: { include: ['tests/bench/**/*.bench.ts'] },
    reporters: ['default', fileURLToPath(new URL('./plain-line-reporter.ts', import.meta.url))],
    maxWorkers: 2,
    // No test changes a module or a global: one loading serves all files of a worker.
    isolate: false,
    sequence: { sequencer: LongestFirst },
    testTimeout: 30_000,
  },
});
