import { addDays, type CalendarDay } from '../../record/calendar-day.js';
import type { Urgency } from '../../reference/notices.js';
import type { Claw, Foot, IntervalName, VetTask } from '../../record/words.js';
import type { Animal } from '../../record/animal.js';
import type { Farm } from '../../record/farm.js';
import type { Visit } from '../../record/visit.js';
import { fixedDays, type IntervalsInForce } from '../../reference/intervals.js';
import type { Notice, NoticeContext } from '../notices/notice-rule.js';
import { looksAt } from '../../healing/looks-at-lesion.js';
import { codeOn } from '../../record/code-of-lesion.js';
import { familyOf } from '../../reference/lesions.js';

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
  /** `suspended`: the trimmer's, while work has stopped. */
  readonly standing: 'done' | 'open' | 'overdue' | 'suspended';
}

/** Whether something is to be done by it. A clear day only comes: it is where milk and meat withheld are reported. */
export function isJob({ what }: Pick<DueItem, 'what'>): boolean {
  return what !== 'milk-clear' && what !== 'meat-clear';
}

/** What due items are worked out from. */
export interface DueContext extends Omit<NoticeContext, 'wraps'> {
  readonly farm: Farm;
  readonly notices: readonly Notice[];
  readonly interval: IntervalsInForce;
}

/** An item before it is marked: whether it is overdue, before the next visit or near calving follows from its days. */
export type DueDraft = Omit<DueItem, 'beforeNextVisit' | 'nearCalving' | 'standing'>;

type Days = Required<Pick<DueDraft, 'by' | 'overdueFrom'>>;

/** Due on a day, and overdue a number of days later. */
export function dueBy(by: CalendarDay, grace = fixedDays('written-grace')): Days {
  return { by, overdueFrom: addDays(by, grace) };
}

/** Due so long after a day as the interval in force says, and overdue past that of its delay. */
export function dueAfter(
  { interval }: Pick<DueContext, 'interval'>,
  day: CalendarDay,
  name: IntervalName,
  overdue: IntervalName,
): Days {
  return { by: addDays(day, interval(name)), overdueFrom: addDays(day, interval(overdue) + 1) };
}

/** The reason of an item: its words and what fills them. */
export function whyDue(key: string, values: DueItem['why']['values']): DueItem['why'] {
  return { key: `due.why.${key}`, values };
}

/** Visits of the episode asked about with their positions, oldest first. */
export function episodeVisits({
  animal,
  standing,
}: Pick<DueContext, 'animal' | 'standing'>): readonly (readonly [number, Visit])[] {
  return standing.episode.visits.flatMap((at): [number, Visit][] => {
    const visit = animal.visits[at];
    return visit ? [[at, visit]] : [];
  });
}

/**
 * The first lesion with exposed corium or an open ulcer at its last look, if any: live tissue that is exposed.
 *
 * A raw patch of digital dermatitis does not count: a bath is made for it, and whether she may use it is the vet's
 * plan for the herd.
 */
export function openUlcerOrCorium(animal: Animal, today: CalendarDay) {
  for (const [lesion, declared] of Object.entries(animal.lesions)) {
    const last = looksAt(animal, lesion, today).at(-1);
    if (!last || last.found.state === 'healed' || last.found.state === 'covered') continue;
    const corium = last.found.signs?.includes('exposed corium') === true;
    const code = codeOn(lesion, declared, animal.visits, last.visit);
    if (!corium && (familyOf(code) !== 'ulcer' || last.found.state !== 'open')) continue;
    return { foot: declared.foot, lesion, since: last.date, why: corium ? 'corium' : 'ulcer' };
  }
  return undefined;
}
