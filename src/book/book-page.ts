import type { ActionBox } from './animal-page-data.js';
import type { CowSheet } from './cow-sheet.js';
import type { FarmBack } from './farm-back.js';
import type { PrintedPage } from './layout-css.js';
import type { FittedPageOne } from './page-one.js';
import type { TextList } from './page-parts.js';

/** A farm's book as finished page data: every string worded, every number formatted, nothing left to work out. */
export interface BookPage extends PrintedPage {
  readonly slug: string;
  readonly back: string;
  readonly one: FittedPageOne;
  readonly farm: FarmBack;
  /** Worst first, closed cases last, each on a sheet of its own in print. */
  readonly cows: readonly CowSheet[];
  /** With it the file holds this one animal's sheet and nothing else of the book. */
  readonly alone?: CaseAlone;
}

/** One animal's sheet in a file of its own: whose it is, the sheet, and how to read it. */
export interface CaseAlone {
  readonly skip: string;
  readonly kicker: string;
  readonly farm: string;
  readonly by: string;
  readonly cow: CowSheet;
  /** When to ring the vet, and what to do when a block comes off early. */
  readonly boxes: readonly ActionBox[];
  readonly about: TextList;
}
