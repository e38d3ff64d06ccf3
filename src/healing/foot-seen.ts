import type { Animal } from '../record/animal.js';
import { isLiftingVisit } from '../record/lifting.js';
import type { Visit } from '../record/visit.js';
import type { Foot } from '../record/words.js';

/** The foot was lifted and looked at: said so, trimmed, or a lesion on it found. */
export function footSeen(animal: Animal, visit: Visit, foot: Foot): boolean {
  const said = visit.feet?.[foot];
  if (!isLiftingVisit(visit) || said?.lifted === false) return false;
  if (said?.lifted === true || visit.trimmed?.includes(foot)) return true;
  return Object.entries(visit.found ?? {}).some(
    ([name, found]) => found.lifted !== false && animal.lesions[name]?.foot === foot,
  );
}
