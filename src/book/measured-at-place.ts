import type { Animal } from '../record/animal.js';
import type { Claw, Foot } from '../record/words.js';
import type { Words } from '../words/words.js';
import { phrase } from './fact.js';
import { nameInBook } from './finding-in-words.js';

const lengths = ['top', 'wall', 'width', 'length', 'depth', 'distance'] as const;

/** What was found and measured at some visits on one claw, or on a whole foot, a line for each lesion and mark. */
export function measuredAtPlace(
  words: Words,
  animal: Animal,
  visits: readonly number[],
  foot: Foot,
  claw: Claw | undefined,
): string[] {
  const isHere = (name: string): boolean => {
    const place = animal.lesions[name] ?? animal.marks?.[name];
    return place?.foot === foot && (!claw || !place.claw || place.claw === claw);
  };
  return visits.flatMap((at) =>
    Object.entries(animal.visits[at]?.found ?? {})
      .filter(([name]) => isHere(name))
      .map(([name, found]) =>
        words.say('book.animal.of-lesion', {
          name: nameInBook(words, animal, name, at),
          sentence: phrase(
            found.lifted === false && words.say('book.finding.not-lifted'),
            found.state && words.say(`vocabulary.state.${found.state}`),
            found.stage && words.say(`vocabulary.stage.${found.stage}`),
            ...lengths.map((key) => {
              const value = found[key];
              return value === undefined ? undefined : words.say(`book.finding.${key}`, { value });
            }),
          ),
        }),
      ),
  );
}
