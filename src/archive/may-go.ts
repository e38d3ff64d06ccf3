import { episodesOf } from '../healing/episode.js';
import { type CalendarDay, calendarDay } from '../record/calendar-day.js';
import type { CaseRecord } from '../record/practice.js';
import type { CommonOptions, ExitCode } from '../run/exit-code.js';
import type { Effects } from '../run/effects.js';
import { farmRun } from '../run/farm-run.js';
import { terminal } from '../problem/message.js';
import type { Business } from '../record/business.js';
import { archiveText } from '../reference/study-results.js';
import type { Animal } from '../record/animal.js';

interface MayGo {
  readonly case: string;
  readonly animal: string;
  readonly lastEntry: CalendarDay;
  readonly since: CalendarDay;
  readonly open: boolean;
}

/**
 * Lists the cases kept longer than the business keeps them. Nothing is deleted, by this or any other command: whether a
 * file goes is for whoever answers for it, by the law of the place.
 */
export function mayGo(options: CommonOptions, effects: Effects): ExitCode {
  const run = farmRun(options, effects);
  const { practice, farms, today, problems } = run;
  run.tell();
  const years = keepYears(practice.business);
  const cases = farms.flatMap(({ slug, cases: own }) =>
    own.map((one) => ({ name: `${slug}/${one.slug}`, one })),
  );
  const list = cases.flatMap(({ name, one }) => mayGoOf(name, one, years, today));
  for (const { open, ...one } of list)
    run.say(terminal(open ? 'archive.may-go-never-ended' : 'archive.may-go', { ...one }));
  run.say(terminal('archive.kept-too-long', { found: list.length, cases: cases.length, years }));
  return run.end({ keepYears: years, cases: list, problems });
}

function mayGoOf(name: string, record: CaseRecord, years: number, today: CalendarDay): MayGo[] {
  const last = lastEntry(record.animal, today);
  const since = last === undefined ? undefined : yearsAfter(last, years);
  if (last === undefined || since === undefined || since > today) return [];
  const { animal } = record;
  const open = episodesOf(animal, today).some(({ ended }) => ended === undefined);
  return [{ case: name, animal: animal.animal, lastEntry: last, since, open }];
}

/** The day after so many whole years; of 29 February the first of March. */
function yearsAfter(day: CalendarDay, years: number): CalendarDay {
  const year = String(Number(day.slice(0, 4)) + years).padStart(4, '0');
  const isLeap = new Date(`${year}-02-29T00:00:00Z`).getUTCMonth() === 1;
  return day.endsWith('02-29') && !isLeap ? `${year}-03-01` : `${year}${day.slice(4)}`;
}

/** How many years a case is kept after its last entry. */
function keepYears(business: Business): number {
  return business['keep-years'] ?? archiveText['keep-years'].value;
}

/** The latest day, up to today, of anything written in an animal's file; undefined where none is. A day planned for that has passed counts too: rather kept too long than gone too soon. */
function lastEntry(animal: Animal, today: CalendarDay): CalendarDay | undefined {
  return daysIn(animal)
    .filter((day) => day <= today)
    .toSorted()
    .at(-1);
}

function daysIn(value: unknown): CalendarDay[] {
  if (typeof value === 'string') return calendarDay.safeParse(value).success ? [value] : [];
  if (typeof value !== 'object' || value === null) return [];
  return Object.values(value).flatMap(daysIn);
}
