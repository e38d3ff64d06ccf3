import type { CalendarDay } from '../record/calendar-day.js';
import type { Farm } from '../record/farm.js';
import { type DueItem, isJob } from '../schedule/due/due-item.js';
import { isUrgent } from '../schedule/due-items.js';
import { runsToItsDay } from '../schedule/due/farm-task-due.js';
import { calvingInShort } from '../words/compose-withheld.js';
import { jobInShort, type JobInShort, stopInWords } from '../words/compose-due.js';
import { sentenceCase, planDay } from '../words/day-and-place.js';
import type { Words } from '../reference/words.js';
import { animalCell, type PlacedCase } from './animal-page-data.js';
import type { JobGroup, JobList, JobRow } from './first-pages-data.js';
import { isOpen } from '../schedule/next-lift.js';
import { given } from '../record/given.js';

const whoFirst = ['farm', 'trimmer', 'vet'] as const;
const groups = ['now', 'overdue', ...whoFirst] as const;

interface Job extends JobInShort {
  readonly one: PlacedCase;
  readonly item: DueItem;
  readonly group: (typeof groups)[number];
}

type Jobs = readonly [Job, ...Job[]];

/**
 * Who does what, to which animals, by when: what cannot wait, what is overdue, then each person's jobs by day. One row is
 * one job of one person on one day, with every animal that needs it; what is overdue is one row whatever its days.
 */
export function composeJobs(
  words: Words,
  farm: Farm,
  cases: readonly PlacedCase[],
  today: CalendarDay,
): JobList {
  const jobs = jobsOf(words, cases);
  const heading = words.say('jobs.heading');
  const stop = stopInWords(words, cases);
  const first = { id: 'next', heading, ...(stop ? { stop } : {}), ...calvingLine(words, cases) };
  if (jobs.length === 0) return { ...first, lead: words.say('jobs.none') };
  const by = (who: DueItem['who']) => jobs.filter(({ item }) => item.who === who).length;
  return {
    ...first,
    lead: words.say('jobs.lead', {
      count: jobs.length,
      overdue: jobs.filter(({ item }) => item.standing === 'overdue').length,
      farm: by('farm'),
      trimmer: by('trimmer'),
      vet: by('vet'),
    }),
    table: {
      id: 'next-table',
      caption: words.say('jobs.caption'),
      heads: {
        who: words.say('jobs.who'),
        by: words.say('jobs.by'),
        what: words.say('jobs.what'),
        animals: words.say('jobs.animals'),
      },
      groups: groups.flatMap((group) => groupOf(words, farm, group, jobs, today)),
    },
  };
}

function calvingLine(words: Words, cases: readonly PlacedCase[]): Pick<JobList, 'calving'> {
  const animals = cases.flatMap(({ calvingNear, record }) =>
    calvingNear
      ? words.say('calving.animal', {
          animal: record.animal.animal,
          near: calvingInShort(words, calvingNear),
        })
      : [],
  );
  return animals.length === 0
    ? {}
    : { calving: words.say('calving.farm', { animals: words.semicolons(animals) }) };
}

function jobsOf(words: Words, cases: readonly PlacedCase[]): Job[] {
  return cases
    .flatMap((one) =>
      one.due
        .filter((item) => isOpen(item) && isJob(item))
        .map((item) => ({
          one,
          item,
          group: groupFor(item),
          ...jobInShort(words, one.record.animal, item),
        })),
    )
    .sort(
      (a, b) =>
        whoFirst.indexOf(a.item.who) - whoFirst.indexOf(b.item.who) ||
        (a.item.by < b.item.by ? -1 : a.item.by > b.item.by ? 1 : a.one.place - b.one.place),
    );
}

/** Asking the vet the same day, and again the next, stands before all else, overdue or not. */
function groupFor(item: DueItem): Job['group'] {
  if (isUrgent(item)) return 'now';
  return item.standing === 'overdue' ? 'overdue' : item.who;
}

function groupOf(
  words: Words,
  farm: Farm,
  group: Job['group'],
  all: readonly Job[],
  today: CalendarDay,
): JobGroup[] {
  const late = group === 'now' || group === 'overdue';
  const rows = new Map<string, Jobs>();
  for (const job of all.filter((each) => each.group === group)) {
    const key = late ? `${job.item.who} ${job.job}` : `${job.item.by} ${job.job}`;
    rows.set(key, [...(rows.get(key) ?? []), job] as [Job, ...Job[]]);
  }
  if (rows.size === 0) return [];
  return [
    {
      heading: words.say(`jobs.group.${group}`),
      late,
      rows: [...rows.values()].map((jobs) => rowOf(words, farm, jobs, late, today)),
    },
  ];
}

function rowOf(words: Words, farm: Farm, jobs: Jobs, late: boolean, today: CalendarDay): JobRow {
  const [{ item, job }] = jobs;
  const note = late ? undefined : dayNote(words, farm, item, today);
  const animals = [...new Set(jobs.map(({ one }) => one))];
  return {
    by: planDay(words, item.by, today),
    ...given({ note }),
    what: late
      ? words.say('jobs.who-does', { who: sentenceCase(words.say(`book.who.${item.who}`)), job })
      : sentenceCase(job),
    animals: animals.map((one) => {
      const hers = jobs.filter((each) => each.one === one);
      const later = hers.map((each) => each.item.by).filter((by) => by !== item.by);
      const marks = [
        ...later.map((day) => words.say('jobs.note.from', { day: planDay(words, day, today) })),
        ...hers.flatMap((each) => each.marks),
      ];
      return { ...animalCell(words, one), marks: words.semicolons([...new Set(marks)]) };
    }),
  };
}

/** What there is to know of the day itself: passed without being late, or the farm's planned visit. */
function dayNote(words: Words, farm: Farm, item: DueItem, today: CalendarDay): string | undefined {
  const { who, by, what, task, overdueFrom } = item;
  if (by < today) return words.say(`jobs.note.${overdueFrom === undefined ? 'since' : 'due'}`);
  if (what === 'farm-task' && runsToItsDay(task)) return words.say('jobs.note.until');
  return who === 'trimmer' && by === farm['next-visit'] ? words.say('jobs.note.visit') : undefined;
}
