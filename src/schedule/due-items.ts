import type { AnimalGrowth } from '../growth/animal-growth.js';
import type { CaseStanding } from '../healing/standing.js';
import type { Business } from '../record/business.js';
import { addDays, type CalendarDay } from '../record/calendar-day.js';
import { leftFarm } from '../record/visit.js';
import type { CaseRecord, FarmRecord } from '../record/practice.js';
import type { EpisodeResult } from '../record/words.js';
import { fixedDays, intervalsInForce } from '../reference/intervals.js';
import { type DueContext, type DueDraft, episodeVisits, type DueItem, lifts } from './due/due-item.js';
import { farmTaskDue } from './due/farm-task-due.js';
import { blockDue, wrapDue } from './due/fixture-due.js';
import { foulDue, measureAgainDue, recheckDue } from './due/recheck-due.js';
import { footbathDue, vetDue, vetWorkDue, isVets } from './due/vet-due.js';
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
import { blockTimeline } from '../healing/block-timeline.js';

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

/**
 * Until when milk and meat are withheld, one day each; and one item to ask, where it is not known. Of closed cases too.
 *
 * Checked: tests/schedule/due-items.test.ts
 */
function withdrawalDue({ animal, farm, today }: DueContext): DueDraft[] {
  const withheld = withheldOf(animal, farm, today);
  const clear = sides.flatMap((side): DueDraft[] => {
    const held = withheld[side];
    if (held.outcome !== 'withheld') return [];
    const { firstClear: by, lastWithheld, product, day } = held;
    const what = `${side}-clear` as const;
    const why = { key: `due.why.${what}`, values: { product, day, last: lastWithheld, clear: by } };
    return [{ what, by, lastWithheld, who: 'farm', basis: 'record', why }];
  });
  return [...clear, ...askDue(sides.filter((side) => withheld[side].outcome === 'not-known'))];

  function askDue(unknown: readonly Side[]): DueDraft[] {
    const of = new Map<string, { reason: NotKnown; which: Side | 'both' }>();
    for (const side of unknown) {
      const held = withheld[side];
      for (const reason of held.outcome === 'not-known' ? held.why : []) {
        const key = JSON.stringify(reason);
        of.set(key, { reason, which: of.has(key) ? 'both' : side });
      }
    }
    const [first, ...more] = [...of.values()].sort((a, b) => (a.reason.day < b.reason.day ? -1 : 1));
    if (!first) return [];
    const { key, values } = whyNotKnown(first.reason, first.which);
    return [
      {
        what: 'withdrawal-not-recorded',
        notRecorded: unknown.length > 1 ? 'both' : unknown[0]!,
        by: first.reason.day,
        who: 'farm',
        basis: 'record',
        why: { key, values: { ...values, more: more.length } },
      },
    ];
  }
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
  const [at, { date }] = last;
  const isAnswered =
    visits.some(([later, visit]) => later >= at && (visit['vet-answer']?.to ?? '') >= date) ||
    usesOf(animal, today).some((one) => one.last >= date && mayBePainRelief(one.use)) ||
    (standing.gait.last?.lame === false && standing.gait.last.date > date);
  const by = addDays(date, 1);
  if (isAnswered || today < by) return [];
  return [
    {
      what: 'pain-relief-ask',
      by,
      overdueFrom: addDays(by, 1),
      who: 'farm',
      basis: 'record',
      why: { key: 'due.why.pain-relief-ask', values: { day: date } },
    },
  ];
}

/**
 * Walks to be scored again.
 *
 * A severe score asks for a look by the farm the next day and a new score in three; a lame one for a new score in
 * two weeks. Where the last block has come off and no score was taken at least 7 days after, one is due, since only
 * that score counts. The look next day is done by any later word or visit. Where the farm was asked at or after
 * the score to score her walk and has not yet, its own day stands and no default beside it.
 *
 * Checked: tests/schedule/due-items.test.ts
 */
function gaitDue(context: DueContext): DueDraft[] {
  const { standing, interval } = context;
  const { last } = standing.gait;
  if (farmWillScore(context, last?.visit ?? 0)) return last?.severe ? severeLook(context) : [];
  if (last && isVets(context, 'score her walk', last.date)) return severeLook(context);
  if (!last?.lame) return offBlockScore(context);
  const values = { day: last.date, score: last.score };
  const [name, overdue] = last.severe
    ? (['severe-rescore', 'severe-rescore-overdue'] as const)
    : (['gait-rescore', 'gait-rescore-overdue'] as const);
  const rescore: DueDraft = {
    what: 'gait-rescore',
    by: addDays(last.date, interval(name)),
    overdueFrom: addDays(last.date, interval(overdue) + 1),
    who: 'farm',
    basis: 'default',
    why: { key: `due.why.${last.severe ? 'severe-rescore' : lameWhy(standing.gait)}`, values },
  };
  return [...severeLook(context), rescore];
}

function lameWhy({ last, daysOffBlock }: DueContext['standing']['gait']): string {
  const neverOn = last?.block === 'off' && daysOffBlock === undefined;
  return `gait-rescore-${neverOn ? 'off-no-block' : (last?.block ?? 'unclear')}`;
}

/** The farm looks at a severely lame cow the next day; any later word or visit has done it. */
function severeLook(context: DueContext): DueDraft[] {
  const { last } = context.standing.gait;
  const heard = !last?.severe || episodeVisits(context).some(([at]) => at > last.visit);
  if (heard) return [];
  const by = addDays(last.date, context.interval('severe-look'));
  return [
    {
      what: 'severe-look',
      by,
      overdueFrom: addDays(by, fixedDays('written-grace')),
      who: 'farm',
      basis: 'default',
      why: { key: 'due.why.severe-look', values: { day: last.date, score: last.score } },
    },
  ];
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

function offBlockScore({ animal, standing, interval, today }: DueContext): DueDraft[] {
  const blocks = blockTimeline(animal, today);
  const last = blocks.spans
    .filter(({ end }) => end)
    .sort((a, b) => ((a.end?.by ?? '') < (b.end?.by ?? '') ? -1 : 1))
    .at(-1);
  const off = last?.end?.by;
  const first = animal.visits[standing.episode.visits[0] ?? 0]?.date;
  if (!off || blocks.on.length > 0 || (first && off < first)) return [];
  const counts = addDays(off, fixedDays('off-block-counts'));
  if (standing.gait.scores.some(({ date, block }) => block === 'off' && date >= counts)) return [];
  return [
    {
      what: 'gait-rescore',
      by: addDays(off, interval('gait-rescore')),
      overdueFrom: addDays(off, interval('gait-rescore-overdue') + 1),
      who: 'farm',
      basis: 'default',
      why: { key: 'due.why.gait-rescore-block-came-off', values: { day: off, from: counts } },
    },
  ];
}
