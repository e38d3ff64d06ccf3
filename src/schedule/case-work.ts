import type { AnimalGrowth } from '../growth/animal-growth.js';
import type { UlcerClosing } from '../healing/closing/ulcer-closing.js';
import type { CaseStanding } from '../healing/standing.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { CaseRecord } from '../record/practice.js';
import type { NoticeRuleId } from '../reference/notices.js';
import type { CalvingNear } from './calving.js';
import type { DueItem } from './due/due-item.js';
import type { MissingEntry } from './missing-on-farm.js';
import type { Notice } from './notices/notice-rule.js';
import type { LeftUnderWithdrawal } from './end-of-case.js';
import type { WithheldOfAnimal } from './withheld.js';

/** Why work has stopped on a farm: what may have to be reported. People, kit and animals stay until it is closed. */
export interface StopWork extends Pick<Notice, 'answered'> {
  readonly rule: NoticeRuleId;
  readonly since: CalendarDay;
  /** Numbers of the animals. */
  readonly animals: readonly string[];
  /** The vet or the authority was asked. */
  readonly asked?: CalendarDay;
  /** Who worked there that day or since: their later stops are marked. */
  readonly people: readonly string[];
  /** How many jobs of the trimmer's wait on the whole farm. */
  readonly suspended: number;
}

/** One case with all that was worked out on it for a day. */
export interface CaseWork {
  readonly record: CaseRecord;
  readonly growth: AnimalGrowth;
  /** Her ulcers, in the order declared. */
  readonly closings: readonly UlcerClosing[];
  readonly standing: CaseStanding;
  /** What is withheld of her on the day. */
  readonly withheld: WithheldOfAnimal;
  readonly left?: LeftUnderWithdrawal;
  readonly due: readonly DueItem[];
  readonly notices: readonly Notice[];
  readonly missing: readonly MissingEntry[];
  /** Work on her farm has stopped. */
  readonly stop?: StopWork;
  /** Today or at her next lift she is close to calving; never of a closed case with nothing to lift her for. */
  readonly calvingNear?: CalvingNear;
}
