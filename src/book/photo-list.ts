import type { Animal } from '../record/animal.js';
import { dayInWords } from '../words/day-in-words.js';
import type { Words } from '../words/words.js';
import type { TableSection } from './book-page.js';
import { photoInWords } from './work-in-words.js';

/** Every picture taken of her, by day; the pictures themselves stay in the case folder. */
export function photoList(words: Words, id: string, animal: Animal): TableSection | undefined {
  const photos = animal.visits.flatMap((visit) =>
    (visit.photos ?? []).map((photo) => ({ photo, date: visit.date })),
  );
  if (photos.length === 0) return undefined;
  return {
    id: `${id}-photos`,
    heading: words.say('book.photos.heading'),
    lead: [words.say('book.photos.lead')],
    table: {
      id: `${id}-photos-table`,
      caption: words.say('book.photos.caption', { animal: animal.animal }),
      columns: ['date', 'shows', 'words', 'file'].map((key) => ({ head: words.say(`book.photos.${key}`) })),
      rows: photos.map(({ photo, date }) => ({
        cells: [
          { text: dayInWords(words, date) },
          { text: photoInWords(words, photo) || '–' },
          { text: photo.caption ?? '–' },
          { text: photo.file },
        ],
      })),
    },
  };
}
