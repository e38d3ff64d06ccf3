import type { Animal } from '../record/animal.js';
import { familyOf } from '../reference/lesions.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { runsToItsDay } from '../schedule/due/farm-task-due.js';
import type { DueItem } from '../schedule/due-item.js';
import { evidenceSentence } from './compose-notice.js';
import { dayInWords } from './day-in-words.js';
import { placeInWords } from './lesion-in-words.js';
import { paragraph, sentenceCase } from './number-in-words.js';
import { nameOf } from './compose-standing.js';
import { valuesInWords } from './values-in-words.js';
import type { Words } from './words.js';

/** A due item in words: what to do, and why, with its marks. */
export interface DueInWords {
  readonly what: string;
  readonly why: string;
}

/**
 * What is to be done and why. The day, who, and whether it is overdue stand beside it where it is printed.
 *
 * Checked: tests/words/situations.test.ts
 */
export function dueInWords(words: Words, animal: Animal, item: DueItem): DueInWords {
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
 * When an item is due: the only words for it. What nobody can be late with stands since a day; a task of the farm's
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
  return words.say(
    `due.when.${standing === 'overdue' ? 'overdue' : runs ? 'until' : waits ? 'since' : 'due'}`,
    { day },
  );
}

function whatInWords(words: Words, animal: Animal, item: DueItem): string {
  const { what, task, lesion, foot, claw, why } = item;
  const asked = words.say(`vocabulary.task.${task ?? 'ring if worse'}`);
  if (what === 'farm-task' || what === 'vet-work') return sentenceCase(asked);
  if (what === 'farm-task-done') return words.say(`due.what.${what}`, { task: asked });
  if (what === 'vet-ask') return words.say(`due.what.vet-ask.${why.values['urgency'] ?? 'notice'}`);
  const place = lesion ? nameOf(words, animal, lesion) : foot && placeInWords(words, foot, claw);
  const declared = lesion === undefined ? undefined : animal.lesions[lesion];
  const key =
    what === 'recheck' && place
      ? 'recheck-at'
      : what === 'measure-again' && declared && familyOf(declared.code) !== 'wall'
        ? 'measure-again-width'
        : what;
  return words.say(`due.what.${key}`, {
    ...valuesInWords(words, animal, why.values),
    ...(place ? { place } : {}),
  });
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
