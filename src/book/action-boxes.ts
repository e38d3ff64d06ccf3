import type { CalendarDay } from '../record/calendar-day.js';
import type { Farm } from '../record/farm.js';
import { dueInWords } from '../words/compose-due.js';
import { noticeInWords, noticeReason } from '../words/compose-notice.js';
import { nextReadingSentence } from '../words/compose-regrowth.js';
import { nameOf } from '../words/compose-standing.js';
import { dayInWords } from '../words/day-in-words.js';
import { paragraph, sentenceCase } from '../words/number-in-words.js';
import type { Words } from '../words/words.js';
import type { ActionBox } from './book-page.js';
import type { PlacedCase } from './case-work.js';
import { nextVisits } from './next-visits.js';

/** What happens next and who does it, by day; then what each gap should read at the next visit. */
export function nextBox(
  words: Words,
  farm: Farm,
  one: PlacedCase,
  today: CalendarDay,
): ActionBox | undefined {
  const { animal } = one.record;
  const due = one.due
    .filter((item) => item.standing !== 'done')
    .toSorted((a, b) => (a.by < b.by ? -1 : a.by > b.by ? 1 : 0))
    .map((item) => {
      const { what, why } = dueInWords(words, animal, item);
      const overdue = item.standing === 'overdue';
      return {
        lead: words.say(overdue ? 'book.animal.next-overdue' : 'book.animal.next-by', {
          day: dayInWords(words, item.by),
        }),
        text: paragraph(
          words.say('book.animal.next-item', { what, who: words.say(`book.who.${item.who}`) }),
          sentenceCase(why),
        ),
      };
    });
  const items = [...due, ...expectedReadings(words, farm, one, today)];
  return items.length === 0 ? undefined : { heading: words.say('book.animal.next'), items };
}

type Items = ActionBox['items'];

function expectedReadings(words: Words, farm: Farm, one: PlacedCase, today: CalendarDay): Items {
  const [day] = nextVisits(farm, one, today);
  if (day === undefined || one.standing.closed) return [];
  const gaps = one.growth.lesions.filter(({ forecast }) => forecast.outcome === 'range');
  return gaps.flatMap((gap) => {
    const sentence = nextReadingSentence(words, gap, day);
    if (sentence === '') return [];
    return [
      {
        lead: words.say('book.animal.next-reading'),
        text:
          gaps.length === 1
            ? sentence
            : words.say('book.animal.of-lesion', {
                name: nameOf(words, one.record.animal, gap.lesion),
                sentence,
              }),
      },
    ];
  });
}

/** Why she is for the vet, what was asked and what was answered. */
export function vetBox(words: Words, one: PlacedCase): ActionBox | undefined {
  const items = one.notices
    .filter((notice) => notice.standing)
    .map((notice) => ({
      text: paragraph(noticeInWords(words, one.record.animal, notice), noticeReason(words, notice)),
    }));
  return items.length === 0 ? undefined : { heading: words.say('book.animal.vet'), items };
}
