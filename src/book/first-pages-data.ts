import type { StopInWords } from '../words/compose-due.js';
import type { Cell, Fact } from './page-parts.js';

/** Who does what, to which animals, by when. */
export interface JobList {
  readonly id: string;
  readonly heading: string;
  /** Before all else: work on the farm stands still. */
  readonly stop?: StopInWords;
  readonly lead: string;
  /** Who is close to calving, and what that asks of a lift. */
  readonly calving?: string;
  readonly table?: {
    readonly id: string;
    readonly caption: string;
    readonly heads: Readonly<Record<'who' | 'by' | 'what' | 'animals', string>>;
    readonly groups: readonly JobGroup[];
  };
}

/** What is overdue, or one person's jobs. */
export interface JobGroup {
  readonly heading: string;
  readonly late: boolean;
  readonly rows: readonly JobRow[];
}

export interface JobRow {
  readonly by: string;
  readonly note?: string;
  readonly what: string;
  /** `marks`: what is hers alone, as the foot or a calving near; empty where nothing is. */
  readonly animals: readonly (Cell & { readonly marks: string })[];
}

export interface Cover {
  readonly kicker: string;
  readonly farm: string;
  readonly by: string;
  readonly facts: readonly Fact[];
}

export interface HerdStrips {
  readonly heading: string;
  readonly lead: string;
  readonly strips: readonly {
    readonly href: string;
    readonly number: string;
    readonly place: string;
    readonly standing: string;
    readonly svg: string;
  }[];
  readonly othersLead?: string;
  /** Open cases without a measured wall gap. */
  readonly others: readonly (Cell & { readonly standing: string })[];
}

export interface ContentsLine {
  readonly href: string;
  readonly place: string;
  readonly number: string;
  readonly lesions: string;
  readonly sentence: string;
}

export interface Contents {
  readonly heading: string;
  /** Of a short book: how many closed cases are not in it. */
  readonly leftOut?: string;
  /** Where no case is open, or none is there at all. */
  readonly empty?: string;
  readonly openHeading?: string;
  readonly open: readonly ContentsLine[];
  readonly closedHeading?: string;
  readonly closed: readonly ContentsLine[];
  readonly others: readonly { readonly href: string; readonly text: string }[];
}
