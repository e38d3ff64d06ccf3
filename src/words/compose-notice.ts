import type { Animal } from '../record/animal.js';
import type { Notice } from '../schedule/notice.js';
import { dayInWords } from './day-in-words.js';
import { paragraph } from './number-in-words.js';
import { valuesInWords } from './values-in-words.js';
import type { Words } from './words.js';

/** What raised a notice in the record, in a sentence. */
export function evidenceSentence(words: Words, animal: Animal, evidence: Notice['evidence']): string {
  return words.say(evidence.key, valuesInWords(words, animal, evidence.values));
}

/**
 * A notice in words: its name, what raised it, and whether the vet has been asked and has answered. A prompt, never
 * a diagnosis.
 *
 * Checked: tests/words/situations.test.ts
 */
export function noticeInWords(words: Words, animal: Animal, notice: Notice): string {
  return paragraph(
    words.say('notice.line', {
      title: words.say(`notice.rule.${notice.rule}.title`),
      evidence: evidenceSentence(words, animal, notice.evidence),
    }),
    vetSentence(words, notice),
  );
}

/** Why it is for the vet. */
export function noticeReason(words: Words, notice: Notice): string {
  return words.say(`notice.rule.${notice.rule}.reason`);
}

/** Whether the vet was asked since it was raised, and what the answer was. */
export function vetSentence(words: Words, { asked, answered }: Notice): string {
  if (!asked) return words.say('notice.not-asked');
  const on = dayInWords(words, asked.on);
  if (!answered) return words.say('notice.asked', { day: on });
  const day = dayInWords(words, answered.on);
  return words.say('notice.answered', { asked: on, by: answered.by, day, reply: answered.reply });
}
