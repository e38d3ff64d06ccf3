import type { Animal } from '../../record/animal.js';
import type { AnimalCheckContext } from '../check-context.js';
import type { Finding } from '../finding.js';

/** What is wrong inside one animal's record. */
export function checkAnimal(_animal: Animal, _context: AnimalCheckContext): Finding[] {
  return [];
}
