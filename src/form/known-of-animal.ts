import { findingsInWords } from '../book/work-in-words.js';
import { visitQuestions } from '../keep/questions.js';
import type { Animal } from '../record/animal.js';
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
import type { OnHer } from './visit-form.js';
import { blockTimeline } from '../healing/block-timeline.js';
import { wrapTimeline } from '../healing/fixture-span.js';

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

/** Of a lesion or mark, or of her walk: what was last read, with its day, and what it should be; empty where nothing is expected. */
export type ReadBefore = Readonly<Record<'name' | 'last' | 'expected', string>>;

/**
 * The last readings and what is expected on a day, for after measuring alone. What was written in words is left out: it
 * is in the book.
 */
export function readBefore(words: Words, work: CaseWork, day: CalendarDay): ReadBefore[] {
  const { animal } = work.record;
  const on = (visit: Visit, value: string): string => words.say('form.before.on', { day: dayInWords(words, visit.date), value }); // prettier-ignore
  const lesions = followedNames(animal).map((name) => {
    const at = animal.visits.findLastIndex(({ found }) => found?.[name] && found[name].lifted !== false);
    const visit = animal.visits[at];
    const line = work.growth.lesions.find(({ lesion }) => lesion === name);
    const expected = line ? nextReadingSentence(words, line, day) : '';
    if (!visit) return { name, last: words.say('form.before.none'), expected };
    const { note: _note, ...found } = visit.found![name]!;
    const only = { ...animal, visits: animal.visits.with(at, { ...visit, found: { [name]: found } }) };
    return { name, last: on(visit, findingsInWords(words, only, at)[0]?.value ?? ''), expected };
  });
  const walked = animal.visits.findLast(({ gait }) => gait !== undefined);
  if (walked?.gait === undefined) return lesions;
  const block = walked['on-block'] === undefined ? '' : walked['on-block'] ? '-on' : '-off';
  const last = on(walked, words.say(`form.before.gait${block}`, { gait: walked.gait }));
  return [...lesions, { name: words.say('form.before.walk'), last, expected: '' }];
}

/** The same as lines. */
export function linesBefore(words: Words, work: CaseWork, day: CalendarDay): string[] {
  return readBefore(words, work, day).map((row) => words.say(row.expected ? 'form.before.row-expected' : 'form.before.row', row)); // prettier-ignore
}

/** Lesions still followed, then her marks. */
export function followedNames(animal: Animal): string[] {
  const asked = visitQuestions(animal).filter(({ path }) => path[0] === 'found');
  return [...new Set(asked.flatMap(({ name }) => name ?? []))];
}

/** All that is due of her, soonest first. */
export function dueNow(
  words: Words,
  { record: { animal }, due }: CaseWork,
  today: CalendarDay,
): VisitPage['due'] {
  const lines = openDue(due).map((item) =>
    words.say('form.visit.due-line', {
      when: whenDue(words, item, today, dayInWords(words, item.by)),
      what: dueInWords(words, animal, item).what,
    }),
  );
  return {
    heading: words.say('form.visit.due'),
    lines: lines.length === 0 ? [words.say('form.visit.nothing-due')] : lines,
    moreLabel: words.say('form.visit.due-more', { count: lines.length - 2 }),
  };
}

/** What is known to be on her: a claw once, whatever is said of it. */
export function knownOnHer(animal: Animal, today: CalendarDay): OnHer {
  const blocks = blockTimeline(animal, today).on.map(({ foot, claw }) => [`${foot} ${claw}`, { foot, claw }] as const);
  const wraps = wrapTimeline(animal, today).flatMap(({ foot, end }) => (end ? [] : [[foot, { foot }] as const]));
  return { blocks: [...new Map(blocks).values()], wraps: [...new Map(wraps).values()] };
} // prettier-ignore
