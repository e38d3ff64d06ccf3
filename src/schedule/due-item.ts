import type { CalendarDay } from '../record/calendar-day.js';
import type { Urgency } from '../reference/notices.js';
import type { Claw, Foot, VetTask } from '../record/words.js';

/** What can be due. */
export type DueWhat =
  | 'recheck'
  | 'measure-again'
  | 'block-look'
  | 'block-off'
  | 'wrap-off'
  | 'gait-rescore'
  | 'severe-look'
  | 'foul-look'
  | 'milk-clear'
  | 'meat-clear'
  | 'withdrawal-not-recorded'
  | 'pain-relief-ask'
  | 'vet-answer'
  | 'vet-ask'
  | 'vet-ring-again'
  | 'footbath-ask-vet'
  | 'farm-task'
  /** A farm's task that ran to a day that is over: was it done? */
  | 'farm-task-done'
  /** What the vet said he does himself. */
  | 'vet-work'
  | 'look-other-foot';

/** What needs a foot lifted: only these can fall before our next visit, or too near calving to lift. */
export const lifts: ReadonlySet<DueWhat> = new Set([
  'recheck',
  'measure-again',
  'block-look',
  'block-off',
  'look-other-foot',
]);

/** One thing to be done, by whom, by when, and why. */
export interface DueItem {
  readonly what: DueWhat;
  /** The day it is due. */
  readonly by: CalendarDay;
  /** From this day on it is overdue. */
  readonly overdueFrom?: CalendarDay;
  readonly who: 'trimmer' | 'farm' | 'vet';
  /** `written` by the trimmer, `default` from the intervals, or `record` worked out from what was found. */
  readonly basis: 'written' | 'default' | 'record';
  /** The words key of its reason (`due.why.…`) and what fills it. */
  readonly why: { readonly key: string; readonly values: Readonly<Record<string, string | number>> };
  readonly foot?: Foot;
  readonly claw?: Claw;
  readonly lesion?: string;
  readonly task?: VetTask;
  /** The day it was done, where it was. */
  readonly doneOn?: CalendarDay;
  /** Of `milk-clear` and `meat-clear`: the last day withheld, the day before `by`. */
  readonly lastWithheld?: CalendarDay;
  /** Of `withdrawal-not-recorded`: which of the two is not known. */
  readonly notRecorded?: 'milk' | 'meat' | 'both';
  /** Of what is asked of the vet: how soon. */
  readonly urgency?: Urgency;
  /** Falls before the farm's next planned visit: farm, vet or an extra call. */
  readonly beforeNextVisit: boolean;
  /** From four weeks before to two weeks after calving: agree with farm or vet. */
  readonly nearCalving: boolean;
  /** `suspended`: the trimmer's, while work on the farm stands still. */
  readonly standing: 'done' | 'open' | 'overdue' | 'suspended';
}

/** Whether something is to be done by it. A clear day only comes: it stands where milk and meat withheld are told. */
export function isJob({ what }: Pick<DueItem, 'what'>): boolean {
  return what !== 'milk-clear' && what !== 'meat-clear';
}
