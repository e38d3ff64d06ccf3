import type { Language } from '../record/words.js';

/** What a farm is written, in words: one content, said once as text and once as HTML. */
export interface MailSummary {
  readonly language: Language;
  readonly subject: string;
  readonly heading: string;
  /** Whose letter, and when they come next. */
  readonly lead: readonly string[];
  readonly sections: readonly MailSection[];
  /** Nothing is open, due, withheld or the vet's: a farm that had no mail yet need not have one. */
  readonly quiet: boolean;
  /** How to answer, and what this is. */
  readonly foot: readonly string[];
}

export interface MailSection {
  readonly heading: string;
  readonly lead: readonly string[];
  readonly groups: readonly MailGroup[];
}

export interface MailGroup {
  readonly heading?: string;
  readonly entries: readonly MailEntry[];
}

/** A job or an animal, and what there is to know of it. */
export interface MailEntry {
  readonly title: string;
  readonly lines: readonly string[];
}
