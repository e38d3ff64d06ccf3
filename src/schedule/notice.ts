import type { CalendarDay } from '../record/calendar-day.js';
import type { Foot } from '../record/words.js';
import type { NoticeRuleId, Urgency } from '../reference/notices.js';

/** A prompt to bring in the veterinary surgeon; never a diagnosis. */
export interface Notice {
  /** Id of the rule in `shared/notices.json`. */
  readonly rule: NoticeRuleId;
  readonly urgency: Urgency;
  /** First look of the present run at which the record raised it. */
  readonly raised: CalendarDay;
  /** Last day what it rests on was seen. */
  readonly seen: CalendarDay;
  readonly foot?: Foot;
  /** The foot it is of; of her walk, the feet that were sore. */
  readonly feet: readonly Foot[];
  readonly lesion?: string;
  /** What in the record raised it: words key `notice.…` and what fills it. */
  readonly evidence: { readonly key: string; readonly values: Readonly<Record<string, string | number>> };
  readonly asked?: { readonly on: CalendarDay; readonly why: string };
  readonly answered?: { readonly on: CalendarDay; readonly by: string; readonly reply: string };
  /** It was seen again after the answer: the day it was. */
  readonly seenAgain?: CalendarDay;
  /** What raised it still held at the last look; false once the case is closed. */
  readonly standing: boolean;
}
