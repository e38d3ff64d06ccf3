import type { Wanted } from '../casefile/wanted.js';

/** One answer of a form: what it is called there, and what it may be. */
export interface AnswerField {
  readonly kind: 'answer';
  /** The way to its key in a visit, joined with dots: `found.a.top`, `blocks.0.foot`. */
  readonly name: string;
  readonly key: string;
  readonly wanted: Wanted;
  /** The words or names to choose from; empty where the answer is typed. */
  readonly choices: readonly string[];
  /** How long from the visit, beside a day that may be typed too: `4 weeks`. */
  readonly spans: readonly string[];
  readonly required: boolean;
}

/** Keys that belong together under one: a foot, what was found of a lesion, one block. */
export interface GroupField {
  readonly kind: 'group';
  readonly name: string;
  readonly key: string;
  readonly fields: readonly Field[];
  readonly required: boolean;
}

/** A list of groups, with as many as there is room for in the form. */
export interface EntriesField {
  readonly kind: 'entries';
  readonly name: string;
  readonly key: string;
  readonly entries: readonly GroupField[];
  readonly required: boolean;
}

export type Field = AnswerField | GroupField | EntriesField;

/** What a browser sends: every value under its name, in the order of the form. */
export type FormValues = ReadonlyMap<string, readonly string[]>;
