import { expect, test } from 'vitest';
import { killPrograms } from './kill-programs.js';

test('20 programs of their own, killed in the middle of writing: old or new, and the next command repairs it', async () => {
  const done = await killPrograms(20);
  expect([...done.values()].reduce((sum, one) => sum + one, 0)).toBe(20);
}, 120_000);
