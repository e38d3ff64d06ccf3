import type { Animal } from '../../record/animal.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import type { Farm } from '../../record/farm.js';
import type { Gap, GapGrade, GapId } from '../gap.js';
import { isMedicine, substancesOf } from '../../reference/substances.js';
import { leftUnderWithdrawal } from '../end-of-case.js';
import { type Use, type WithoutProduct, writtenPeriod } from '../withheld.js';

/**
 * Products without batch, class, prescriber or withdrawal, in every visit, of closed cases too: the keeper must be able to
 * show them for years.
 *
 * A batch is missed only on what is, or may be, a medicine; a prescriber only where the active substance makes it one. A
 * withdrawal that was given in milkings and cannot be counted is the farm's gap, not the visit's. Of one cow, products
 * without a withdrawal are one gap, and so are those without a prescriber.
 */
export function productGaps(uses: readonly Use[], farm: Farm): Gap[] {
  const missing = uses.map((use) =>
    (['milk', 'meat'] as const).filter(
      (side) => writtenPeriod(use.use, side, farm['milkings-a-day']).outcome === 'not-recorded',
    ),
  );
  return [
    ...uses.flatMap((use): Gap[] => [
      ...(use.use.class === undefined
        ? [gapOf([use], 'gap/product-without-class', 'worth closing', 'by-asking')]
        : []),
      ...(use.use.batch === undefined && isMedicine(use.use)
        ? [gapOf([use], 'gap/product-without-batch', 'worth closing', 'in-the-record')]
        : []),
    ]),
    ...oneGap('gap/product-without-withdrawal', (_, at) => missing[at]!.length > 0),
    ...oneGap(
      'gap/medicine-without-prescriber',
      ({ use }) => use['prescribed-by'] === undefined && substancesOf(use).length > 0,
    ),
  ];

  function oneGap(id: GapId, lacks: (use: Use, at: number) => boolean): Gap[] {
    const such = uses.filter(lacks);
    if (such.length === 0) return [];
    const sides = missing[uses.indexOf(such[0]!)]!;
    const which =
      such.length > 1 || sides.length === 0 ? {} : { which: sides.length > 1 ? 'both' : sides[0]! };
    return [gapOf(such, id, 'serious', 'by-asking', which)];
  }
}

function gapOf(
  [first, ...more]: readonly Use[],
  id: GapId,
  grade: GapGrade,
  closable: Gap['closable'],
  values: Readonly<Record<string, string>> = {},
): Gap {
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

/** Pain relief or another medicine given and no product recorded: one gap, however often. */
export function treatedGaps(given: readonly WithoutProduct[]): Gap[] {
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
export function leftGaps(animal: Animal, farm: Farm, today: CalendarDay): Gap[] {
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
