import type { CalendarDay } from '../record/calendar-day.js';
import type { FarmRecord, Practice } from '../record/practice.js';
import { plannedVisit } from '../schedule/next-lift.js';
import { dayInWords } from '../words/day-in-words.js';
import type { Words } from '../words/words.js';
import type { Cover } from './first-pages-data.js';
import type { CaseWork } from '../schedule/case-work.js';
import { fact, phrase } from './fact.js';

/** Whose book, by whom, of which day, over what time, and how much is in it. */
export function composeCover(
  words: Words,
  practice: Practice,
  { farm }: FarmRecord,
  cases: readonly CaseWork[],
  today: CalendarDay,
  /** Of a short book: closed cases that are not in it. */
  leftOut?: number,
): Cover {
  const { business } = practice;
  const visits = cases.flatMap(({ record }) => record.animal.visits);
  const days = visits.map((visit) => visit.date).sort();
  const [first, last] = [days[0], days.at(-1)];
  const visit = plannedVisit(farm, today);
  const open = cases.filter(({ standing }) => !standing.closed).length;
  return {
    kicker: words.say('book.cover.kicker'),
    farm: farm.farm,
    by: phrase(business.business, business.trimmer, business.phone),
    facts: [
      { label: words.say('book.cover.date'), value: dayInWords(words, today) },
      {
        label: words.say('book.cover.visits'),
        value:
          first && last
            ? words.say('book.cover.visits-from-to', {
                count: visits.length,
                from: dayInWords(words, first),
                to: dayInWords(words, last),
              })
            : words.say('book.cover.no-visits'),
      },
      {
        label: words.say('book.cover.animals'),
        value:
          leftOut === undefined
            ? words.say('book.cover.animal-count', {
                open,
                closed: cases.length - open,
              })
            : words.say('book.cover.animal-count-short', { count: cases.length, left: leftOut }),
      },
      ...fact(
        words,
        'book.cover.next-visit',
        visit ? dayInWords(words, visit) : words.say('book.cover.not-planned'),
      ),
    ],
  };
}
