import type { AnimalGrowth } from '../growth/animal-growth.js';
import type { UlcerClosing } from '../healing/closing/ulcer-closing.js';
import type { CaseStanding } from '../healing/standing.js';
import type { CaseRecord } from '../record/practice.js';
import type { CalvingNear } from './calving-near.js';
import type { DueItem } from './due-item.js';
import type { Gap } from './gap.js';
import type { Notice } from './notice.js';

/** One case with all that was worked out on it for a day. */
export interface CaseWork {
  readonly record: CaseRecord;
  readonly growth: AnimalGrowth;
  /** Her ulcers, in the order declared. */
  readonly closings: readonly UlcerClosing[];
  readonly standing: CaseStanding;
  readonly due: readonly DueItem[];
  readonly notices: readonly Notice[];
  readonly gaps: readonly Gap[];
  /** Today or at her next lift she is close to calving; never of a closed case with nothing to lift her for. */
  readonly calvingNear?: CalvingNear;
}
