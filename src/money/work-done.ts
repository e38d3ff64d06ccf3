import { blockTimeline } from '../healing/block-timeline.js';
import { wrapTimeline } from '../healing/fixture-span.js';
import type { Animal } from '../record/animal.js';
import { type CalendarDay, compareDays, latestDay } from '../record/calendar-day.js';
import { given } from '../record/given.js';
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
  const elsewhere = (animal.earlier ?? []).filter((one) => one.farm !== undefined && one.farm !== farm);
  const came = latestDay(elsewhere.flatMap(({ until }) => until ?? []));
  return [...visits(animal), ...fittings(animal, today), ...products(animal)]
    .filter(({ date }) => date <= today && (came === undefined || date > came))
    .sort((a, b) => compareDays(a.date, b.date) || workKinds.indexOf(a.what) - workKinds.indexOf(b.what));
}

function visits(animal: Animal): PieceOfWork[] {
  return animal.visits.flatMap((one, visit) =>
    isLiftingVisit(one) ? { what: 'visit', date: one.date, visit, by: one.by } : [],
  );
}

function fittings(animal: Animal, today: CalendarDay): PieceOfWork[] {
  const of = (what: 'block' | 'wrap', spans: ReturnType<typeof wrapTimeline>) =>
    spans
      .filter(({ fitted }) => fitted)
      .map(({ from: date, visit, foot, claw, material }) => {
        return { what, date, visit, by: animal.visits[visit]!.by, foot, ...given({ claw, material }) };
      });
  return [...of('block', blockTimeline(animal, today).spans), ...of('wrap', wrapTimeline(animal, today))];
}

function products(animal: Animal): PieceOfWork[] {
  return animal.visits.flatMap(({ date, by, products: uses = [] }, visit) =>
    uses.map((product) => {
      return { what: 'product', date: product.on ?? date, visit, by: product['given-by'] ?? by, product };
    }),
  );
}
