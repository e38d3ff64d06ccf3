import { blockTimeline } from '../healing/block-timeline.js';
import { wrapTimeline } from '../healing/fixture-span.js';
import { addDays, daysBetween, type CalendarDay } from '../record/calendar-day.js';
import { isLiftingVisit } from '../record/lifting.js';
import { farmTaskDue } from './due/farm-task-due.js';
import type { MissingEntry, MissingContext, MissingGrade, MissingId } from './missing-on-farm.js';
import type { Animal } from '../record/animal.js';
import type { Farm } from '../record/farm.js';
import { isMedicine, substancesOf } from '../reference/substances.js';
import { leftUnderWithdrawal } from './end-of-case.js';
import { type Use, type WithoutProduct, writtenPeriod } from './withheld.js';

/** A day written for the recheck has passed and no foot was lifted since the visit that wrote it. */
export function missingRecheck({ open, today }: MissingContext): MissingEntry[] {
  const written = open.findLast(([, { recheck }]) => recheck);
  const recheck = written?.[1].recheck;
  if (!written || recheck === undefined || recheck >= today) return [];
  if (open.some(([at, visit]) => at > written[0] && isLiftingVisit(visit))) return [];
  return [
    {
      id: 'gap/recheck-passed',
      grade: 'serious',
      path: ['visits', written[0], 'recheck'],
      values: { day: recheck, days: daysBetween(recheck, today) },
      closable: 'next-lift',
      since: recheck,
    },
  ];
}

/** A block that is still on, as far as is recorded, after the day it is overdue to come off. */
export function missingBlockOff({ animal, open, interval, today }: MissingContext): MissingEntry[] {
  if (open.length === 0) return [];
  return blockTimeline(animal, today)
    .on.filter(({ from }) => daysBetween(from, today) > interval('block-off-overdue'))
    .map(({ foot, claw, from, visit, at }) => ({
      id: 'gap/block-past-its-time',
      grade: 'serious',
      path: ['visits', visit, 'blocks', at],
      values: { foot, claw, day: from, days: daysBetween(from, today) },
      closable: 'next-lift',
      since: addDays(from, interval('block-off-overdue') + 1),
    }));
}

/** A wrap likewise. */
export function missingWrapOff({ animal, open, interval, today }: MissingContext): MissingEntry[] {
  if (open.length === 0) return [];
  return wrapTimeline(animal, today)
    .filter(({ end, from }) => !end && daysBetween(from, today) > interval('wrap-off-overdue'))
    .map(({ foot, from, visit, at }) => ({
      id: 'gap/wrap-past-its-time',
      grade: 'serious',
      path: ['visits', visit, 'wraps', at],
      values: { foot, day: from, days: daysBetween(from, today) },
      closable: 'by-asking',
      since: addDays(from, interval('wrap-off-overdue') + 1),
    }));
}

/** The last lifted visit without a gait score. */
export function missingGait({ open }: MissingContext): MissingEntry[] {
  const last = open.findLast(([, visit]) => isLiftingVisit(visit));
  if (!last || last[1].gait !== undefined) return [];
  const [at, { date }] = last;
  return [
    {
      id: 'gap/no-gait-score',
      grade: 'worth closing',
      path: ['visits', at],
      values: { day: date },
      closable: 'by-asking',
      since: date,
    },
  ];
}

/** Lame at lifted visits with no word on pain relief, as one entry; serious where she was ever severely lame. */
export function missingPainRelief({ open, standing }: MissingContext): MissingEntry[] {
  const without = open.flatMap(([at, visit]) => {
    const score = standing.gait.scores.find((scored) => scored.visit === at);
    const isMissing = score?.lame && visit['pain-relief'] === undefined && isLiftingVisit(visit);
    return isMissing ? [{ at, score }] : [];
  });
  const [first] = without;
  if (!first) return [];
  const { date, score } = first.score;
  return [
    {
      id: 'gap/lame-without-pain-relief-word',
      grade: without.some((one) => one.score.severe) ? 'serious' : 'worth closing',
      path: ['visits', first.at],
      values: { day: date, score, count: without.length },
      closable: 'in-the-record',
      since: date,
    },
  ];
}

/** What the farm was asked to do by a day that has passed, with no word that it did. */
export function missingTaskReports(context: MissingContext): MissingEntry[] {
  const { open, today } = context;
  if (open.length === 0) return [];
  return farmTaskDue(context)
    .filter(({ doneOn, by }) => doneOn === undefined && by < today)
    .map(({ task, by, why }) => ({
      id: 'gap/farm-task-not-reported',
      grade: 'worth closing',
      path: pathOfTask(open, task, by),
      values: { task: task ?? '', day: by, asked: why.values['day'] ?? '' },
      closable: 'by-asking',
      since: by,
    }));
}

function pathOfTask(open: MissingContext['open'], task: string | undefined, by: string): (string | number)[] {
  for (const [at, visit] of open) {
    const index = (visit['ask-farm'] ?? []).findIndex((asked) => asked.what === task && asked.by === by);
    if (index >= 0) return ['visits', at, 'ask-farm', index];
  }
  return ['visits'];
}

/** The vet was asked and no answer is recorded. */
export function missingVetAnswers({ open, today }: MissingContext): MissingEntry[] {
  const answered = new Set(open.map(([, visit]) => visit['vet-answer']?.to));
  return open.flatMap(([at, { vet }]): MissingEntry[] =>
    vet && vet.asked <= today && !answered.has(vet.asked)
      ? [
          {
            id: 'gap/vet-answer-awaited',
            grade: 'worth closing',
            path: ['visits', at, 'vet'],
            values: { day: vet.asked, reason: vet.why },
            closable: 'by-asking',
            since: vet.asked,
          },
        ]
      : [],
  );
}

/** She was not presented, and nobody wrote why. */
export function missingWhyMissed({ open }: MissingContext): MissingEntry[] {
  return open
    .filter(([, { kind, why }]) => kind === 'missed' && why === undefined)
    .map(([at, { date }]) => ({
      id: 'gap/missed-without-why',
      grade: 'minor',
      path: ['visits', at],
      values: { day: date },
      closable: 'by-asking',
      since: date,
    }));
}

/**
 * Products without batch, class, prescriber or withdrawal, in every visit, of closed cases too: the keeper must be able to
 * show them for years.
 *
 * A batch is missed only on what is, or may be, a medicine; a prescriber only where the active substance makes it one. A
 * withdrawal that was given in milkings and cannot be counted is missing of the farm, not of the visit. Of one cow, products
 * without a withdrawal are one entry, and so are those without a prescriber.
 */
export function missingOfProducts(uses: readonly Use[], farm: Farm): MissingEntry[] {
  const missing = uses.map((use) =>
    (['milk', 'meat'] as const).filter(
      (side) => writtenPeriod(use.use, side, farm['milkings-a-day']).outcome === 'not-recorded',
    ),
  );
  return [
    ...uses.flatMap((use): MissingEntry[] => [
      ...(use.use.class === undefined
        ? [entryOf([use], 'gap/product-without-class', 'worth closing', 'by-asking')]
        : []),
      ...(use.use.batch === undefined && isMedicine(use.use)
        ? [entryOf([use], 'gap/product-without-batch', 'worth closing', 'in-the-record')]
        : []),
    ]),
    ...oneEntry('gap/product-without-withdrawal', (_, at) => missing[at]!.length > 0),
    ...oneEntry(
      'gap/medicine-without-prescriber',
      ({ use }) => use['prescribed-by'] === undefined && substancesOf(use).length > 0,
    ),
  ];

  function oneEntry(id: MissingId, lacks: (use: Use, at: number) => boolean): MissingEntry[] {
    const such = uses.filter(lacks);
    if (such.length === 0) return [];
    const sides = missing[uses.indexOf(such[0]!)]!;
    const which =
      such.length > 1 || sides.length === 0 ? {} : { which: sides.length > 1 ? 'both' : sides[0]! };
    return [entryOf(such, id, 'serious', 'by-asking', which)];
  }
}

function entryOf(
  [first, ...more]: readonly Use[],
  id: MissingId,
  grade: MissingGrade,
  closable: MissingEntry['closable'],
  values: Readonly<Record<string, string>> = {},
): MissingEntry {
  const { use, visit, at, date } = first!;
  return {
    id,
    grade,
    path: ['visits', visit, 'products', at],
    values: { product: use.product, day: date, count: more.length + 1, ...values },
    closable,
    since: date,
  };
}

/** Pain relief or another medicine given and no product recorded: one entry, however often. */
export function missingProducts(given: readonly WithoutProduct[]): MissingEntry[] {
  const [first] = given;
  if (!first) return [];
  return [
    {
      id: 'gap/treated-without-product',
      grade: 'serious',
      path: ['visits', first.visit, first.why === 'treated' ? 'vet-answer' : 'pain-relief'],
      values: { day: first.day, count: given.length },
      closable: 'by-asking',
      since: first.day,
    },
  ];
}

/** She left while milk or meat was withheld, and the new keeper was not told; of one that died a note. */
export function missingAtLeaving(animal: Animal, farm: Farm, today: CalendarDay): MissingEntry[] {
  const left = leftUnderWithdrawal(animal, farm, today);
  if (!left || left.grade === 'told') return [];
  return [
    {
      id: 'gap/left-under-withdrawal',
      grade: left.grade === 'note' ? 'minor' : 'serious',
      path: ['episodes', left.episode, 'result'],
      values: { day: left.on, result: left.result, which: left.grade === 'note' ? 'dead' : left.result },
      closable: 'by-asking',
      since: left.on,
    },
  ];
}
