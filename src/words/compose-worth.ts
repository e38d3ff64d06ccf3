import type { AnimalGrowth } from '../growth/animal-growth.js';
import type { ReadingWorthTaking } from '../growth/worth-measuring/reading-worth-taking.js';
import type { Animal } from '../record/animal.js';
import { nameOf } from './compose-standing.js';
import { dayInWords } from './day-in-words.js';
import { placeInWords } from './lesion-in-words.js';
import type { Words } from './words.js';

/**
 * Which one reading at the next visit would narrow a date most, and by how much.
 *
 * Checked: tests/words/situations.test.ts
 */
export function worthSentence(
  words: Words,
  animal: Animal,
  growth: Pick<AnimalGrowth, 'lesions'>,
  reading: ReadingWorthTaking,
): string {
  const { what, of, lesion, tool, foot, claw, readAgainOn, nowWeeks, thenWeeks } = reading;
  const dated = growth.lesions.filter(({ forecast }) => forecast.outcome === 'range');
  const key = what === 'top' && of !== lesion ? 'top-of-other' : what;
  return words.say(`worth.${key}`, {
    tool: words.say(`vocabulary.tool.${tool}`),
    date:
      dated.length === 1
        ? words.say('worth.this')
        : words.say('worth.of', { gap: nameOf(words, animal, lesion) }),
    now: Math.round(nowWeeks),
    after: Math.round(thenWeeks),
    ...(of === undefined ? {} : { of: what === 'mark' ? of : nameOf(words, animal, of) }),
    place: placeInWords(words, foot, claw),
    ...(readAgainOn === undefined ? {} : { again: dayInWords(words, readAgainOn) }),
  });
}
