import type { JudgedReading, LesionGrowth } from '../../growth/animal-growth.js';
import type { JudgedCase, NoticeCheck, NoticeContext, VisitLook } from './notice-rule.js';
import { signsOf, swellings } from './sign-checks.js';
import { blockTimeline } from '../../healing/block-timeline.js';
import { soreFeet } from '../../healing/foot-seen.js';
import type { GaitScore } from '../../healing/standing.js';
import { daysBetween, addDays, type CalendarDay } from '../../record/calendar-day.js';
import { isLiftingVisit } from '../../record/lifting.js';
import type { Visit } from '../../record/visit.js';
import { noticeLimit } from '../../reference/notices.js';
import type { Foot } from '../../record/words.js';

/** What the readings of a wall gap ask for: at the coronet, run up, held. */
export const growthChecks: NoticeCheck = (context, look) => {
  const { at, visit, score } = look;
  return context.growth.lesions.flatMap((line): JudgedCase[] => {
    const about = { lesion: line.lesion, foot: line.foot };
    const found = visit.found?.[line.lesion];
    const index = line.readings.findIndex((reading) => reading.visit === at);
    const reading = line.readings[index];
    // A lasting fault forms anew from the coronet by its nature; neither it nor a closed gap is followed by these.
    if (found?.state === 'healed' || found?.state === 'lasting' || found?.joined)
      return (['at-coronet', 'coronet-hot-or-lame', 'ran-up', 'held'] as const).map((rule) => ({
        ...about,
        rule,
        holds: false,
      }));
    if (!reading) {
      const said = found?.['ran-up'] === true;
      return said ? [{ ...about, ...ranUp(look, line, saidBefore(context, line, at)) }] : [];
    }
    const before = line.readings[index - 1];
    const coronet = atCoronet(context, line, reading, before);
    const up = reading.kind === 'ran-up';
    const standing = line.readings.length - 1 === index && line.heldNow?.sure === true;
    return [
      { ...about, ...coronet, values: { lesion: line.lesion } },
      {
        ...about,
        rule: 'coronet-hot-or-lame',
        holds: coronet.holds && (signsOf(look, line.foot).has('heat') || score?.lame === true),
        values: { lesion: line.lesion },
      },
      up
        ? { ...about, ...ranUp(look, line, before?.kind === 'ran-up') }
        : { ...about, rule: 'ran-up', holds: false },
      {
        ...about,
        rule: 'held',
        holds: reading.kind === 'held' || standing,
        values: {
          lesion: line.lesion,
          since: (standing ? line.heldNow?.since : before?.date) ?? reading.date,
        },
      },
    ];
  });
};

function atCoronet(
  { standing }: NoticeContext,
  line: LesionGrowth,
  reading: JudgedReading,
  before: JudgedReading | undefined,
): JudgedCase {
  const isLast = reading === line.readings.at(-1);
  const word = isLast ? standing.lesions.find(({ lesion }) => lesion === line.lesion)?.standing : undefined;
  const still = (reading.topMm === 0 && before?.topMm === 0) || word === 'still-at-coronet';
  const holds = reading.topMm === 0 || still || word === 'at-coronet';
  return { rule: 'at-coronet', holds, variant: still ? 'still' : 'once' };
}

/** Once with pus or swelling, or twice running without. */
function ranUp(look: VisitLook, line: LesionGrowth, twice: boolean): JudgedCase {
  const signs = signsOf(look, line.foot);
  const withSigns = signs.has('pus') || swellings.some((sign) => signs.has(sign));
  return {
    rule: 'ran-up',
    holds: withSigns || twice,
    variant: withSigns ? 'with-signs' : 'twice',
    values: { lesion: line.lesion, day: look.visit.date },
  };
}

function saidBefore({ animal }: NoticeContext, line: LesionGrowth, at: number): boolean {
  const before = animal.visits.slice(0, at).findLast(({ found }) => found?.[line.lesion])?.found?.[
    line.lesion
  ];
  return before?.['ran-up'] === true || line.readings.findLast(({ visit }) => visit < at)?.kind === 'ran-up';
}

/** The severest score, with the block on or off. */
export const severestScore: NoticeCheck = (_, { score }) =>
  score
    ? [{ rule: 'severest-score', holds: score.severe, values: { score: score.score }, variant: score.block }]
    : [];

/**
 * A higher score within 7 days of trimming, cutting back or putting on a block.
 *
 * Scores on and off the block are set against each other here and only here: a cow that walks worse in spite of a
 * block is worse, and a needless call costs less than a missed one.
 */
export const worseAfterWork: NoticeCheck = (context, { at, visit, score }) => {
  if (!score) return [];
  const within = noticeLimit('worse-after-work', 'within');
  const work = context.standing.episode.visits
    .filter((other) => other < at)
    .map((other) => ({ other, worked: context.animal.visits[other] }))
    .findLast(({ worked }) => worked && didWork(worked) && daysBetween(worked.date, visit.date) <= within);
  const before = work && context.standing.gait.scores.findLast((earlier) => earlier.visit <= work.other);
  const worse = before !== undefined && before.scale === score.scale && score.score > before.score;
  const values = { score: score.score, before: before?.score ?? '', day: work?.worked?.date ?? '' };
  return [{ rule: 'worse-after-work', holds: worse, values }];
};

function didWork(visit: Visit): boolean {
  return (
    (visit.trimmed?.length ?? 0) > 0 ||
    (visit['cut-back']?.length ?? 0) > 0 ||
    (visit.blocks ?? []).some(({ event }) => event === 'fitted' || event === 'replaced')
  );
}

/** Lame at a lifted visit, with no lesion that is not healed and no sign on any foot. */
export const lameNothingFound: NoticeCheck = ({ animal }, { visit, score, signs }) => {
  if (!score || !isLiftingVisit(visit)) return [];
  const nothing =
    soreFeet(animal, visit.date).length === 0 &&
    Object.values(visit.found ?? {}).every(
      ({ state, stage, lifted }) => lifted === false || state === 'healed' || (!state && stage === 'M0'),
    ) &&
    signs.every(({ foot }) => foot === undefined);
  return [{ rule: 'lame-nothing-found', holds: score.lame && nothing, values: { score: score.score } }];
};

/** Lame off the block at two scorings at least 14 days apart, with no better score off the block between them. */
export const lameOffBlock: NoticeCheck = (context, look) => {
  const { score } = look;
  if (score?.block !== 'off') return [];
  const first = firstOfLameRun(context, look, score);
  const apart = first ? daysBetween(first.date, score.date) : 0;
  const holds = score.lame && apart >= noticeLimit('lame-off-block', 'apart');
  const hadBlock = holds && blockTimeline(context.animal, score.date).spans.length > 0;
  const variant = hadBlock ? 'off-block' : 'no-block';
  return [{ rule: 'lame-off-block', holds, variant, values: { since: first?.date ?? '', day: score.date } }];
};

function firstOfLameRun(context: NoticeContext, { at }: VisitLook, score: GaitScore): GaitScore | undefined {
  const off = context.standing.gait.scores.filter(
    ({ visit, block, scale }) => visit <= at && block === 'off' && scale === score.scale,
  );
  return off[off.findLastIndex(({ lame }) => !lame) + 1];
}

/** A foot that has been longer on blocks than it should, refits added up. */
interface LongOnBlocks {
  readonly foot: Foot;
  /** The day the sum passed the limit. */
  readonly raised: CalendarDay;
  readonly days: number;
  readonly stillOn: boolean;
}

/**
 * Feet with more than 84 days on blocks in all, in the open episode.
 *
 * Why this way: one foot's claws are added up, since tendons and heel strain with the foot; the fewest days that
 * can have been are counted, so that an unknown day never raises it.
 */
export function longOnBlocks(
  { animal, standing }: NoticeContext,
  today: CalendarDay,
): readonly LongOnBlocks[] {
  const limit = noticeLimit('long-on-blocks', 'days');
  const first = animal.visits[standing.episode.visits[0] ?? 0]?.date ?? today;
  const now = blockTimeline(animal, today);
  const sumOn = (foot: Foot, day: CalendarDay) => daysSince(animal, foot, first, day);
  return now.daysByFoot.flatMap(({ foot, atLeast }): LongOnBlocks[] => {
    if (atLeast <= limit) return [];
    const days = sumOn(foot, today);
    if (days <= limit) return [];
    let early = 0;
    let late = daysBetween(first, today);
    while (early < late) {
      const middle = Math.floor((early + late) / 2);
      if (sumOn(foot, addDays(first, middle)) > limit) late = middle;
      else early = middle + 1;
    }
    return [{ foot, days, raised: addDays(first, late), stillOn: now.on.some((span) => span.foot === foot) }];
  });
}

function daysSince(
  animal: NoticeContext['animal'],
  foot: Foot,
  first: CalendarDay,
  day: CalendarDay,
): number {
  const all = (until: CalendarDay) =>
    blockTimeline(animal, until).daysByFoot.find((sum) => sum.foot === foot)?.atLeast ?? 0;
  return all(day) - all(first);
}
