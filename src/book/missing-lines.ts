import type { MissingEntry } from '../schedule/missing-on-farm.js';
import { missingOnPage } from '../words/compose-withheld.js';
import { paragraph } from '../words/day-and-place.js';
import type { Words } from '../reference/words.js';
import { animalCell, type PlacedCase } from './animal-page-data.js';
import { dataTable, heads, type TableSection } from './page-parts.js';

const grades: readonly MissingEntry['grade'][] = ['serious', 'worth closing', 'minor'];

/** What her record does not hold, and how to close it. */
export function missingLines(words: Words, { record, missing }: PlacedCase): string[] {
  return missing.map((entry) => {
    const { message, close } = missingOnPage(words, record.animal, entry);
    return paragraph(message, close);
  });
}

/** What the records of the whole farm do not hold, the serious first. */
export function missingSection(
  words: Words,
  cases: readonly PlacedCase[],
  ofFarm: readonly MissingEntry[],
): TableSection {
  const all = [
    ...ofFarm.map((entry) => ({ entry, one: undefined })),
    ...cases.flatMap((one) => one.missing.map((entry) => ({ entry, one }))),
  ].sort((a, b) => grades.indexOf(a.entry.grade) - grades.indexOf(b.entry.grade));
  const section = { id: 'gaps', heading: words.say('book.missing.heading') };
  if (all.length === 0) return { ...section, lead: [words.say('book.missing.none')] };
  return {
    ...section,
    lead: [words.say('book.missing.lead')],
    table: dataTable(
      'gaps-table',
      words.say('book.missing.caption'),
      heads(words, 'book.missing', 'animal', 'grade', 'missing'),
      all.map(({ entry, one }) => {
        const { message, close } = missingOnPage(words, one?.record.animal, entry);
        return [
          one ? animalCell(words, one) : words.say('book.missing.farm'),
          words.say(`missing.grade.${entry.grade}`),
          { text: message, note: close },
        ];
      }),
    ),
  };
}
