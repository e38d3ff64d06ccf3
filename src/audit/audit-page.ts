import type { Fact, TableSection, TextList } from '../book/page-parts.js';
import type { Language, Paper } from '../record/words.js';

/** A farm's pack as page data: every string worded, every number formatted. */
export interface AuditPage {
  readonly language: Language;
  readonly paper: Paper;
  readonly title: string;
  /** At the foot of each printed sheet. */
  readonly running: string;
  readonly pageWord: string;
  readonly skip: string;
  readonly kicker: string;
  readonly farm: string;
  readonly by: string;
  readonly facts: readonly Fact[];
  readonly about: readonly string[];
  readonly contents: {
    readonly heading: string;
    readonly lines: readonly { readonly href: string; readonly text: string }[];
  };
  readonly sections: readonly TableSection[];
  readonly rules: TextList;
}
