import type { Animal } from '../record/animal.js';
import { given } from '../record/given.js';
import type { Visit } from '../record/visit.js';
import type { Notice } from '../schedule/notices/notice-rule.js';
import { dayInWords, paragraph, placeInWords, sentenceCase } from './day-and-place.js';
import { valuesInWords, nameOf } from './compose-standing.js';
import { type Words, told } from '../reference/words.js';
import { familyOf } from '../reference/lesions.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { runsToItsDay } from '../schedule/due/farm-task-due.js';
import type { DueItem, DueWhat } from '../schedule/due/due-item.js';
import type { CaseWork, StopWork } from '../schedule/case-work.js';

/** What raised a notice in the record, in a sentence. */
export function evidenceSentence(words: Words, animal: Animal, evidence: Notice['evidence']): string {
  return words.say(evidence.key, valuesInWords(words, animal, evidence.values));
}

/**
 * A notice in words: its name, what raised it and why it is for the vet. A prompt, never a diagnosis. How the asking
 * stands, and what was answered, is with the visits.
 *
 * Checked: tests/words/situations.test.ts
 */
export function noticeInWords(words: Words, animal: Animal, { rule, evidence }: Notice): string {
  return paragraph(
    words.say('notice.line', {
      title: words.say(`notice.rule.${rule}.title`),
      evidence: evidenceSentence(words, animal, evidence),
    }),
    words.say(`notice.rule.${rule}.reason`),
  );
}

/** What a question to the vet, or his answer, names: feet and signs in the reader's words, lesions by their short names. */
export function namedInWords(words: Words, items: readonly string[] = []): string | undefined {
  const said = items.map((item) => {
    const list = ['foot', 'sign', 'animal-sign', 'about'].find((one) =>
      words.has(`vocabulary.${one}.${item}`),
    );
    return list === undefined ? item : words.say(`vocabulary.${list}.${item}`);
  });
  return said.length === 0 ? undefined : words.commas(said);
}

export function aboutInWords(words: Words, items?: readonly string[]): string | undefined {
  const what = namedInWords(words, items);
  return what === undefined ? undefined : words.say('book.log.vet-about', { what });
}

/** What an answer says beside its words: what it is about, whether it closes it, what was given, what the vet does; empty for nothing. */
export function answerInWords(
  words: Words,
  { about, closes, treated, does = [] }: NonNullable<Visit['vet-answer']>,
): string {
  const tasks = does.map(({ what, on }) =>
    words.say('book.log.task-on', {
      task: words.say(`vocabulary.task.${what}`),
      day: dayInWords(words, on),
    }),
  );
  return words.semicolons([
    aboutInWords(words, about),
    closes === undefined ? undefined : words.say(`book.log.vet-closes.${closes}`),
    treated === undefined ? undefined : words.say(`book.log.treated.${treated}`),
    tasks.length === 0 ? undefined : words.say('book.log.vet-does', { tasks: words.semicolons(tasks) }),
  ]);
}

/**
 * What is to be done and why. The day, who, and whether it is overdue are beside it where it is printed.
 *
 * Checked: tests/words/situations.test.ts
 */
export function dueInWords(words: Words, animal: Animal, item: DueItem) {
  return {
    what: whatInWords(words, animal, item),
    why: paragraph(
      whyInWords(words, animal, item),
      Number(item.why.values['more'] ?? 0) > 0
        ? words.say('due.more-not-known', { count: item.why.values['more']! })
        : undefined,
      item.doneOn ? words.say('due.done', { day: dayInWords(words, item.doneOn) }) : undefined,
      item.beforeNextVisit ? words.say('due.before-next-visit') : undefined,
      item.nearCalving ? words.say('due.near-calving') : undefined,
    ),
  };
}

/**
 * When an item is due: the only words for it. What nobody can be late with is dated since a day; a task of the farm's
 * that is kept up runs until one.
 *
 * Shape:   `day`: the item's day, worded as the page words its days
 */
export function whenDue(
  words: Words,
  { what, task, by, standing, overdueFrom }: DueItem,
  today: CalendarDay,
  day: string,
): string {
  const runs = what === 'farm-task' && runsToItsDay(task) && by >= today;
  const waits = by < today && overdueFrom === undefined;
  const way = standing === 'overdue' ? 'overdue' : runs ? 'until' : waits ? 'since' : 'due';
  return words.say(`due.when.${way}`, { day });
}

function whatInWords(words: Words, animal: Animal, item: DueItem): string {
  const { what, lesion, foot, claw, why } = item;
  const own = ownWords(words, 'due.what', item);
  if (own !== undefined) return sentenceCase(own);
  const place = lesion ? nameOf(words, animal, lesion) : foot && placeInWords(words, foot, claw);
  const key = what === 'recheck' && place ? 'recheck-at' : whatMeasured(animal, item);
  return words.say(`due.what.${key}`, {
    ...valuesInWords(words, animal, why.values),
    ...given({ place }),
  });
}

/** Of a task somebody was asked to do, and of a question to the vet, what was asked; undefined of all else. */
function ownWords(words: Words, area: string, { what, task, why }: DueItem): string | undefined {
  const asked = words.say(`vocabulary.task.${task ?? 'ring if worse'}`);
  if (what === 'farm-task' || what === 'vet-work') return asked;
  if (what === 'farm-task-done') return words.say(`${area}.${what}`, { task: asked });
  if (what === 'vet-ask') return words.say(`${area}.vet-ask.${why.values['urgency'] ?? 'notice'}`);
  return undefined;
}

/** Which length is to be measured again: of a wall its top, of all else the width. */
function whatMeasured({ lesions }: Animal, { what, lesion }: DueItem): string {
  const declared = lesion === undefined ? undefined : lesions[lesion];
  const isWidth = what === 'measure-again' && declared && familyOf(declared.code) !== 'wall';
  return isWidth ? 'measure-again-width' : what;
}

function whyInWords(words: Words, animal: Animal, { what, why, task }: DueItem): string {
  if (what !== 'vet-ask')
    return words.say(why.key, {
      ...valuesInWords(words, animal, why.values),
      ...(task ? { task: words.say(`vocabulary.task.${task}`) } : {}),
    });
  const more = Number(why.values['count'] ?? 1) - 1;
  return paragraph(
    words.say('notice.line', {
      title: words.say(`notice.rule.${why.values['rule'] ?? ''}.title`),
      evidence: evidenceSentence(words, animal, why),
    }),
    more > 0 ? words.say('due.more-notices', { count: more }) : undefined,
  );
}

/** Jobs on something fitted, or on a foot nobody has looked at: without the foot nobody can do them. */
const needFoot = new Set<DueWhat>(['block-look', 'block-off', 'wrap-off', 'foul-look', 'look-other-foot']);

/**
 * A due item as a job that several animals may share: what it is called whichever needs it, and what is hers alone. Its
 * reason is on the animal's page.
 *
 * Checked: tests/book/page-one.test.ts, tests/laws/standing-laws.test.ts
 */
export function jobInShort(words: Words, animal: Animal, item: DueItem): JobInShort {
  const { what, foot, claw, nearCalving, beforeNextVisit } = item;
  const area = 'jobs.what-in-short';
  return {
    job: ownWords(words, area, item) ?? words.say(`${area}.${whatMeasured(animal, item)}`),
    marks: [
      ...(foot && needFoot.has(what) ? [placeInWords(words, foot, claw)] : []),
      ...(nearCalving ? [words.say('jobs.mark.near-calving')] : []),
      ...(beforeNextVisit ? [words.say('jobs.mark.before-visit')] : []),
    ],
  };
}

export interface JobInShort {
  readonly job: string;
  readonly marks: readonly string[];
}

/** What is first on everything of a farm where work stands still. */
export interface StopInWords {
  readonly title: string;
  readonly text: string;
}

/**
 * Why work has stopped, what stays where it is, whether the vet was asked and what is suspended.
 *
 * Checked: tests/schedule/stop-work.test.ts
 */
export function stopInWords(words: Words, cases: readonly Pick<CaseWork, 'stop'>[]): StopInWords | undefined {
  const stop = cases.find((one) => one.stop)?.stop;
  if (!stop) return undefined;
  return {
    title: words.say('stop.title'),
    text: paragraph(
      words.say(`stop.why.${stop.rule}`, {
        animals: words.commas(stop.animals),
        day: dayInWords(words, stop.since),
      }),
      words.say('stop.stay'),
      askedInWords(words, stop),
      words.say('stop.suspended', { count: stop.suspended }),
    ),
  };
}

function askedInWords(words: Words, { asked, answered }: StopWork): string {
  if (answered)
    return words.say('stop.answered', {
      day: dayInWords(words, answered.on),
      by: told(answered.by),
      reply: told(answered.reply),
    });
  return asked === undefined
    ? words.say('stop.not-asked')
    : words.say('stop.asked', { day: dayInWords(words, asked) });
}
