import { dueInWords } from '../../words/compose-due.js';
import type { Words } from '../../words/words.js';
import type { FarmWork } from '../farm-work.js';
import type { EntryDraft } from './entry-draft.js';
import { placeOfFarm } from './place-of-farm.js';

/**
 * The first clear day of her milk and of her meat, and an entry to ask where one of them is not known: a clear day that is
 * not known is not told.
 */
export function withheldEntries(words: Words, { record, cases }: FarmWork): EntryDraft[] {
  const place = placeOfFarm(record.farm);
  return cases.flatMap(({ record: { slug, animal }, due }) =>
    due
      .filter(
        ({ what }) => what === 'milk-clear' || what === 'meat-clear' || what === 'withdrawal-not-recorded',
      )
      .map((item) => {
        const { what, why } = dueInWords(words, animal, item);
        return {
          key: `${slug}/${item.what}`,
          due: item.by,
          summary: words.say(`round.calendar.${item.what}`, { animal: animal.animal }),
          description: [what, why, words.say('jobs.withheld.lead')].join('\n'),
          place,
        };
      }),
  );
}
