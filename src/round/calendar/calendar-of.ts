import { type CalendarDay, addDays } from '../../record/calendar-day.js';
import { type FarmWork, wordsOfFarm, standsOnVisit, waitsForVisit } from '../round-of.js';
import { type CalendarMemory, emptyMemory, type CalendarEntry } from './calendar-memory.js';
import { writeCalendar } from './write-calendar.js';
import { dueInWords, jobInShort, stopInWords } from '../../words/compose-due.js';
import { untold, type Words } from '../../reference/words.js';
import { roundNumbers } from '../../reference/numbers.js';
import { plannedVisit, isOpen } from '../../schedule/next-lift.js';
import type { CaseWork } from '../../schedule/case-work.js';
import { type DueItem, type DueWhat, isJob } from '../../schedule/due/due-item.js';
import type { Farm } from '../../record/farm.js';
type Items = readonly [DueItem, ...DueItem[]];

/** Distinguished by where on her they are; of any other job she has one, wherever its reason lies. */
const byPlace: ReadonlySet<DueWhat> = new Set(['block-look', 'block-off', 'wrap-off']);

/** One entry for each job of an animal: the farm's, and the trimmer's that the planned visit is not for. */
function jobEntries(words: Words, { record, cases }: FarmWork, today: CalendarDay): EntryDraft[] {
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

/** An answer is awaited, not due: of the vet's only what he comes to do is; and what waits for the planned visit is in its entry. */
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
  const jobs = words.commas([job, ...marks]);
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

export interface FarmCalendar {
  /** The calendar file, whole. */
  readonly ics: string;
  /** What is to be remembered once the file is written. */
  readonly remembered: CalendarMemory;
}

/**
 * A farm's calendar: an entry for the planned visit, and one for each job of the farm, or of the trimmer before it.
 *
 * An entry is known by what it is about, never by its day, so one that moves is moved and not doubled. What changed
 * since the last writing has its number raised; what is no longer due, and whose day has not come, is cancelled; what
 * has had its day is left as it stood. Both go out of the file after a while. Nothing in it hangs on the clock: the
 * same files, the same memory and the same day give the same bytes, and so does a later day on which nothing changed.
 *
 * Shape:   one farm worked out, and what was last written (none: never) → the file's text and what to remember
 * Unit:    whole days, the end of each entry exclusive; lines end in CR LF and are folded at 75 octets
 * Source:  RFC 5545; how long a cancelled entry is kept: shared/round.json
 * Checked: tests/round/calendar.test.ts
 */
export function calendarOf(
  work: FarmWork,
  remembered: CalendarMemory | undefined,
  today: CalendarDay,
): FarmCalendar {
  const words = wordsOfFarm(work);
  const { business, trimmer } = work.business;
  const before = remembered ?? emptyMemory(business ?? trimmer ?? '');
  const visit = visitEntry(words, work, before, today);
  const drafts = [
    ...(visit ? [visit.draft] : []),
    ...jobEntries(words, work, today),
    ...withheldEntries(words, work),
  ].map((draft) => ({ ...draft, description: untold(draft.description) }));
  const entries = carryOn(before, drafts, lastRecorded(work, today), today);
  const after = { ...before, ...visit?.counted, ...entries };
  const { slug, farm } = work.record;
  const name = words.say('round.calendar.name', { farm: farm.farm });
  return { ics: writeCalendar(words, name, [{ farm: slug, memory: after }]), remembered: after };
}

/** The last day something was written down on this farm; the day itself where nothing was. */
function lastRecorded({ cases }: FarmWork, today: CalendarDay): CalendarDay {
  const days = cases.flatMap(({ record }) => record.animal.visits.map(({ date }) => date));
  return (
    days
      .filter((day) => day <= today)
      .sort()
      .at(-1) ?? today
  );
}

/**
 * The first clear day of her milk and of her meat, and an entry to ask where one of them is not known: a clear day that is
 * not known is not reported.
 */
function withheldEntries(words: Words, { record, cases }: FarmWork): EntryDraft[] {
  const place = placeOfFarm(record.farm);
  return cases.flatMap(({ record: { slug, animal }, due }) =>
    due
      .filter(
        ({ what }) => what === 'milk-clear' || what === 'meat-clear' || what === 'withdrawal-not-recorded',
      )
      .map((item) => {
        const { what, why } = dueInWords(words, animal, item);
        return {
          key: `${slug}/${item.what}`,
          due: item.by,
          summary: words.say(`round.calendar.${item.what}`, { animal: animal.animal }),
          description: [what, why, words.say('jobs.withheld.lead')].join('\n'),
          place,
        };
      }),
  );
}

/**
 * What was last written, carried on to what is due now.
 *
 * A job that was late already when it was first put in is on the day it was put in, so that somebody sees it.
 * `stamp` is the last day on record: it is kept where an entry did not change and never goes back.
 */
function carryOn(
  { entries, gone }: Pick<CalendarMemory, 'entries' | 'gone'>,
  drafts: readonly EntryDraft[],
  stamp: CalendarDay,
  today: CalendarDay,
): Pick<CalendarMemory, 'entries' | 'gone'> {
  const after: Record<string, CalendarEntry> = {};
  const left: Record<string, number> = { ...gone };
  for (const draft of drafts) {
    const { key } = draft;
    after[key] = dueNow(draft, entries[key], gone[key], stamp, today);
    delete left[key];
  }
  for (const [key, before] of Object.entries(entries)) {
    if (key in after) continue;
    const entry = notDue(before, stamp, today);
    if (today <= addDays(entry.cancelled ?? entry.day, roundNumbers.calendarKeepDays.value))
      after[key] = entry;
    else left[key] = entry.sequence;
  }
  return { entries: after, gone: left };
}

function dueNow(
  { due, summary, description, place }: EntryDraft,
  before: CalendarEntry | undefined,
  reached: number | undefined,
  stamp: CalendarDay,
  today: CalendarDay,
): CalendarEntry {
  const stands = before !== undefined && before.cancelled === undefined && before.due === due;
  const day = stands ? before.day : due < today ? today : due;
  const same =
    stands && before.summary === summary && before.description === description && before.place === place;
  if (same) return before;
  const sequence = (before?.sequence ?? reached ?? -1) + 1;
  return { sequence, stamp: later(stamp, before), day, due, summary, description, place };
}

/** Whose day has come is left as it stood: what was planned for a day that is over is not taken back. */
function notDue(before: CalendarEntry, stamp: CalendarDay, today: CalendarDay): CalendarEntry {
  if (before.cancelled !== undefined || before.day <= today) return before;
  return { ...before, sequence: before.sequence + 1, stamp: later(stamp, before), cancelled: today };
}

function later(stamp: CalendarDay, before: CalendarEntry | undefined): CalendarDay {
  return before !== undefined && before.stamp > stamp ? before.stamp : stamp;
}

/**
 * The planned visit: which animals are to be there, and what each is lifted for.
 *
 * Visits are numbered. One that is put off before its day keeps its number and is moved; once its day is over, the
 * next planned one is another entry, and the old one stays where it took place.
 */
function visitEntry(
  words: Words,
  work: FarmWork,
  { visits, visit: last }: CalendarMemory,
  today: CalendarDay,
): { readonly draft: EntryDraft; readonly counted: Pick<CalendarMemory, 'visits' | 'visit'> } | undefined {
  const { farm } = work.record;
  const day = plannedVisit(farm, today);
  if (day === undefined) return undefined;
  const { business, trimmer, phone } = work.business;
  const who = words.semicolons([business, trimmer, phone]);
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
      summary: words.semicolons([stop?.title, words.say('round.calendar.visit', { farm: farm.farm })]),
      description: [
        ...(stop ? [stop.text] : []),
        words.say(`round.calendar.present${animals.length === 0 ? '-none' : ''}`, { count: animals.length }),
        ...animals.map(({ one, items }) => {
          const jobs = items.map((item) => jobInShort(words, one.record.animal, item).job);
          return words.say('round.calendar.line', {
            animal: one.record.animal.animal,
            jobs: words.semicolons([...new Set(jobs)]),
          });
        }),
        ...(who === '' ? [] : [words.say('round.calendar.by', { who })]),
      ].join('\n'),
      place: placeOfFarm(farm),
    },
    counted: { visits: number, visit: day },
  };
}

/** Where it is: the farm's address, with its name before it where the address does not begin with it. */
function placeOfFarm({ farm, address }: Farm): string {
  if (address === undefined) return farm;
  return address.startsWith(farm) ? address : `${farm}, ${address}`;
}

/** What should be in a calendar now, before it is checked against what was last written. */
interface EntryDraft {
  /** What it is about; two of the same farm never share it. */
  readonly key: string;
  readonly due: CalendarDay;
  readonly summary: string;
  readonly description: string;
  readonly place: string;
}
