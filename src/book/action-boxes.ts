import type { CalendarDay } from '../record/calendar-day.js';
import type { Farm } from '../record/farm.js';
import { dueInWords, whenDue, noticeInWords, noticeReason } from '../words/compose-due.js';
import { nextWidthSentence } from '../words/compose-closing.js';
import { nextReadingSentence, worthSentence } from '../words/compose-regrowth.js';
import { nameOf } from '../words/compose-standing.js';
import { readingToTake } from '../schedule/reading-to-take.js';
import { dayInWords, paragraph, sentenceCase } from '../words/day-and-place.js';
import type { Words } from '../reference/words.js';
import type { ActionBox, PlacedCase } from './animal-page-data.js';
import { nextLift, isOpen } from '../schedule/next-lift.js';

/** What happens next and who does it, by day; then what each gap should read at the next visit. */
export function nextBox(
  words: Words,
  farm: Farm,
  one: PlacedCase,
  today: CalendarDay,
): ActionBox | undefined {
  const { animal } = one.record;
  const due = one.due
    .filter(isOpen)
    .toSorted((a, b) => (a.by < b.by ? -1 : a.by > b.by ? 1 : 0))
    .map((item) => {
      const { what, why } = dueInWords(words, animal, item);
      return {
        lead: sentenceCase(whenDue(words, item, today, dayInWords(words, item.by))),
        text: paragraph(
          words.say('book.animal.next-item', { what, who: words.say(`book.who.${item.who}`) }),
          sentenceCase(why),
        ),
      };
    });
  const items = [
    ...due,
    ...expectedReadings(words, farm, one, today),
    ...worthMeasuringItem(words, farm, one, today),
  ];
  return items.length === 0 ? undefined : { heading: words.say('book.animal.next'), items };
}

type Items = ActionBox['items'];

function expectedReadings(words: Words, farm: Farm, one: PlacedCase, today: CalendarDay): Items {
  const day = nextLift(farm, one, today);
  if (day === undefined || one.standing.closed) return [];
  const expected = [
    ...one.growth.lesions
      .filter(({ forecast }) => forecast.outcome === 'range')
      .map((gap) => ({ lesion: gap.lesion, sentence: nextReadingSentence(words, gap, day) })),
    ...one.closings
      .filter(({ forecast }) => forecast.outcome === 'range')
      .map((ulcer) => ({ lesion: ulcer.lesion, sentence: nextWidthSentence(words, ulcer, day) })),
  ];
  return expected
    .filter(({ sentence }) => sentence !== '')
    .map(({ lesion, sentence }) => ({
      lead: words.say('book.animal.next-reading'),
      text:
        expected.length === 1
          ? sentence
          : words.say('book.animal.of-lesion', { name: nameOf(words, one.record.animal, lesion), sentence }),
    }));
}

/** The one reading that would narrow a date most. */
function worthMeasuringItem(words: Words, farm: Farm, one: PlacedCase, today: CalendarDay): Items {
  const reading = readingToTake(farm, one, today);
  if (reading === undefined) return [];
  return [
    {
      lead: words.say('book.animal.worth-measuring'),
      text: worthSentence(words, one.record.animal, one.growth, reading),
    },
  ];
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
