import type { Farm } from '../../record/farm.js';
import type { FarmCheckContext } from '../check-context.js';
import type { Finding } from '../finding.js';

/** What is wrong inside one farm's record. */
export function checkFarm(_farm: Farm, _context: FarmCheckContext): Finding[] {
  return [];
}
