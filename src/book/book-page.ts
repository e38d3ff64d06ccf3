import type { AnimalPage, CaseAlone } from './animal-page-data.js';
import type { Contents, Cover, HerdStrips, JobList } from './first-pages-data.js';
import type { BookFigure, FactList, TableSection, TextList } from './page-parts.js';
import type { PrintedPage } from './layout-css.js';

/** A farm's book as finished page data: every string worded, every number formatted, nothing left to work out. */
export interface BookPage extends PrintedPage {
  readonly slug: string;
  readonly back: string;
  readonly cover: Cover;
  /** Who needs what, by when, by whom; who is the vet's; who is withheld. */
  readonly next: JobList;
  readonly vetList: TableSection;
  readonly withheld: TableSection;
  readonly herd: HerdStrips;
  readonly contents: Contents;
  /** Worst first, each on a new page in print. */
  readonly animals: readonly AnimalPage[];
  readonly closed: readonly AnimalPage[];
  readonly closedHeading: string;
  readonly farm: FarmPage;
  /** Where a footbath is recorded. */
  readonly footbath?: FootbathPage;
  readonly last: LastPage;
  /** With it the file holds this one animal's page and nothing else of the book. */
  readonly alone?: CaseAlone;
}

export interface FarmPage {
  readonly id: string;
  readonly heading: string;
  readonly facts: readonly FactList[];
  readonly tables: readonly FarmSection[];
  readonly narrative?: { readonly heading: string; readonly html: string };
}

/** A section with drawings, each with the table of its numbers; its own table holds what is in no drawing. */
export interface FarmSection extends TableSection {
  readonly figures?: readonly BookFigure[];
}

export interface FootbathPage {
  readonly id: string;
  readonly heading: string;
  readonly lead: string;
  readonly sections: readonly FarmSection[];
}

export interface LastPage {
  readonly id: string;
  readonly heading: string;
  readonly sections: readonly TextList[];
  readonly missing?: TableSection;
  /** Where anything was corrected or taken out. */
  readonly corrections?: TableSection;
  readonly glossary?: FactList;
  /** Folded on screen: every number the sums use. */
  readonly numbers: TableSection;
  readonly numbersFold: string;
  readonly sources?: TextList;
  readonly business: FactList;
  readonly narrative?: { readonly heading: string; readonly html: string };
  readonly sign: { readonly heading: string; readonly lead: string; readonly lines: readonly string[] };
}
