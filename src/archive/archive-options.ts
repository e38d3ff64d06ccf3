import type { Period } from '../record/period.js';
import type { CommonOptions } from '../run/common-options.js';

/** What was asked of `growdown archive`. */
export type ArchiveOptions = CommonOptions & {
  readonly out: string;
  readonly period?: Period;
  readonly zip?: true;
  readonly keepLocation?: true;
  readonly clips?: true;
  readonly contacts: boolean;
  readonly pdf: boolean;
};
