import type { CalendarDay } from '../../record/calendar-day.js';
import type { Farm, FootbathPeriod } from '../../record/farm.js';
import { copperForms, type CopperForm } from '../../record/words.js';
import { bathNames, footbathNumbers } from '../../reference/footbath-numbers.js';
import { cowsOn } from '../cow-years.js';
import { bathFills, weeksInLastYear, type BathFills } from './bath-fills.js';
import { copperOnLand, type CopperOnLand } from './copper-on-land.js';

/** Copper in so much product; with the land it goes on where that is known. */
export interface CopperIn {
  /** The form taken where none is written; absent where the form is known. */
  readonly takenAs?: CopperForm;
  readonly kgCopper: number;
  readonly land?: CopperOnLand;
}

/** One footbath period worked out. */
export interface BathSum extends BathFills {
  readonly bath: FootbathPeriod;
  /** Cows of the herd on the bath's last day up to today; absent where unknown. */
  readonly cows?: number;
  /** `copper` by its form or its name, `formaldehyde` by its name, else not known to be either. */
  readonly kind: 'copper' | 'formaldehyde' | 'other';
  /** If it goes on so for a year: one entry where the form is written, both where it is not. Empty without a quantity. */
  readonly copper: readonly CopperIn[];
}

export interface FootbathSums {
  readonly baths: readonly BathSum[];
  /** What was bathed in the 12 months up to today by all copper baths together; absent where a quantity is missing or there was none. */
  readonly lastYear?: { readonly kgProduct: number; readonly copper: readonly CopperIn[] };
  /** No hectares are written, so nothing can be said of the land. */
  readonly hectaresMissing: boolean;
}

/**
 * The footbaths of a farm worked out: fills, kilograms, copper on the land.
 *
 * Two questions, two answers. Each bath says what it takes in a year if it goes on so. The last 12 months
 * say what was bathed, each bath for the weeks it ran. Both take the recorded times a week as done.
 *
 * Shape:   farm, day → sums; baths that begin after the day are left out
 * Checked: tests/herd/footbath.test.ts (by hand)
 */
export function footbathSums(farm: Farm, today: CalendarDay): FootbathSums {
  const hectares = farm['slurry-hectares'] || undefined;
  const baths = (farm.footbath ?? [])
    .filter(({ from }) => from === undefined || from <= today)
    .map((bath): BathSum => {
      const cows = cowsOn(farm, bath.to !== undefined && bath.to < today ? bath.to : today);
      const fills = bathFills(bath, cows);
      const kind = kindOf(bath);
      const { kgAYear: kgProduct } = fills;
      const isKnown = kind === 'copper' && kgProduct !== undefined;
      const copper = isKnown ? copperIn([{ bath, kgProduct }], hectares) : [];
      return { bath, ...(cows === undefined ? {} : { cows }), kind, ...fills, copper };
    });
  const lastYear = inLastYear(
    baths.filter(({ kind }) => kind === 'copper'),
    hectares,
    today,
  );
  return { baths, ...(lastYear ? { lastYear } : {}), hectaresMissing: hectares === undefined };
}

/** A written form is a form of copper. A trade name that says nothing is asked about, not guessed. */
function kindOf({ product, form }: FootbathPeriod): BathSum['kind'] {
  const name = product.toLowerCase();
  if (form || bathNames.copper.some((part) => name.includes(part))) return 'copper';
  return bathNames.formaldehyde.some((part) => name.includes(part)) ? 'formaldehyde' : 'other';
}

interface Bathed {
  readonly bath: FootbathPeriod;
  readonly kgProduct: number;
}

/** Where a bath's form is not written, both answers are given: all such baths taken as the one, then as the other. */
function copperIn(baths: readonly Bathed[], hectares: number | undefined): CopperIn[] {
  const isClear = baths.every(({ bath }) => bath.form !== undefined);
  return (isClear ? [undefined] : copperForms).map((takenAs) => {
    const kgCopper = baths.reduce((sum, { bath, kgProduct }) => {
      const form = bath.form ?? takenAs;
      return form ? sum + kgProduct * footbathNumbers.copperOf[form].value : sum;
    }, 0);
    const land = hectares !== undefined && kgCopper > 0 ? { land: copperOnLand(kgCopper, hectares) } : {};
    return { ...(takenAs ? { takenAs } : {}), kgCopper, ...land };
  });
}

function inLastYear(
  baths: readonly BathSum[],
  hectares: number | undefined,
  today: CalendarDay,
): FootbathSums['lastYear'] {
  const ran = baths.filter(({ bath }) => weeksInLastYear(bath, today) > 0);
  const bathed = ran.flatMap(({ bath, kgPerFill, fillsPerWeek }) =>
    kgPerFill === undefined || fillsPerWeek === undefined
      ? []
      : [{ bath, kgProduct: kgPerFill * fillsPerWeek * weeksInLastYear(bath, today) }],
  );
  if (ran.length === 0 || bathed.length < ran.length) return undefined;
  return {
    kgProduct: bathed.reduce((sum, { kgProduct }) => sum + kgProduct, 0),
    copper: copperIn(bathed, hectares),
  };
}
