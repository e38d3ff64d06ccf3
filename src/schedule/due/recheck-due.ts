import { isActive, looksAt } from '../../healing/looks-at-lesion.js';
import type { LesionStanding } from '../../healing/standing.js';
import { addDays, compareDays } from '../../record/calendar-day.js';
import { given } from '../../record/given.js';
import { isLiftingVisit } from '../../record/lifting.js';
import type { IntervalName } from '../../record/words.js';
import { fixedDays } from '../../reference/intervals.js';
import { familyOf, hasTrait } from '../../reference/lesions.js';
import { episodeVisits, type DueContext, type DueDraft, dueBy, whyDue } from './due-item.js';
import { isVets } from './vet-due.js';

/**
 * When she must be seen again: one lift, however many lesions ask for it.
 *
 * The last day the trimmer wrote at or since the last lift wins. Else the lesion that asks first, by its kind, its
 * stage and how often it was looked at. A wall lesion without a length is rechecked as `other`, since there is no
 * top to follow. Where she was only reported and never lifted, she is due from the day of the report. Until a day on
 * which the vet looks at her again himself, no default stands beside it.
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
