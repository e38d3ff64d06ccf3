import type { DataTable, TableSection } from '../../book/page-parts.js';
import type { CoveredPage } from '../../book/printed-page.js';

/** The round as finished page data: every string worded, nothing left to work out. */
export interface RoundPage extends CoveredPage {
  /** Where work has stopped: before all else. */
  readonly stops: readonly string[];
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
  /** What is cleaned and disinfected before the next farm, each with a box to tick. */
  readonly leaving: { readonly label: string; readonly ticks: readonly string[] };
}
