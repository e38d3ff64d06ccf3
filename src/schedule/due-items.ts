import type { AnimalGrowth } from '../growth/animal-growth.js';
import type { CaseStanding } from '../healing/standing.js';
import type { Business } from '../record/business.js';
import { addDays, type CalendarDay } from '../record/calendar-day.js';
import { leftFarm } from '../record/gone-results.js';
import type { CaseRecord, FarmRecord } from '../record/practice.js';
import type { EpisodeResult } from '../record/words.js';
import { fixedDays } from '../reference/intervals.js';
import type { DueContext, DueDraft } from './due/due-context.js';
import { farmTaskDue } from './due/farm-task-due.js';
import { blockDue, wrapDue } from './due/fixture-due.js';
import { gaitDue } from './due/gait-due.js';
import { painReliefDue, withdrawalDue } from './due/medicine-due.js';
import { foulDue, measureAgainDue, recheckDue } from './due/recheck-due.js';
import { footbathDue, vetDue } from './due/vet-due.js';
import { vetWorkDue } from './due/vet-work-due.js';
import { type DueItem, lifts } from './due-item.js';
import { intervalsInForce } from './interval-in-force.js';
import { plannedVisit } from './next-lift.js';
import type { Notice } from './notice.js';

/**
 * What is due for one animal, what cannot wait first, then by day: what, by whom, by when, and why.
 *
 * A day the trimmer wrote wins over every default. A closed case has nothing due but withdrawals, which run on,
 * blocks and wraps that are still on a cow that has not left the farm, and the asking about what stops work.
 *
 * Shape:   case file, farm, business, and what was worked out for the same day → items
 * Unit:    calendar days; `overdueFrom` is the first day it is overdue
 * Source:  shared/intervals.json
 * Checked: tests/schedule/due-items.test.ts
 */
export function dueItems(
  caseRecord: CaseRecord,
  farmRecord: FarmRecord,
  business: Business,
  growth: AnimalGrowth,
  standing: CaseStanding,
  notices: readonly Notice[],
  today: CalendarDay,
): readonly DueItem[] {
  const { animal } = caseRecord;
  const { farm } = farmRecord;
  const interval = intervalsInForce(farm, business);
  const context: DueContext = { animal, farm, growth, standing, notices, interval, today };
  const drafts = standing.closed ? closedDrafts(context) : draftsOf(context);
  return drafts
    .map((draft) => marked(draft, context))
    .sort((a, b) => Number(isUrgent(b)) - Number(isUrgent(a)) || (a.by < b.by ? -1 : a.by > b.by ? 1 : 0));
}

/** Not to wait: it stands before all else, whatever its day. */
export function isUrgent({ what, urgency }: Pick<DueItem, 'what' | 'urgency'>): boolean {
  return what !== 'vet-answer' && urgency !== undefined && urgency !== 'notice';
}

function closedDrafts(context: DueContext): DueDraft[] {
  const { result } = context.standing.closed ?? {};
  const isHere = !leftFarm.has(result as EpisodeResult);
  return [
    ...(isHere ? [...blockDue(context), ...wrapDue(context), ...vetWorkOnFixtures(context)] : []),
    ...withdrawalDue(context),
    ...(context.notices.some((notice) => notice.standing) ? vetDue(context) : []),
  ];
}

function vetWorkOnFixtures(context: DueContext): DueDraft[] {
  return vetWorkDue(context).filter(({ task }) => task === 'wrap off' || task === 'block off');
}

function draftsOf(context: DueContext): DueDraft[] {
  const rechecks = [...recheckDue(context), ...measureAgainDue(context)];
  return [
    ...rechecks,
    ...otherFootDue(context, rechecks),
    ...blockDue(context),
    ...wrapDue(context),
    ...gaitDue(context),
    ...foulDue(context),
    ...withdrawalDue(context),
    ...painReliefDue(context),
    ...vetDue(context),
    ...vetWorkDue(context),
    ...footbathDue(context),
    ...farmTaskDue(context),
  ];
}

/** Lame, and the other foot of the pair was not lifted last time: look at it when she is lifted next. */
function otherFootDue({ standing, interval }: DueContext, rechecks: readonly DueDraft[]): DueDraft[] {
  const { otherFoot, last } = standing.gait;
  if (!otherFoot || !last) return [];
  const next = rechecks.map(({ by }) => by).sort()[0];
  return [
    {
      what: 'look-other-foot',
      by: next ?? addDays(last.date, interval('gait-rescore')),
      who: 'trimmer',
      basis: 'record',
      why: { key: 'due.why.look-other-foot', values: { day: last.date, foot: otherFoot } },
      foot: otherFoot,
    },
  ];
}

function marked(draft: DueDraft, { animal, farm, today }: DueContext): DueItem {
  const { by, what, overdueFrom, doneOn } = draft;
  const visit = plannedVisit(farm, today);
  const done = doneOn !== undefined;
  const calvings = [...(animal.calvings ?? []), ...(animal['due-to-calve'] ? [animal['due-to-calve']] : [])];
  return {
    ...draft,
    beforeNextVisit: !done && lifts.has(what) && visit !== undefined && by < visit,
    nearCalving:
      lifts.has(what) &&
      calvings.some(
        (day) =>
          by >= addDays(day, -fixedDays('calving-before')) && by <= addDays(day, fixedDays('calving-after')),
      ),
    standing: done ? 'done' : overdueFrom !== undefined && overdueFrom <= today ? 'overdue' : 'open',
  };
}
