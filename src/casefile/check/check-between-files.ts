import type { AnimalFile } from '../animal-file.js';
import type { BetweenFilesFinding } from '../between-files-finding.js';
import type { FarmCheckContext } from '../check-context.js';

/** What is wrong between the animals of one farm. */
export function checkBetweenFiles(
  _animals: readonly AnimalFile[],
  _context: FarmCheckContext,
): BetweenFilesFinding[] {
  return [];
}
