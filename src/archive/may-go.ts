import { episodesOf } from '../healing/episode.js';
import { type CalendarDay, calendarDay } from '../record/calendar-day.js';
import type { CaseRecord } from '../record/practice.js';
import type { CommonOptions, ExitCode } from '../run/exit-code.js';
import type { Effects } from '../run/effects.js';
import { exitFor, listErrors, readCases } from '../run/read-cases.js';
import type { Business } from '../record/business.js';
import { archiveText } from '../reference/study-results.js';
import type { Animal } from '../record/animal.js';
import { terminal } from '../problem/message.js';

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
  const reading = readCases(options, effects);
  const { practice, farms, today, problems } = reading;
  listErrors(reading, effects);
  const years = keepYears(practice.business);
  const list = farms.flatMap(({ slug, cases }) =>
    cases.flatMap((one) => mayGoOf(`${slug}/${one.slug}`, one, years, today)),
  );
  if (options.json === true)
    effects.print(`${JSON.stringify({ keepYears: years, cases: list, problems }, null, 2)}\n`);
  else {
    for (const one of list)
      effects.print(
        `${terminal(`archive.may-go.case${one.open ? '-open' : ''}`, { case: one.case, animal: one.animal, last: one.lastEntry, since: one.since })}\n`,
      );
    const cases = farms.reduce((sum, farm) => sum + farm.cases.length, 0);
    effects.print(`${terminal('archive.may-go.all', { count: list.length, all: cases, years })}\n`);
  }
  return exitFor(problems);
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
