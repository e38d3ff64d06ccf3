import type { CaseStanding, LesionStanding } from '../healing/standing.js';
import type { Animal } from '../record/animal.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { familyOf } from '../reference/lesions.js';
import { gaitInShort } from './compose-closing.js';
import { isOpenStanding, valuesOf } from './compose-standing.js';
import { dayInWords, sentenceCase } from './day-and-place.js';
import type { Words } from '../reference/words.js';

/**
 * An animal's status in one plain sentence, for a list: her leading lesion, how many others are open, how she
 * walks. Of a closed case the day and the result.
 *
 * Checked: tests/words/situations.test.ts
 */
export function animalSentence(words: Words, animal: Animal, standing: CaseStanding): string {
  const { closed, leading, lesions, gait } = standing;
  if (closed) return closedSentence(words, closed);
  const walk = gaitInShort(words, gait);
  const open = lesions.filter(isOpenStanding);
  if (!leading) return sentenceCase(words.say('standing.line.none-and-walk', { walk }));
  if (open.length === 0) return sentenceCase(words.say('standing.line.all-healed', { walk }));
  const lesion = lesionInShort(words, animal, leading);
  const others = words.say('standing.line.others', { count: open.length - 1 });
  const key = open.length === 1 ? 'lesion-and-walk' : 'lesion-others-and-walk';
  return sentenceCase(words.say(`standing.line.${key}`, { lesion, walk, others }));
}

/** A lesion's standing as a clause. Such as: growing down, 8 mm since 28 April 2026. */
function lesionInShort(words: Words, animal: Animal, lesion: LesionStanding): string {
  return words.say(`standing.short.${shortVariant(lesion)}`, {
    ...valuesOf(words, animal, lesion),
    ...(lesion.evidence.stage ? { stage: lesion.evidence.stage } : {}),
  });
}

function shortVariant({ standing, code, evidence }: LesionStanding): string {
  const ulcer = familyOf(code) === 'ulcer';
  if (ulcer && (standing === 'held' || standing === 'lower-than-growth' || standing === 'opened-further'))
    return `${standing}-ulcer`;
  if (evidence.mayBeHeld) return 'may-be-held';
  if (standing === 'ran-up' && evidence.ranUpMm === undefined) return 'ran-up-not-sized';
  if (standing === 'open' && evidence.nowMm === undefined) return 'open-unmeasured';
  if (standing === 'not-measured' && evidence.date === undefined) return 'never';
  if (standing === 'not-measured' && familyOf(code) === 'dermatitis') return 'not-staged';
  return standing;
}

function closedSentence(words: Words, { on, result }: { on: CalendarDay; result: string }): string {
  const day = dayInWords(words, on);
  const key = `vocabulary.result.${result}`;
  return words.has(key)
    ? words.say('standing.line.closed', { day, result: words.say(key) })
    : words.say('standing.line.closed-no-result', { day });
}
