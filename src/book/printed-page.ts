import type { Language, Paper } from '../record/words.js';
import type { Fact } from './page-parts.js';

/** What every page of finished data has, whatever stands on it. */
export interface PageBasis {
  readonly language: Language;
  readonly paper: Paper;
  /** The document's title. */
  readonly title: string;
  /** Said to who jumps over the head by keyboard. */
  readonly skip: string;
}

/** A page whose margins name it on each printed sheet. */
export interface PrintedPage extends PageBasis {
  /** What it is and of which day, in the margin of every printed sheet. */
  readonly running: string;
  /** Before the page number, where a browser prints one. */
  readonly pageWord: string;
}

/** A printed page that begins with what it is, who made it, and what it rests on. */
export interface CoveredPage extends PrintedPage {
  readonly kicker: string;
  readonly heading: string;
  readonly by: string;
  readonly facts: readonly Fact[];
}
