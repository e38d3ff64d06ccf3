import { findingsInWords } from '../book/work-in-words.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { Visit } from '../record/visit.js';
import type { CaseWork } from '../schedule/case-work.js';
import { openDue } from '../schedule/next-lift.js';
import { nextReadingSentence } from '../words/compose-regrowth.js';
import { calvingInWords } from '../words/compose-withheld.js';
import { dueInWords, whenDue } from '../words/compose-due.js';
import { dayInWords } from '../words/day-and-place.js';
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

/** Who came last, and when. What was read then would draw the next reading to it: `readBefore` tells it afterwards. */
export function lastVisit(words: Words, { record: { animal } }: CaseWork): string {
  const last = animal.visits.at(-1);
  if (!last) return words.say('form.visit.no-visit');
  return words.say('form.visit.last', { day: dayInWords(words, last.date), by: told(last.by) });
}

/** What was found when she was last looked at, and what was expected of the day: for after a visit is written down. */
export function readBefore(words: Words, work: CaseWork, day: CalendarDay): string[] {
  const { animal } = work.record;
  const at = animal.visits.findLastIndex(({ found = {} }) => Object.keys(found).length > 0);
  const scored = animal.visits.findLast(({ gait }) => gait !== undefined);
  const on = (visit: Visit): { readonly day: string } => ({ day: dayInWords(words, visit.date) });
  return [
    ...(scored?.gait === undefined
      ? []
      : [words.say('form.before.gait', { ...on(scored), gait: scored.gait })]),
    ...findingsInWords(words, animal, at).map(({ label, value }) =>
      words.say('form.before.found', { ...on(animal.visits[at]!), lesion: label, found: value }),
    ),
    ...work.growth.lesions.flatMap((line) => {
      const expected = nextReadingSentence(words, line, day);
      return expected === '' ? [] : [words.say('form.before.expected', { lesion: line.lesion, expected })];
    }),
  ];
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
