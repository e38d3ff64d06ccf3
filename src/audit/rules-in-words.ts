import { fixedDays } from '../reference/intervals.js';
import { dayInWords } from '../words/day-in-words.js';
import { levelPercent } from '../words/percent.js';
import type { Words } from '../words/words.js';
import type { AuditFacts } from './facts/audit-facts.js';

/** What belongs to the period and how it is counted, for the page's end and the dictionary. */
export function rulesInWords(words: Words, { today }: Pick<AuditFacts, 'today'>): string[] {
  const values = {
    day: dayInWords(words, today),
    level: levelPercent,
    days: fixedDays('written-late'),
  };
  return ['1', '2', '3', '4', '5', '6', '7', '8'].map((rule) => words.say(`audit.rules.${rule}`, values));
}
