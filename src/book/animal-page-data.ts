import type { Cell, DataTable, Fact } from './page-parts.js';
import type { Words } from '../reference/words.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { FarmRecord, Practice } from '../record/practice.js';
import type { CaseWork } from '../schedule/case-work.js';

/** One of the two boxes that call for action. */
export interface ActionBox {
  readonly heading: string;
  /** `lead` is the day, or what the rest is about: set apart, so that the eye can run down it. */
  readonly items: readonly { readonly lead?: string; readonly text: string }[];
}

/** Summary for discussion, with what the case has cost. */
export interface MoneyCard {
  readonly id: string;
  readonly heading: string;
  readonly lead: string;
  readonly facts: readonly Fact[];
  readonly table: DataTable;
  readonly notes: readonly string[];
}

/** A fact where there is something to say; absent is unknown and leaves no line. */
export function fact(words: Words, labelKey: string, value: string | undefined): Fact[] {
  return value ? [{ label: words.say(labelKey), value }] : [];
}

/** A case's place in the book: worst first, closed after open, numbered through, since print has no page references. */
export interface PlacedCase extends CaseWork {
  readonly id: string;
  readonly place: number;
  readonly of: number;
}

/** An animal's number, linked, with her case's number beside it: paper has no links. */
export function animalCell(words: Words, one: PlacedCase): Cell {
  return {
    text: one.record.animal.animal,
    href: `#${one.id}`,
    after: words.say('jobs.case', { place: one.place }),
  };
}

/** Whose book it is, in which words, and as on which day. */
export interface OfBook {
  readonly words: Words;
  readonly practice: Practice;
  readonly farm: FarmRecord;
  readonly today: CalendarDay;
}
