import type { CalendarDay } from '../record/calendar-day.js';
import type { Foot } from '../record/words.js';

/** A prompt to bring in the veterinary surgeon; never a diagnosis. */
export interface Notice {
  /** Id of the rule in `shared/notices.json`. */
  readonly rule: string;
  readonly urgency: 'stop-work' | 'same-day' | 'notice';
  readonly raised: CalendarDay;
  readonly foot?: Foot;
  readonly lesion?: string;
  /** What in the record raised it: words key `notice.…` and what fills it. */
  readonly evidence: { readonly key: string; readonly values: Readonly<Record<string, string | number>> };
  readonly asked?: { readonly on: CalendarDay; readonly why: string };
  readonly answered?: { readonly on: CalendarDay; readonly by: string; readonly reply: string };
  /** Still standing on the day asked about. */
  readonly standing: boolean;
}
