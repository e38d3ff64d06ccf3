import { isActive, looksAt } from '../../healing/looks-at-lesion.js';
import type { LesionStanding } from '../../healing/standing.js';
import { addDays, type CalendarDay } from '../../record/calendar-day.js';
import { familyOf, hasTrait } from '../../reference/lesions.js';
import { fixedDays } from '../../reference/intervals.js';
import type { IntervalName } from '../../record/words.js';
import { episodeVisits, lastLifted, type DueContext, type DueDraft } from './due-item.js';
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
  const lifted = lastLifted(context);
  const visits = episodeVisits(context);
  const written = visits.findLast(([at, visit]) => visit.recheck && (!lifted || at >= lifted[0]));
  const asking = context.standing.lesions.filter(asksForRecheck);
  if (written) {
    const [, { recheck, date }] = written;
    const by = recheck ?? date;
    return [
      {
        what: 'recheck',
        by,
        overdueFrom: addDays(by, fixedDays('written-grace')),
        who: 'trimmer',
        basis: 'written',
        why: { key: 'due.why.recheck-written', values: { day: date } },
        ...placeOf(context, asking[0]),
      },
    ];
  }
  if (!lifted) {
    const reported = visits.find(([, { kind }]) => kind === 'report' || kind === 'missed');
    if (!reported) return [];
    const by = reported[1].date;
    const key = reported[1].kind === 'report' ? 'recheck-never-lifted' : 'recheck-never-presented';
    const why = { key: `due.why.${key}`, values: { day: by } };
    return [{ what: 'recheck', by, who: 'trimmer', basis: 'record', why, ...placeOf(context, asking[0]) }];
  }
  if (isVets(context, 'recheck', lifted[1].date)) return [];
  const drafts = asking.flatMap((lesion) => byLesion(context, lesion));
  return drafts.sort((a, b) => (a.by < b.by ? -1 : a.by > b.by ? 1 : 0)).slice(0, 1);
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
  return [
    {
      what: 'recheck',
      by,
      overdueFrom: addDays(by, context.interval(grace) + 1),
      who: 'trimmer',
      basis: 'default',
      why: { key: `due.why.${name}`, values: { day: last.date, lesion, days: context.interval(name) } },
      ...placeOf(context, { lesion }),
    },
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
  if (hasTrait(code, 'foul')) return ['recheck-foul', 'recheck-foul-grace'];
  return ['recheck-other', 'recheck-other-grace'];
}

function placeOf({ animal }: DueContext, asking: { readonly lesion: string } | undefined) {
  const declared = asking && animal.lesions[asking.lesion];
  if (!asking || !declared) return {};
  const { foot, claw } = declared;
  return { lesion: asking.lesion, foot, ...(claw ? { claw } : {}) };
}

/** A doubtful reading is taken again within two weeks, by the same person with the same tool. */
export function measureAgainDue(context: DueContext): DueDraft[] {
  return context.standing.lesions
    .filter(({ standing, evidence }) => standing === 'doubtful' && evidence.date)
    .map((asking): DueDraft => {
      const day = asking.evidence.date ?? context.today;
      const by = addDays(day, fixedDays('measure-again'));
      return {
        what: 'measure-again',
        by,
        overdueFrom: addDays(by, fixedDays('written-grace')),
        who: 'trimmer',
        basis: 'record',
        why: measureAgainWhy(asking, day),
        ...placeOf(context, asking),
      };
    });
}

function measureAgainWhy({ lesion, evidence }: LesionStanding, day: CalendarDay): DueDraft['why'] {
  if (evidence.mayBeHeld && evidence.since)
    return { key: 'due.why.may-be-held', values: { day: evidence.since, lesion } };
  return { key: 'due.why.measure-again', values: { day, lesion } };
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
    .flatMap((one): DueDraft[] => {
      const last = looksAt(context.animal, one.lesion, context.today).at(-1);
      if (!last) return [];
      return (['foul-look', 'foul-look-again'] as const).flatMap((name): DueDraft[] => {
        const by = addDays(last.date, fixedDays(name));
        if (visits.some(([at, { date }]) => at > last.visit && date >= by)) return [];
        return [
          {
            what: 'foul-look',
            by,
            overdueFrom: addDays(by, fixedDays('written-grace')),
            who: 'farm',
            basis: 'default',
            why: { key: `due.why.${name}`, values: { day: last.date } },
            ...placeOf(context, one),
          },
        ];
      });
    });
}
