import type { CaseWork } from '../schedule/case-work.js';

/** A case's place in the book: worst first, closed after open, numbered through, since print has no page references. */
export interface PlacedCase extends CaseWork {
  readonly id: string;
  readonly place: number;
  readonly of: number;
}
