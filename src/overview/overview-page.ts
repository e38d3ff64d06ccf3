import type { FarmSection } from '../book/book-page.js';
import type { Fact } from '../book/page-parts.js';
import type { Language, Paper } from '../record/words.js';

/** The overview as finished page data: every string worded, every number formatted. */
export interface OverviewPage {
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
  /** Farms left out, and why. */
  readonly rest: readonly string[];
  readonly sections: readonly FarmSection[];
}
