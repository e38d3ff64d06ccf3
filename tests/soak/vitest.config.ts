import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

export default defineConfig({
  root: fileURLToPath(new URL('../..', import.meta.url)),
  test: {
    include: ['tests/soak/*.soak.ts'],
    maxWorkers: 2,
    testTimeout: 7_200_000,
    disableConsoleIntercept: true,
  },
});
