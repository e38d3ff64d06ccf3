import { findingsInWords } from '../book/work-in-words.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { CaseWork } from '../schedule/case-work.js';
import { openDue } from '../schedule/next-lift.js';
import { calvingInWords } from '../words/compose-withheld.js';
import { dueInWords, whenDue } from '../words/compose-due.js';
import { dayInWords, sentenceCase } from '../words/day-and-place.js';
import { type Words, told } from '../reference/words.js';
import type { VisitPage } from './form-view.js';

/** What a trimmer needs to know of her beside her number before a foot is lifted. */
export function identityOf(words: Words, { record: { animal }, calvingNear }: CaseWork): string[] {
  return [
    ...(animal.tag === undefined ? [] : [animal.tag]),
    ...(animal.handling === undefined
      ? []
      : [words.say('form.animals.handling', { handling: told(animal.handling) })]),
    ...(calvingNear ? [calvingInWords(words, calvingNear)] : []),
  ];
}

/** The last visit, and where nothing was looked at then, what was found the last time that something was. */
export function lastVisit(words: Words, { record: { animal } }: CaseWork): VisitPage['last'] {
  const at = animal.visits.length - 1;
  const last = animal.visits[at];
  if (!last) return { heading: words.say('form.visit.no-visit'), lines: [] };
  const looked = animal.visits.findLastIndex(({ found = {} }) => Object.keys(found).length > 0);
  const seen = animal.visits[looked];
  return {
    heading: words.say('form.visit.last', { day: dayInWords(words, last.date), by: told(last.by) }),
    lines: [
      ...(last.gait === undefined ? [] : [sentenceCase(words.say('form.visit.gait', { gait: last.gait }))]),
      ...(seen && looked < at
        ? [words.say('form.visit.found-on', { day: dayInWords(words, seen.date) })]
        : []),
      ...(seen ? findingsInWords(words, animal, looked) : []).map(({ label, value }) => `${label}: ${value}`),
    ],
  };
}

/** All that is due of her, soonest first. */
export function dueNow(
  words: Words,
  { record: { animal }, due }: CaseWork,
  today: CalendarDay,
): VisitPage['due'] {
  const open = openDue(due);
  return {
    heading: words.say('form.visit.due'),
    lines:
      open.length === 0
        ? [words.say('form.visit.nothing-due')]
        : open.map((item) =>
            words.say('form.visit.due-line', {
              when: whenDue(words, item, today, dayInWords(words, item.by)),
              what: dueInWords(words, animal, item).what,
            }),
          ),
  };
}
