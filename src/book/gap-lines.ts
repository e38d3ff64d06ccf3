import type { Gap } from '../schedule/gaps-of-farm.js';
import { gapInWords } from '../words/compose-withheld.js';
import { paragraph } from '../words/number-in-words.js';
import type { Words } from '../reference/words.js';
import { animalCell, type PlacedCase } from './animal-page-data.js';
import type { TableSection } from './page-parts.js';

const grades: readonly Gap['grade'][] = ['serious', 'worth closing', 'minor'];

/** What her record does not hold, and how to close it. */
export function gapLines(words: Words, { record, gaps }: PlacedCase): string[] {
  return gaps.map((gap) => {
    const { message, close } = gapInWords(words, record.animal, gap);
    return paragraph(message, close);
  });
}

/** What the records of the whole farm do not hold, the serious first. */
export function gapTable(words: Words, cases: readonly PlacedCase[], farmGaps: readonly Gap[]): TableSection {
  const all = [
    ...farmGaps.map((gap) => ({ gap, one: undefined })),
    ...cases.flatMap((one) => one.gaps.map((gap) => ({ gap, one }))),
  ].sort((a, b) => grades.indexOf(a.gap.grade) - grades.indexOf(b.gap.grade));
  const section = { id: 'gaps', heading: words.say('book.gaps.heading') };
  if (all.length === 0) return { ...section, lead: [words.say('book.gaps.none')] };
  return {
    ...section,
    lead: [words.say('book.gaps.lead')],
    table: {
      id: 'gaps-table',
      caption: words.say('book.gaps.caption'),
      columns: ['animal', 'grade', 'missing'].map((key) => ({ head: words.say(`book.gaps.${key}`) })),
      rows: all.map(({ gap, one }) => {
        const { message, close } = gapInWords(words, one?.record.animal, gap);
        return {
          cells: [
            one ? animalCell(words, one) : { text: words.say('book.gaps.farm') },
            { text: words.say(`gap.grade.${gap.grade}`) },
            { text: message, note: close },
          ],
        };
      }),
    },
  };
}
