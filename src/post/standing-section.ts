import { nameInBook } from '../book/work-in-words.js';
import { type PlacedCase, animalCell } from '../book/animal-page-data.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { animalStatement } from '../words/compose-animal.js';
import { closingBasis } from '../words/compose-closing.js';
import { basisSentence } from '../words/compose-regrowth.js';
import type { Words } from '../reference/words.js';
import type { MailEntry, MailSection } from './mail-summary.js';

/** How each open case stands, worst first: her paragraph of the book, and under each range what it rests on. */
export function standingSection(words: Words, cases: readonly PlacedCase[], today: CalendarDay): MailSection {
  const open = cases.filter(({ standing }) => !standing.closed);
  const none = words.say(cases.length === 0 ? 'book.contents.empty' : 'book.contents.no-open');
  return {
    heading: words.say('mail.stands.heading'),
    lead: open.length === 0 ? [none] : rangesMean(words, open),
    groups: open.length === 0 ? [] : [{ entries: open.map((one) => entryOf(words, one, today)) }],
  };
}

function entryOf(words: Words, one: PlacedCase, today: CalendarDay): MailEntry {
  const { text, after = '' } = animalCell(words, one);
  const dated = [...basisOfGaps(words, one), ...basisOfUlcers(words, one)];
  return {
    title: words.say('mail.animal', { number: text, case: after }),
    lines: [
      animalStatement(words, one.record.animal, one.standing, one, today),
      ...dated.map(({ lesion, basis }) =>
        dated.length === 1
          ? basis
          : words.say('mail.stands.basis', { gap: nameInBook(words, one.record.animal, lesion), basis }),
      ),
    ],
  };
}

/** What the two days of a range mean, where one is given. */
function rangesMean(words: Words, open: readonly PlacedCase[]): string[] {
  const has = (said: (one: PlacedCase) => readonly Basis[]) => open.some((one) => said(one).length > 0);
  return [
    ...(has((one) => basisOfGaps(words, one)) ? [words.say('book.regrowth.lead-range')] : []),
    ...(has((one) => basisOfUlcers(words, one)) ? [words.say('book.closing.lead-range')] : []),
  ];
}

interface Basis {
  readonly lesion: string;
  readonly basis: string;
}

/** Of each gap that is given a range, and of no other. */
function basisOfGaps(words: Words, { growth }: PlacedCase): Basis[] {
  return growth.lesions
    .map((line) => ({ lesion: line.lesion, basis: basisSentence(words, growth, line) }))
    .filter(({ basis }) => basis !== '');
}

/** The same for ulcers. */
function basisOfUlcers(words: Words, { closings }: PlacedCase): Basis[] {
  return closings
    .map((closing) => ({ lesion: closing.lesion, basis: closingBasis(words, closing) }))
    .filter(({ basis }) => basis !== '');
}
