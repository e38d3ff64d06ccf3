import { growthNumbers } from '../reference/growth-numbers.js';
import { isMeasured } from './growth-line.js';
import type { LineFollowed } from './held-slowly.js';

/**
 * Whether the clock of a line started at the coronet and no reading since shows that horn has come away from it.
 * Then a date holds only if sound horn follows.
 *
 * Valid:   the latest used reading, with its own reading error
 * Source:  shared/growth.json `tests.awayFromCoronet`
 * Checked: tests/growth/growth-cases.test.ts
 */
export function onlyIfSoundHornFollows({ start, lastUsed }: LineFollowed): boolean {
  if (start?.mm !== 0 || lastUsed === undefined) return false;
  return lastUsed.mm < growthNumbers.tests.awayFromCoronet.value * lastUsed.sigmaMm;
}

/** Whether the last two readings both found the gap at the coronet: no sound horn has come yet. */
export function isStillAtCoronet({ judged }: LineFollowed): boolean {
  const lastTwo = judged.filter(({ reading }) => isMeasured(reading)).slice(-2);
  return lastTwo.length === 2 && lastTwo.every(({ reading }) => reading.mm === 0);
}
