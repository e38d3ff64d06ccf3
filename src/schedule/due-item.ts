import type { CalendarDay } from '../record/calendar-day.js';
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
  | 'vet-answer'
  | 'vet-ask'
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
  /** Of `withdrawal-not-recorded`: which period nobody wrote down, or that cannot be counted. */
  readonly notRecorded?: 'milk' | 'meat' | 'both';
  /** Falls before the farm's next planned visit: farm, vet or an extra call. */
  readonly beforeNextVisit: boolean;
  /** From four weeks before to two weeks after calving: agree with farm or vet. */
  readonly nearCalving: boolean;
  readonly standing: 'done' | 'open' | 'overdue';
}
