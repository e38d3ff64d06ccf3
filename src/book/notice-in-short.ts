import type { Animal } from '../record/animal.js';
import type { Notice } from '../schedule/notice.js';
import { evidenceSentence } from '../words/compose-notice.js';
import type { Words } from '../words/words.js';

/** A notice's name and what raised it, for a list that has columns of its own for the asking and the answer. */
export function noticeInShort(words: Words, animal: Animal, notice: Notice): string {
  return words.say('notice.line', {
    title: words.say(`notice.rule.${notice.rule}.title`),
    evidence: evidenceSentence(words, animal, notice.evidence),
  });
}
