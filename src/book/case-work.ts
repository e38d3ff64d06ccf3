import type { AnimalGrowth } from '../growth/animal-growth.js';
import type { CaseStanding } from '../healing/standing.js';
import type { CaseRecord } from '../record/practice.js';
import type { DueItem } from '../schedule/due-item.js';
import type { Gap } from '../schedule/gap.js';
import type { Notice } from '../schedule/notice.js';

/** One case with all that was worked out on it for a day. */
export interface CaseWork {
  readonly record: CaseRecord;
  readonly growth: AnimalGrowth;
  readonly standing: CaseStanding;
  readonly due: readonly DueItem[];
  readonly notices: readonly Notice[];
  readonly gaps: readonly Gap[];
}

/** A case's place in the book: worst first, closed after open, numbered through, since print has no page references. */
export interface PlacedCase extends CaseWork {
  readonly id: string;
  readonly place: number;
  readonly of: number;
}
