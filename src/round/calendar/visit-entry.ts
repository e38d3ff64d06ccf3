import { phrase } from '../../book/fact.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import { plannedVisit } from '../../schedule/next-lift.js';
import { jobInShort } from '../../words/compose-job.js';
import type { Words } from '../../words/words.js';
import type { FarmWork } from '../farm-work.js';
import { standsOnVisit } from '../waits-for-visit.js';
import type { CalendarMemory } from './calendar-memory.js';
import type { EntryDraft } from './entry-draft.js';
import { placeOfFarm } from './place-of-farm.js';
import { isOpen } from '../../schedule/open-due.js';
import { stopInWords } from '../../words/compose-stop.js';

/**
 * The planned visit: which animals are to be there, and what each is lifted for.
 *
 * Visits are numbered. One that is put off before its day keeps its number and is moved; once its day is over, the
 * next planned one is another entry, and the old one stays where it took place.
 */
export function visitEntry(
  words: Words,
  work: FarmWork,
  { visits, visit: last }: CalendarMemory,
  today: CalendarDay,
): { readonly draft: EntryDraft; readonly counted: Pick<CalendarMemory, 'visits' | 'visit'> } | undefined {
  const { farm } = work.record;
  const day = plannedVisit(farm, today);
  if (day === undefined) return undefined;
  const { business, trimmer, phone } = work.business;
  const who = phrase(business, trimmer, phone);
  const number = last === undefined || (last < today && last !== day) ? visits + 1 : visits;
  const animals = work.cases
    .map((one) => ({
      one,
      items: one.due.filter((item) => isOpen(item) && standsOnVisit(item, day)),
    }))
    .filter(({ items }) => items.length > 0);
  const stop = stopInWords(words, work.cases);
  return {
    draft: {
      key: `visit/${number}`,
      due: day,
      summary: phrase(stop?.title, words.say('round.calendar.visit', { farm: farm.farm })),
      description: [
        ...(stop ? [stop.text] : []),
        words.say(`round.calendar.present${animals.length === 0 ? '-none' : ''}`, { count: animals.length }),
        ...animals.map(({ one, items }) => {
          const jobs = items.map((item) => jobInShort(words, one.record.animal, item).job);
          return words.say('round.calendar.line', {
            animal: one.record.animal.animal,
            jobs: [...new Set(jobs)].join('; '),
          });
        }),
        ...(who === '' ? [] : [words.say('round.calendar.by', { who })]),
      ].join('\n'),
      place: placeOfFarm(farm),
    },
    counted: { visits: number, visit: day },
  };
}
