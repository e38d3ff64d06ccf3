import type { AnimalGrowth } from '../../growth/animal-growth.js';
import type { FixtureSpan } from '../../healing/fixture-span.js';
import type { CaseStanding, GaitScore } from '../../healing/standing.js';
import type { Animal } from '../../record/animal.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import type { Visit } from '../../record/visit.js';
import type { Foot } from '../../record/words.js';
import type { NoticeRuleId, Urgency } from '../../reference/notices.js';
import type { StandingSign } from './standing-signs.js';

/** What the rules may look at: the record and what was worked out of it. */
export interface NoticeContext {
  readonly animal: Animal;
  readonly growth: AnimalGrowth;
  readonly standing: CaseStanding;
  readonly wraps: readonly FixtureSpan[];
  readonly today: CalendarDay;
}

/** One visit of the open episode under a rule's eye. */
export interface VisitLook {
  readonly at: number;
  readonly visit: Visit;
  /** The walk scored at it. */
  readonly score: GaitScore | undefined;
  /** What is after it. */
  readonly signs: readonly StandingSign[];
}

/**
 * What one rule says at one visit of one foot, lesion or the whole animal: that it holds, or, of a look, that it does not.
 * What a rule said before and says nothing of now holds as its `ends` has it.
 */
export interface JudgedCase {
  /** Id of the rule in `shared/notices.json`. */
  readonly rule: NoticeRuleId;
  readonly holds: boolean;
  readonly foot?: Foot;
  readonly lesion?: string;
  /** Last day what it is based on was seen; absent: this visit's. */
  readonly seen?: CalendarDay;
  /** Which of the rule's evidence sentences, where it has more than one: `notice.evidence.RULE.VARIANT`. */
  readonly variant?: string;
  readonly values?: Readonly<Record<string, string | number>>;
}

export type NoticeCheck = (context: NoticeContext, look: VisitLook) => readonly JudgedCase[];

/** A prompt to bring in the veterinary surgeon; never a diagnosis. */
export interface Notice extends Pick<JudgedCase, 'rule' | 'foot' | 'lesion'> {
  readonly urgency: Urgency;
  /** First look of the present run at which the record raised it. */
  readonly raised: CalendarDay;
  /** Last day what it is based on was seen. */
  readonly seen: CalendarDay;
  /** The foot it is of; of her walk, the feet that were sore. */
  readonly feet: readonly Foot[];
  /** What in the record raised it: words key `notice.…` and what fills it. */
  readonly evidence: { readonly key: string; readonly values: Readonly<Record<string, string | number>> };
  readonly asked?: { readonly on: CalendarDay; readonly why: string };
  readonly answered?: { readonly on: CalendarDay; readonly by: string; readonly reply: string };
  /** It was seen again after the answer: the day it was. */
  readonly seenAgain?: CalendarDay;
  /** What raised it still held at the last look; false once the case is closed. */
  readonly standing: boolean;
}
