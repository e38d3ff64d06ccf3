import type { CalendarDay } from '../../record/calendar-day.js';
import type { CaseWork } from '../../schedule/case-work.js';
import { type DueItem, type DueWhat, isJob } from '../../schedule/due-item.js';
import { plannedVisit } from '../../schedule/next-lift.js';
import { isOpen } from '../../schedule/open-due.js';
import { dueInWords } from '../../words/compose-due.js';
import { jobInShort } from '../../words/compose-job.js';
import type { Words } from '../../words/words.js';
import type { FarmWork } from '../farm-work.js';
import { waitsForVisit } from '../waits-for-visit.js';
import type { EntryDraft } from './entry-draft.js';
import { placeOfFarm } from './place-of-farm.js';

type Items = readonly [DueItem, ...DueItem[]];

/** Told apart by where on her they are; of any other job she has one, wherever its reason lies. */
const byPlace: ReadonlySet<DueWhat> = new Set(['block-look', 'block-off', 'wrap-off']);

/** One entry for each job of an animal: the farm's, and the trimmer's that the planned visit is not for. */
export function jobEntries(words: Words, { record, cases }: FarmWork, today: CalendarDay): EntryDraft[] {
  const visit = plannedVisit(record.farm, today);
  const place = placeOfFarm(record.farm);
  return cases.flatMap((one) => {
    const jobs = new Map<string, Items>();
    for (const item of one.due.filter((each) => isEntry(each, visit, today))) {
      const key = `${one.record.slug}/${jobKey(item)}`;
      jobs.set(key, [...(jobs.get(key) ?? []), item] as [DueItem, ...DueItem[]]);
    }
    return [...jobs].map(([key, items]) => draftOf(words, one, key, items, place));
  });
}

/** An answer is awaited, not due: of the vet's only what he comes to do is; and what waits for the planned visit stands in its entry. */
function isEntry(item: DueItem, visit: CalendarDay | undefined, today: CalendarDay): boolean {
  const { what, who } = item;
  if (!isOpen(item) || (who === 'vet' && what !== 'vet-work')) return false;
  if (!isJob(item) || what === 'withdrawal-not-recorded') return false;
  return !waitsForVisit(item, visit, today);
}

function jobKey({ what, foot, claw, lesion, task, why }: DueItem): string {
  // Foul is looked at twice, and neither look stands for the other.
  const look = what === 'foul-look' ? [lesion, why.key.endsWith('again') ? '2' : '1'] : [];
  const place = byPlace.has(what) ? [foot, claw] : what === 'measure-again' ? [lesion] : look;
  return [what, task?.replaceAll(' ', '-'), ...place].filter((part) => part !== undefined).join('/');
}

/** Of the same job asked for twice, the first day. Near calving, or before the visit, is said under it. */
function draftOf(words: Words, one: CaseWork, key: string, items: Items, place: string): EntryDraft {
  const { animal } = one.record;
  const [first] = items;
  const { job, marks } = jobInShort(words, animal, { ...first, nearCalving: false, beforeNextVisit: false });
  const jobs = [job, ...marks].join(', ');
  return {
    key,
    due: first.by,
    summary: words.say('round.calendar.line', { animal: animal.animal, jobs }),
    description: [
      ...new Set(items.map((item) => reasonOf(words, one, item))),
      words.say('round.calendar.who', { who: words.say(`book.who.${first.who}`) }),
    ].join('\n'),
    place,
  };
}

/** The evidence of a notice may count days up to today: an entry must not change because a day has passed. */
function reasonOf(words: Words, { record }: CaseWork, item: DueItem): string {
  if (item.what === 'vet-ask') return words.say(`notice.rule.${item.why.values['rule'] ?? ''}.title`);
  return dueInWords(words, record.animal, item).why;
}
