import { rmSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { everyStep, failures, readyFor, stopAndMend, tried } from './broken-off.js';

/** Of a command of many calls only every so many are tried here, and all by `npm run soak`. */
const everyNth = (name: string): number =>
  ({ archive: 140, books: 5, post: 7, 'take (note)': 3, import: 2, move: 2 })[name] ?? 1;

describe.each(tried)('$name', (one) => {
  test('killed or refused at any call of the disk: old or new, and the next command mends it', async () => {
    const ready = await readyFor(one);
    try {
      expect(ready.count).toBeGreaterThan(5);
      const nth = everyNth(one.name);
      expect(
        await everyStep(ready, nth, (at) => stopAndMend(ready, at, 'killed', { slow: at % 7 === 0 })),
      ).toEqual([]);
      const code = (at: number) => failures[at % failures.length]!;
      expect(await everyStep(ready, nth, (at) => stopAndMend(ready, at, code(at)))).toEqual([]);
    } finally {
      rmSync(ready.folder, { recursive: true });
    }
  }, 120_000);
});
