import type { Animal } from '../record/animal.js';
import { dayInWords } from '../words/day-in-words.js';
import { lesionInWords, placeInWords } from '../words/lesion-in-words.js';
import type { Words } from '../words/words.js';
import type { DataTable } from './page-parts.js';
import type { PlacedCase } from './placed-case.js';
import { nameInBook } from './finding-in-words.js';
import { standingChip } from '../words/compose-standing.js';

/** Every lesion and growth mark followed in her: what, where, on which line, how it stands. */
export function lesionTable(words: Words, one: PlacedCase): DataTable | undefined {
  const { animal } = one.record;
  const lesions = Object.entries(animal.lesions).map(([name, lesion]) => {
    const standing = one.standing.lesions.find((each) => each.lesion === name);
    const code = standing?.code ?? lesion.code;
    const notes = [
      ...(code === lesion.code
        ? []
        : [words.say('book.lesions.first-called', { lesion: lesionInWords(words, lesion.code) })]),
      ...(lesion['again-of']
        ? [words.say('book.lesions.again-of', { lesion: nameInBook(words, animal, lesion['again-of']) })]
        : []),
    ];
    return [
      { text: name },
      { text: lesionInWords(words, code), ...(notes.length > 0 ? { note: notes.join('; ') } : {}) },
      { text: placeInWords(words, lesion.foot, lesion.claw) },
      { text: lesion.site ? words.say(`vocabulary.site.${lesion.site}`) : '–' },
      { text: lesion.line ? words.say(`vocabulary.line.${lesion.line}`) : '–' },
      { text: standing ? standingChip(words, standing) : '–', strong: true },
    ];
  });
  const rows = [...lesions, ...markRows(words, animal)];
  if (rows.length === 0) return undefined;
  return {
    id: `${one.id}-lesions`,
    caption: words.say('book.lesions.caption', { animal: animal.animal }),
    columns: ['name', 'lesion', 'place', 'site', 'line', 'stands'].map((key) => ({
      head: words.say(`book.lesions.${key}`),
    })),
    rows: rows.map((cells) => ({ cells })),
  };
}

function markRows(words: Words, animal: Animal) {
  return Object.entries(animal.marks ?? {}).map(([name, mark]) => [
    { text: name },
    mark['groove-from']
      ? {
          text: words.say('book.finding.groove'),
          note: words.say('book.lesions.groove-from', { day: dayInWords(words, mark['groove-from']) }),
        }
      : { text: words.say('book.finding.mark') },
    { text: placeInWords(words, mark.foot, mark.claw) },
    { text: '–' },
    { text: words.say(`vocabulary.line.${mark.line}`) },
    { text: '–' },
  ]);
}
