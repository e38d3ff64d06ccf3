import type { DueItem } from '../../schedule/due-item.js';
import type { CaseWork } from '../../schedule/case-work.js';
import { dueInWords } from '../../words/compose-due.js';
import type { Words } from '../../words/words.js';
import type { FarmWork } from '../farm-work.js';
import type { EntryDraft } from './entry-draft.js';
import { placeOfFarm } from './place-of-farm.js';

const sides = ['milk', 'meat'] as const;

/**
 * The first clear day of milk and of meat, of all she was given, and an entry where a period was never written down:
 * that outweighs every day that is known, so no clear day is then told.
 */
export function withheldEntries(words: Words, work: FarmWork): EntryDraft[] {
  const place = placeOfFarm(work.record.farm);
  return work.cases.flatMap((one) => {
    const unknown = one.due.filter(({ what }) => what === 'withdrawal-not-recorded');
    return [
      ...draftOf(words, one, place, 'withdrawal-not-recorded', unknown, unknown[0]),
      ...sides.flatMap((side) => {
        if (unknown.some(({ notRecorded }) => notRecorded === side || notRecorded === 'both')) return [];
        const items = one.due.filter(({ what }) => what === `${side}-clear`);
        const dry = items.some(({ why }) => why.key.endsWith('-dry')) ? '-dry' : '';
        return draftOf(words, one, place, `${side}-clear${dry}`, items, items.at(-1));
      }),
    ];
  });
}

function draftOf(
  words: Words,
  { record }: CaseWork,
  place: string,
  name: string,
  items: readonly DueItem[],
  counts: DueItem | undefined,
): EntryDraft[] {
  if (counts === undefined) return [];
  const { animal } = record;
  const said = items.map((item) => dueInWords(words, animal, item));
  return [
    {
      key: `${record.slug}/${counts.what}`,
      due: counts.by,
      summary: words.say(`round.calendar.${name}`, { animal: animal.animal }),
      description: [
        dueInWords(words, animal, counts).what,
        ...new Set(said.map(({ why }) => why)),
        words.say('jobs.withheld.lead'),
      ].join('\n'),
      place,
    },
  ];
}
