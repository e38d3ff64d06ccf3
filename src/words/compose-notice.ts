import type { Animal } from '../record/animal.js';
import type { Visit } from '../record/visit.js';
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
export function vetSentence(words: Words, { asked, answered, seenAgain }: Notice): string {
  if (!asked) return words.say('notice.not-asked');
  const on = dayInWords(words, asked.on);
  if (!answered) return words.say('notice.asked', { day: on });
  const day = dayInWords(words, answered.on);
  return paragraph(
    words.say('notice.answered', { asked: on, by: answered.by, day, reply: answered.reply }),
    seenAgain && words.say('notice.seen-again', { day: dayInWords(words, seenAgain) }),
  );
}

/** What a question to the vet, or his answer, names: feet and signs in the reader's words, lesions by their short names. */
export function namedInWords(words: Words, items: readonly string[] = []): string | undefined {
  const said = items.map((item) => {
    const list = ['foot', 'sign', 'animal-sign', 'about'].find((one) =>
      words.has(`vocabulary.${one}.${item}`),
    );
    return list === undefined ? item : words.say(`vocabulary.${list}.${item}`);
  });
  return said.length === 0 ? undefined : said.join(', ');
}

export function aboutInWords(words: Words, items?: readonly string[]): string | undefined {
  const what = namedInWords(words, items);
  return what === undefined ? undefined : words.say('book.log.vet-about', { what });
}

/** What an answer says beside its words: what it is about, whether it closes it, what was given, what the vet does; empty for nothing. */
export function answerInWords(
  words: Words,
  { about, closes, treated, does = [] }: NonNullable<Visit['vet-answer']>,
): string {
  const tasks = does.map(({ what, on }) =>
    words.say('book.log.task-on', {
      task: words.say(`vocabulary.task.${what}`),
      day: dayInWords(words, on),
    }),
  );
  return [
    aboutInWords(words, about),
    closes === undefined ? undefined : words.say(`book.log.vet-closes.${closes}`),
    treated === undefined ? undefined : words.say(`book.log.treated.${treated}`),
    tasks.length === 0 ? undefined : words.say('book.log.vet-does', { tasks: tasks.join('; ') }),
  ]
    .flatMap((part) => part ?? [])
    .join('; ');
}
