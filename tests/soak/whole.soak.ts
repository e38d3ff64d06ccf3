import { rmSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { everyStep, failures, readyFor, stopAndMend, tried } from '../keep/broken-off.js';
import { killPrograms } from './kill-programs.js';

describe.each(tried)('$name', (one) => {
  test('every call killed, and killed again while it is repaired; every call refused in each way', async () => {
    const ready = await readyFor(one);
    try {
      const again = (at: number) => 1 + ((at * 5) % 20);
      const nth = one.name === 'archive' ? 5 : 1;
      expect(
        await everyStep(ready, nth, (at) =>
          stopAndMend(ready, at, 'killed', { again: again(at), slow: true }),
        ),
      ).toEqual([]);
      for (const failure of failures)
        expect(await everyStep(ready, nth, (at) => stopAndMend(ready, at, failure)), failure).toEqual([]);
    } finally {
      rmSync(ready.folder, { recursive: true });
    }
  });
});

test('500 programs of their own, killed', async () => {
  const done = await killPrograms(500);
  expect([...done.values()].reduce((sum, one) => sum + one, 0)).toBe(500);
  console.log([...done]);
});
