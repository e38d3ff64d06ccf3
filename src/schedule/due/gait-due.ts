import { blockTimeline } from '../../healing/block-timeline.js';
import { addDays } from '../../record/calendar-day.js';
import { fixedDays } from '../../reference/intervals.js';
import { episodeVisits, type DueContext, type DueDraft } from './due-context.js';
import { isVets } from './vet-work-due.js';

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
export function gaitDue(context: DueContext): DueDraft[] {
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
