import type { AnimalGrowth } from '../growth/animal-growth.js';
import { blockTimeline } from '../healing/block-timeline.js';
import type { CaseStanding } from '../healing/standing.js';
import type { Business } from '../record/business.js';
import { addDays, type CalendarDay, compareDays, latestDay } from '../record/calendar-day.js';
import type { CaseRecord, FarmRecord } from '../record/practice.js';
import { leftFarm } from '../record/visit.js';
import type { EpisodeResult } from '../record/words.js';
import { fixedDays, intervalsInForce } from '../reference/intervals.js';
import {
  type DueContext,
  type DueDraft,
  type DueItem,
  dueAfter,
  dueBy,
  episodeVisits,
  lifts,
  whyDue,
} from './due/due-item.js';
import { farmTaskDue, footbathDue, vetDue, vetWorkDue, isVets } from './due/farm-task-due.js';
import { blockDue, wrapDue, foulDue, measureAgainDue, recheckDue } from './due/recheck-due.js';
import { plannedVisit } from './next-lift.js';
import type { Notice } from './notices/notice-rule.js';
import {
  mayBePainRelief,
  type NotKnown,
  type Side,
  sides,
  usesOf,
  whyNotKnown,
  withheldOf,
} from './withheld.js';

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
  { animal }: CaseRecord,
  { farm }: FarmRecord,
  business: Business,
  growth: AnimalGrowth,
  standing: CaseStanding,
  notices: readonly Notice[],
  today: CalendarDay,
): readonly DueItem[] {
  const interval = intervalsInForce(farm, business);
  const context: DueContext = { animal, farm, growth, standing, notices, interval, today };
  return (standing.closed ? closedDrafts(context) : draftsOf(context))
    .map((draft) => marked(draft, context))
    .sort((a, b) => Number(isUrgent(b)) - Number(isUrgent(a)) || compareDays(a.by, b.by));
}

/** Not to wait: it comes before all else, whatever its day. */
export function isUrgent({ what, urgency }: Pick<DueItem, 'what' | 'urgency'>): boolean {
  return what !== 'vet-answer' && urgency !== undefined && urgency !== 'notice';
}

function closedDrafts(context: DueContext): DueDraft[] {
  const isHere = !leftFarm.has(context.standing.closed?.result as EpisodeResult);
  const vets = vetWorkDue(context).filter(({ task }) => task === 'wrap off' || task === 'block off');
  return [
    ...(isHere ? [...blockDue(context), ...wrapDue(context), ...vets] : []),
    ...withdrawalDue(context),
    ...(context.notices.some((notice) => notice.standing) ? vetDue(context) : []),
  ];
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
  const { otherFoot: foot, last } = standing.gait;
  if (!foot || !last) return [];
  const [next] = rechecks.map(({ by }) => by).sort();
  const by = next ?? addDays(last.date, interval('gait-rescore'));
  const why = whyDue('look-other-foot', { day: last.date, foot });
  return [{ what: 'look-other-foot', by, who: 'trimmer', basis: 'record', why, foot }];
}

function marked(draft: DueDraft, { animal, farm, today }: DueContext): DueItem {
  const { by, what, overdueFrom, doneOn } = draft;
  const visit = plannedVisit(farm, today);
  const done = doneOn !== undefined;
  const calvings = [...(animal.calvings ?? []), ...(animal['due-to-calve'] ? [animal['due-to-calve']] : [])];
  const isNear = (day: CalendarDay) =>
    by >= addDays(day, -fixedDays('calving-before')) && by <= addDays(day, fixedDays('calving-after'));
  return {
    ...draft,
    beforeNextVisit: !done && lifts.has(what) && visit !== undefined && by < visit,
    nearCalving: lifts.has(what) && calvings.some(isNear),
    standing: done ? 'done' : overdueFrom !== undefined && overdueFrom <= today ? 'overdue' : 'open',
  };
}

/**
 * Until when milk and meat are withheld, one day each; and one item to ask, where it is not known. Of closed cases too.
 *
 * Checked: tests/schedule/due-items.test.ts
 */
function withdrawalDue({ animal, farm, today }: DueContext): DueDraft[] {
  const withheld = withheldOf(animal, farm, today);
  const due: DueDraft[] = [];
  const asked = new Map<string, { reason: NotKnown; which: Side | 'both' }>();
  for (const side of sides) {
    const held = withheld[side];
    if (held.outcome === 'withheld') {
      const { firstClear: by, lastWithheld, product, day } = held;
      const what = `${side}-clear` as const;
      const why = whyDue(what, { product, day, last: lastWithheld, clear: by });
      due.push({ what, by, lastWithheld, who: 'farm', basis: 'record', why });
    }
    for (const reason of held.outcome === 'not-known' ? held.why : []) {
      const key = JSON.stringify(reason);
      asked.set(key, { reason, which: asked.has(key) ? 'both' : side });
    }
  }
  const [first, ...more] = [...asked.values()].sort((a, b) => (a.reason.day < b.reason.day ? -1 : 1));
  if (first) {
    const [side, other] = sides.filter((one) => withheld[one].outcome === 'not-known');
    const { key, values } = whyNotKnown(first.reason, first.which);
    due.push({
      what: 'withdrawal-not-recorded',
      notRecorded: other ? 'both' : side!,
      by: first.reason.day,
      who: 'farm',
      basis: 'record',
      why: { key, values: { ...values, more: more.length } },
    });
  }
  return due;
}

/**
 * Pain relief that was asked for and not answered by the next day. A later word, an answer of the vet, a product given or
 * a walk below lame answers it.
 *
 * Checked: tests/schedule/due-items.test.ts
 */
function painReliefDue(context: DueContext): DueDraft[] {
  const { animal, today, standing } = context;
  const visits = episodeVisits(context);
  const last = visits.findLast(([, visit]) => visit['pain-relief'] !== undefined);
  if (last?.[1]['pain-relief'] !== 'asked') return [];
  const [at, { date: day }] = last;
  const isAnswered =
    visits.some(([later, visit]) => later >= at && (visit['vet-answer']?.to ?? '') >= day) ||
    usesOf(animal, today).some((one) => one.last >= day && mayBePainRelief(one.use)) ||
    (standing.gait.last?.lame === false && standing.gait.last.date > day);
  const days = dueBy(addDays(day, 1), 1);
  if (isAnswered || today < days.by) return [];
  return [
    {
      what: 'pain-relief-ask',
      ...days,
      who: 'farm',
      basis: 'record',
      why: whyDue('pain-relief-ask', { day }),
    },
  ];
}

/**
 * Walks to be scored again.
 *
 * A severe score asks for a look by the farm the next day and a new score in three; a lame one for a new score in
 * two weeks. Where the last block has come off and no score was taken at least 7 days after, one is due, since only
 * that score counts. The look next day is done by any later word or visit. Where the farm was asked at or after
 * the score to score her walk and has not yet, its own day is due and no default with it.
 *
 * Checked: tests/schedule/due-items.test.ts
 */
function gaitDue(context: DueContext): DueDraft[] {
  const { last, daysOffBlock } = context.standing.gait;
  if (farmWillScore(context, last?.visit ?? 0)) return last?.severe ? severeLook(context) : [];
  if (last && isVets(context, 'score her walk', last.date)) return severeLook(context);
  if (!last?.lame) return offBlockScore(context);
  const neverOn = last.block === 'off' && daysOffBlock === undefined;
  const name = last.severe ? 'severe-rescore' : 'gait-rescore';
  const why = last.severe ? name : `${name}-${neverOn ? 'off-no-block' : last.block}`;
  return [
    ...severeLook(context),
    rescore(context, last.date, name, why, { day: last.date, score: last.score }),
  ];
}

function rescore(
  context: DueContext,
  from: CalendarDay,
  name: 'severe-rescore' | 'gait-rescore',
  key: string,
  values: DueItem['why']['values'],
): DueDraft {
  const days = dueAfter(context, from, name, `${name}-overdue`);
  return { what: 'gait-rescore', ...days, who: 'farm', basis: 'default', why: whyDue(key, values) };
}

/** The farm looks at a severely lame cow the next day; any later word or visit has done it. */
function severeLook(context: DueContext): DueDraft[] {
  const { last } = context.standing.gait;
  if (!last?.severe || episodeVisits(context).some(([at]) => at > last.visit)) return [];
  const days = dueBy(addDays(last.date, context.interval('severe-look')));
  const why = whyDue('severe-look', { day: last.date, score: last.score });
  return [{ what: 'severe-look', ...days, who: 'farm', basis: 'default', why }];
}

function farmWillScore(context: DueContext, from: number): boolean {
  const visits = episodeVisits(context).filter(([at]) => at >= from);
  const asked = visits.findLast(([, visit]) =>
    visit['ask-farm']?.some(({ what }) => what === 'score her walk'),
  );
  if (!asked) return false;
  const [at, { date }] = asked;
  return !visits.some(
    ([later, visit]) =>
      later >= at && visit['farm-did']?.some(({ what, on }) => what === 'score her walk' && on >= date),
  );
}

function offBlockScore(context: DueContext): DueDraft[] {
  const { animal, standing, today } = context;
  const blocks = blockTimeline(animal, today);
  const off = latestDay(blocks.spans.flatMap(({ end }) => end?.by ?? []));
  const first = animal.visits[standing.episode.visits[0] ?? -1]?.date;
  if (!off || !first || blocks.on.length > 0 || off < first) return [];
  const from = addDays(off, fixedDays('off-block-counts'));
  if (standing.gait.scores.some(({ date, block }) => block === 'off' && date >= from)) return [];
  return [rescore(context, off, 'gait-rescore', 'gait-rescore-block-came-off', { day: off, from })];
}
