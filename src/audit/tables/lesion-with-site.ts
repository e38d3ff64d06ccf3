import { codeOn } from '../../record/code-of-lesion.js';
import type { Animal } from '../../record/animal.js';
import { nameOf } from '../../words/compose-standing.js';
import type { Words } from '../../words/words.js';

/**
 * A lesion by its full name and code, foot, claw and site, as it was called at a visit.
 * Such as: white line disease (WL), left hind, outer claw: white line, rear part.
 */
export function lesionWithSite(words: Words, animal: Animal, name: string, at: number): string {
  const lesion = animal.lesions[name];
  if (!lesion) return name;
  const named = nameOf(words, animal, name, codeOn(name, lesion, animal.visits, at));
  return lesion.site
    ? words.say('audit.lesion-site', { lesion: named, site: words.say(`vocabulary.site.${lesion.site}`) })
    : named;
}
