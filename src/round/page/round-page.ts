import type { DataTable, Fact, TableSection } from '../../book/page-parts.js';
import type { Language, Paper } from '../../record/words.js';

/** The round as finished page data: every string worded, nothing left to work out. */
export interface RoundPage {
  readonly language: Language;
  readonly paper: Paper;
  readonly title: string;
  readonly running: string;
  readonly pageWord: string;
  readonly skip: string;
  readonly kicker: string;
  readonly heading: string;
  readonly by: string;
  readonly facts: readonly Fact[];
  /** One line a farm. */
  readonly short: TableSection;
  /** What no planned visit is for. */
  readonly apart?: TableSection;
  readonly trips: readonly RoundTrip[];
  readonly rest: readonly string[];
  readonly notes: { readonly heading: string; readonly items: readonly string[] };
}

/** The farms of one day, or those with no visit planned. */
export interface RoundTrip {
  readonly id: string;
  readonly heading: string;
  readonly lead: readonly string[];
  readonly farms: readonly FarmBlock[];
}

export interface FarmBlock {
  readonly id: string;
  readonly name: string;
  /** Who to ring and where it is. */
  readonly contact: readonly string[];
  readonly lead: readonly string[];
  readonly tables: readonly DataTable[];
}
