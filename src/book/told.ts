import type { StandingWord } from '../healing/standing.js';
import type { DueItem } from '../schedule/due-item.js';
import type { Notice } from '../schedule/notice.js';
import type { Words } from '../words/words.js';
import type { PlacedCase } from './case-work.js';

/** TEMPORARY */
export function standingChip(words: Words, standing: StandingWord): string {
  return words.say(`book.chip.${standing}`);
}
export function chipOf(words: Words, one: PlacedCase): string {
  if (one.standing.closed)
    return words.say('book.chip.closed', { result: resultInWords(words, one.standing.closed.result) });
  return one.standing.leading
    ? standingChip(words, one.standing.leading.standing)
    : words.say('book.chip.none');
}
export function sentenceOf(words: Words, one: PlacedCase): string {
  return chipOf(words, one);
}
export function statementOf(words: Words, one: PlacedCase): string {
  return chipOf(words, one);
}
export function dueInWords(words: Words, one: PlacedCase, item: DueItem): { what: string; why?: string } {
  void words;
  void one;
  return { what: item.what, why: item.why.key + JSON.stringify(item.why.values) };
}
export function noticeInWords(words: Words, one: PlacedCase, notice: Notice): string {
  void words;
  void one;
  return notice.rule;
}

function resultInWords(words: Words, result: string): string {
  const key = `vocabulary.result.${result}`;
  return words.say(words.has(key) ? key : 'book.chip.result-not-said');
}
