import type { PictureWanted } from '../picture/fit-pictures.js';
import type { Cell, DataTable, Fact } from './page-parts.js';
import type { Words } from '../reference/words.js';
import type { CaseWork } from '../schedule/case-work.js';

/** One of the two boxes that call for action. */
export interface ActionBox {
  readonly heading: string;
  /** `lead` is the day, or what the rest is about: set apart, so that the eye can run down it. */
  readonly items: readonly { readonly lead?: string; readonly text: string }[];
}

/** Half of what a visit recorded. */
export interface VisitEntries {
  /** A few words each: they run on in one line. */
  readonly brief: readonly Fact[];
  /** Each on lines of its own. */
  readonly whole: readonly Fact[];
}

/** One visit with all that was recorded at it. */
export interface VisitRow {
  readonly day: string;
  readonly about: string;
  /** Absent where nothing was recorded of that half. */
  readonly found?: VisitEntries;
  readonly done?: VisitEntries;
}

export interface VisitLog {
  readonly id: string;
  readonly heading: string;
  readonly caption: string;
  readonly heads: { readonly found: string; readonly done: string };
  readonly nothing: string;
  readonly visits: readonly VisitRow[];
}

/** One picture at its place, or what is said where it cannot stand. */
export interface PictureShown {
  /** Which picture belongs here; nothing of it is printed. */
  readonly of: PictureWanted;
  readonly image?: {
    readonly source: string;
    readonly width: number;
    readonly height: number;
    readonly alt: string;
  };
  readonly instead?: string;
  /** Before or after the trim, where several of one day stand together. */
  readonly moment?: string;
  /** As it was written. */
  readonly caption?: string;
  readonly file: string;
}

/** All pictures of one view on one day. */
export interface PictureDay {
  readonly day: string;
  /** First, previous, latest. */
  readonly place?: string;
  /** Days after the picture before it and after the first. */
  readonly since?: string;
  /** That day's findings at this place. */
  readonly measured: readonly string[];
  readonly shots: readonly PictureShown[];
}

export interface PicturesOfView {
  readonly heading: string;
  readonly columns: 1 | 2 | 3;
  readonly large: readonly PictureDay[];
  readonly more?: { readonly summary: string; readonly days: readonly PictureDay[] };
}

export interface PictureSection {
  readonly id: string;
  readonly heading: string;
  readonly lead: string;
  readonly strips: readonly PicturesOfView[];
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
  return value === undefined || value === '' ? [] : [{ label: words.say(labelKey), value }];
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
