import { blockTimeline } from '../healing/block-timeline.js';
import { wrapTimeline } from '../healing/fixture-span.js';
import type { Animal } from '../record/animal.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { isLiftingVisit } from '../record/lifting.js';
import type { ProductUse } from '../record/visit.js';
import type { BlockMaterial, Claw, Foot } from '../record/words.js';

/** Kinds of work that can have a price, in the order they are listed. */
export const workKinds = ['visit', 'block', 'wrap', 'product'] as const;
export type WorkKind = (typeof workKinds)[number];

/** One thing done to one animal on one day. */
export interface PieceOfWork {
  readonly what: WorkKind;
  readonly date: CalendarDay;
  /** Position in `animal.visits`. */
  readonly visit: number;
  /** Who did it: for a product who gave it, where that is written. */
  readonly by: string;
  readonly foot?: Foot;
  readonly claw?: Claw;
  readonly material?: BlockMaterial;
  readonly product?: ProductUse;
}

/**
 * The work done on an animal up to a day, oldest first.
 *
 * A visit is one animal lifted once. A block or a wrap counts each time one was fitted, a replacement too; one that
 * somebody else had fitted before does not. What was done on a farm she came from is that farm's.
 *
 * Shape:   her record, the farm's slug, a day → pieces
 * Checked: tests/money/work-done.test.ts
 */
export function workDone(animal: Animal, farm: string, today: CalendarDay): PieceOfWork[] {
  const came = (animal.earlier ?? [])
    .filter((former) => former.farm !== undefined && former.farm !== farm)
    .flatMap(({ until }) => until ?? [])
    .sort()
    .at(-1);
  return [...visits(animal), ...fittings(animal, today), ...products(animal)]
    .filter(({ date }) => date <= today && (came === undefined || date > came))
    .sort(
      (a, b) =>
        (a.date < b.date ? -1 : a.date > b.date ? 1 : 0) ||
        workKinds.indexOf(a.what) - workKinds.indexOf(b.what),
    );
}

function visits(animal: Animal): PieceOfWork[] {
  return [...animal.visits.entries()]
    .filter(([, visit]) => isLiftingVisit(visit))
    .map(([visit, { date, by }]) => ({ what: 'visit', date, visit, by }));
}

function fittings(animal: Animal, today: CalendarDay): PieceOfWork[] {
  const of = (what: 'block' | 'wrap', spans: ReturnType<typeof wrapTimeline>) =>
    spans
      .filter(({ fitted }) => fitted)
      .map(({ from, visit, foot, claw, material }) => ({
        what,
        date: from,
        visit,
        by: animal.visits[visit]!.by,
        foot,
        ...(claw ? { claw } : {}),
        ...(material ? { material } : {}),
      }));
  return [...of('block', blockTimeline(animal, today).spans), ...of('wrap', wrapTimeline(animal, today))];
}

function products(animal: Animal): PieceOfWork[] {
  return [...animal.visits.entries()].flatMap(([visit, { date, by, products: uses = [] }]) =>
    uses.map((product) => ({
      what: 'product',
      date: product.on ?? date,
      visit,
      by: product['given-by'] ?? by,
      product,
    })),
  );
}
