import type { CalendarDay } from '../record/calendar-day.js';
import type { FarmRecord, Practice } from '../record/practice.js';
import type { BookPage } from './book-page.js';

/** What a book holds beyond what the record says. */
export interface BookOptions {
  /** Leave closed cases out. */
  readonly openOnly?: boolean;
}

/** A farm's book as it stands on a day, as page data. */
export function composeBook(
  practice: Practice,
  farm: FarmRecord,
  today: CalendarDay,
  options: BookOptions = {},
): BookPage {
  void practice;
  void today;
  void options;
  return {
    slug: farm.slug,
    language: farm.farm.language ?? practice.business.language ?? 'en-GB',
    paper: farm.farm.paper ?? 'A4',
    title: farm.farm.farm,
  };
}
