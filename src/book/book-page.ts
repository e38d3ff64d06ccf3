import type { Language, Paper } from '../record/words.js';

/** A farm's book as finished page data: every string worded, every number formatted, nothing left to work out. */
export interface BookPage {
  readonly slug: string;
  readonly language: Language;
  readonly paper: Paper;
  readonly title: string;
}
