import { isActive, looksAt } from '../../healing/looks-at-lesion.js';
import type { LesionStanding } from '../../healing/standing.js';
import { addDays, compareDays } from '../../record/calendar-day.js';
import { given } from '../../record/given.js';
import { isLiftingVisit } from '../../record/lifting.js';
import type { IntervalName } from '../../record/words.js';
import { fixedDays } from '../../reference/intervals.js';
import { familyOf, hasTrait } from '../../reference/lesions.js';
import { episodeVisits, type DueContext, type DueDraft, dueBy, whyDue, dueAfter } from './due-item.js';
import { isVets } from './farm-task-due.js';
import { blockTimeline } from '../../healing/block-timeline.js';
import { type FixtureSpan, wrapTimeline } from '../../healing/fixture-span.js';
import { footSeen } from '../../healing/foot-seen.js';
import { standingSigns } from '../notices/standing-signs.js';

/**
 * When she must be seen again: one lift, however many lesions ask for it.
 *
 * The last day the trimmer wrote at or since the last lift wins. Else the lesion that asks first, by its kind, its
 * stage and how often it was looked at. A wall lesion without a length is rechecked as `other`, since there is no
 * top to follow. Where she was only reported and never lifted, she is due from the day of the report. Until a day on
 * which the vet looks at her again himself, no default is beside it.
 *
 * Checked: tests/schedule/due-items.test.ts
 */
export function recheckDue(context: DueContext): DueDraft[] {
  const visits = episodeVisits(context);
  const lifted = visits.findLast(([, visit]) => isLiftingVisit(visit));
  const written = visits.findLast(([at, { recheck }]) => recheck && (!lifted || at >= lifted[0]))?.[1];
  const asking = context.standing.lesions.filter(asksForRecheck);
  const place = placeOf(context, asking[0]);
  if (written?.recheck) {
    const why = whyDue('recheck-written', { day: written.date });
    return [{ what: 'recheck', ...dueBy(written.recheck), who: 'trimmer', basis: 'written', why, ...place }];
  }
  if (!lifted) {
    const reported = visits.find(([, { kind }]) => kind === 'report' || kind === 'missed')?.[1];
    if (!reported) return [];
    const { date: by, kind } = reported;
    const why = whyDue(`recheck-never-${kind === 'report' ? 'lifted' : 'presented'}`, { day: by });
    return [{ what: 'recheck', by, who: 'trimmer', basis: 'record', why, ...place }];
  }
  if (isVets(context, 'recheck', lifted[1].date)) return [];
  const drafts = asking.flatMap((lesion) => byLesion(context, lesion));
  return drafts.sort((a, b) => compareDays(a.by, b.by)).slice(0, 1);
}

function asksForRecheck({ standing }: LesionStanding): boolean {
  return standing !== 'healed' && standing !== 'joined';
}

function byLesion(context: DueContext, { lesion, code }: LesionStanding): DueDraft[] {
  const looks = looksAt(context.animal, lesion, context.today);
  const last = looks.at(-1);
  if (!last) return [];
  const [name, grace] = intervalOf(code, looks);
  const by = addDays(last.date, context.interval(name));
  const why = whyDue(name, { day: last.date, lesion, days: context.interval(name) });
  const days = dueBy(by, context.interval(grace) + 1);
  return [
    { what: 'recheck', ...days, who: 'trimmer', basis: 'default', why, ...placeOf(context, { lesion }) },
  ];
}

function intervalOf(
  code: LesionStanding['code'],
  looks: ReturnType<typeof looksAt>,
): readonly [IntervalName, IntervalName] {
  const found = looks.at(-1)?.found;
  const family = familyOf(code);
  if (family === 'wall' && looks.some((look) => look.found.top !== undefined)) {
    const lifts = looks.filter(({ kind }) => kind !== 'report').length;
    const name = lifts <= 1 ? 'second' : lifts === 2 ? 'third' : 'later';
    return [`recheck-wall-${name}`, 'recheck-wall-grace'];
  }
  if (family === 'ulcer') {
    const raw = found?.signs?.some((sign) => sign === 'proud flesh' || sign === 'exposed corium');
    return [raw ? 'recheck-ulcer-raw' : 'recheck-ulcer', 'recheck-ulcer-grace'];
  }
  if (family === 'dermatitis' && found?.stage && isActive(found.stage)) {
    const before = looks.at(-2)?.found.stage;
    const again = before !== undefined && isActive(before);
    return [again ? 'recheck-dermatitis-later' : 'recheck-dermatitis-second', 'recheck-dermatitis-grace'];
  }
  const kind = hasTrait(code, 'foul') ? 'foul' : 'other';
  return [`recheck-${kind}`, `recheck-${kind}-grace`];
}

function placeOf({ animal }: DueContext, asking: { readonly lesion: string } | undefined) {
  const declared = asking && animal.lesions[asking.lesion];
  return declared ? { lesion: asking.lesion, foot: declared.foot, ...given({ claw: declared.claw }) } : {};
}

/** A doubtful reading is taken again within two weeks, by the same person with the same tool. */
export function measureAgainDue(context: DueContext): DueDraft[] {
  return context.standing.lesions.flatMap(({ lesion, standing, evidence }): DueDraft[] => {
    const { date, mayBeHeld, since } = evidence;
    if (standing !== 'doubtful' || !date) return [];
    const days = dueBy(addDays(date, fixedDays('measure-again')));
    const why =
      mayBeHeld && since
        ? whyDue('may-be-held', { day: since, lesion })
        : whyDue('measure-again', { day: date, lesion });
    const place = placeOf(context, { lesion });
    return [{ what: 'measure-again', ...days, who: 'trimmer', basis: 'record', why, ...place }];
  });
}

/**
 * Foul: the farm looks the next day and on day 3, and rings the vet again where it is no better. Any word or visit of
 * that day or later has done a look.
 *
 * Checked: tests/schedule/due-items.test.ts
 */
export function foulDue(context: DueContext): DueDraft[] {
  const visits = episodeVisits(context);
  return context.standing.lesions
    .filter((one) => hasTrait(one.code, 'foul') && asksForRecheck(one))
    .flatMap((one) => {
      const last = looksAt(context.animal, one.lesion, context.today).at(-1);
      if (!last) return [];
      return (['foul-look', 'foul-look-again'] as const).flatMap((name): DueDraft[] => {
        const by = addDays(last.date, fixedDays(name));
        if (visits.some(([at, { date }]) => at > last.visit && date >= by)) return [];
        const why = whyDue(name, { day: last.date });
        return [
          { what: 'foul-look', ...dueBy(by), who: 'farm', basis: 'default', why, ...placeOf(context, one) },
        ];
      });
    });
}

/**
 * Blocks that are on: a first look, then off; of a closed case only off.
 *
 * A look is a `checked` or `worn` event, or a lift of that foot after the block went on. Of a block already on, the
 * days count from the day it was first seen, since nobody knows the day it went on. A block that the vet takes off
 * himself is no job of the trimmer's.
 *
 * Checked: tests/schedule/due-items.test.ts, tests/schedule/fixtures-due.test.ts
 */
export function blockDue(context: DueContext): DueDraft[] {
  const { animal, standing, today } = context;
  return blockTimeline(animal, today).on.flatMap((span): DueDraft[] => {
    if (isVets(context, 'block off', span.from)) return [];
    const { foot, claw, from, looks, fitted } = span;
    const seen =
      looks.length > 0 ||
      animal.visits.some(
        (visit, at) =>
          at > span.visit && visit.date <= today && visit.date > from && footSeen(animal, visit, foot),
      );
    const job = { who: 'trimmer', basis: 'default', foot, claw } as const;
    const why = (key: string) => whyDue(key, { day: from, days: span.days.atLeast });
    const off: DueDraft = {
      ...job,
      what: 'block-off',
      ...dueAfter(context, from, 'block-off', 'block-off-overdue'),
      why: why(fitted ? 'block-off' : 'block-off-already-on'),
      ...offAtOnce(context, 'block', span),
    };
    if (seen || standing.closed || off.basis === 'record') return [off];
    const days = dueAfter(context, from, 'block-look', 'block-look-overdue');
    return [{ ...job, what: 'block-look', ...days, why: why('block-look') }, off];
  });
}

/**
 * Wraps that are on: off, by the farm, unless the farm was asked to take it off by a day of its own, or the vet does
 * it. Of a closed case no task of the farm's is listed, so there the wrap itself always is.
 *
 * Checked: tests/schedule/due-items.test.ts, tests/schedule/fixtures-due.test.ts
 */
export function wrapDue(context: DueContext): DueDraft[] {
  const { animal, standing, today } = context;
  const askedOff = (fittedAt: number) =>
    !standing.closed &&
    animal.visits
      .slice(fittedAt)
      .some((visit) => visit['ask-farm']?.some(({ what }) => what === 'wrap off') && visit.date <= today);
  return wrapTimeline(animal, today)
    .filter(({ end, visit, from }) => !end && !askedOff(visit) && !isVets(context, 'wrap off', from))
    .map((span) => ({
      what: 'wrap-off',
      ...dueAfter(context, span.from, 'wrap-off', 'wrap-off-overdue'),
      who: 'farm',
      basis: 'default',
      why: whyDue('wrap-off', { day: span.from, foot: span.foot }),
      foot: span.foot,
      ...offAtOnce(context, 'wrap', span),
    }));
}

/**
 * Off at once, where the record shows since it went on that the foot swells above it, or that she walks worse; that
 * it has slipped or is soaked no record tells, so the words of every such job say it.
 */
function offAtOnce(
  { animal, standing }: DueContext,
  kind: 'block' | 'wrap',
  { foot, from, visit: fittedAt }: FixtureSpan,
): Partial<DueDraft> {
  const { scores } = standing.gait;
  const signs = [...standingSigns(animal, standing.episode.visits, scores).values()].at(-1) ?? [];
  const swollen = signs.find(
    (one) => one.sign === 'swollen above foot' && one.foot === foot && one.seen > from,
  );
  const [before, now] = [scores.findLast(({ visit }) => visit <= fittedAt), scores.at(-1)];
  const worse =
    before && now && now.visit > fittedAt && now.scale === before.scale && now.score > before.score;
  const seen = swollen?.seen ?? (worse ? now.date : undefined);
  if (seen === undefined) return {};
  const why = whyDue(`${kind}-off-at-once-${swollen ? 'swollen' : 'worse'}`, { day: from, seen, foot });
  return { ...dueBy(seen), basis: 'record', why };
}
