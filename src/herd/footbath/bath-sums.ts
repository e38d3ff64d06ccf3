import { footbathNumbers, bathNames } from '../../reference/numbers.js';
import { type CalendarDay, addDays, daysBetween } from '../../record/calendar-day.js';
import type { Farm, FootbathPeriod } from '../../record/farm.js';
import { copperForms, type CopperForm } from '../../record/words.js';
import { cowsOn } from '../cow-years.js';
import { twelveMonthsTo } from '../../record/period.js';
import { given } from '../../record/given.js';

/** What copper does to the land it is spread on, if it goes on as it is. */
export interface CopperOnLand {
  /** kg copper a hectare and year. */
  readonly kgPerHectare: number;
  /** Rise of the soil a year, mg/kg: with all that crops can take off gone, and with nothing taken off. */
  readonly risePerYear: { readonly least: number; readonly most: number };
  /** Years until the soil has risen by the step asked for; `most` is Infinity where crops may take it all off. */
  readonly yearsUntilRise: { readonly riseMgPerKg: number; readonly least: number; readonly most: number };
  /** Years until the load on the land reaches the US limit for sewage sludge, by analogy. */
  readonly yearsUntilLoad: { readonly kgPerHectare: number; readonly years: number };
}

/**
 * Copper from a footbath on the land that takes the slurry.
 *
 * The layer of 20 cm and 1.3 t a m³ weighs 2600 t a hectare, so 1 kg of copper raises it by 0.385 mg/kg. All copper is taken to reach the
 * slurry and to stay in that layer, but for what crops take off: between nothing and 0.6 kg a hectare and year.
 * What the soil holds to begin with only its analysis tells.
 *
 * Unit:    kg copper a year; hectares; mg/kg; years
 * Valid:   hectares above 0, a step above 0
 * Error:   RangeError
 * Source:  shared/footbath.json
 * Checked: tests/herd/footbath.test.ts (by hand)
 */
export function copperOnLand(
  kgCopperAYear: number,
  hectares: number,
  riseMgPerKg: number = footbathNumbers.soilRise.value,
): CopperOnLand {
  if (!(hectares > 0 && riseMgPerKg > 0))
    throw new RangeError(`${hectares} ha, a rise of ${riseMgPerKg}: both must be above 0`);
  const kgPerHectare = kgCopperAYear / hectares;
  const least = Math.max(0, kgPerHectare - footbathNumbers.cropsTakeOff.value) * mgPerKgOfOneKg;
  const most = kgPerHectare * mgPerKgOfOneKg;
  const load = footbathNumbers.usLoadLimit.value;
  return {
    kgPerHectare,
    risePerYear: { least, most },
    yearsUntilRise: { riseMgPerKg, least: riseMgPerKg / most, most: riseMgPerKg / least },
    yearsUntilLoad: { kgPerHectare: load, years: load / kgPerHectare },
  };
}

const squareMetresAHectare = 10_000;
const soilTonnesAHectare =
  squareMetresAHectare * (footbathNumbers.soilDepth.value / 100) * footbathNumbers.soilDensity.value;

/** 1 kg is 1,000,000 mg and 1 t is 1000 kg. */
const mgPerKgOfOneKg = 1_000_000 / (soilTonnesAHectare * 1000);

/** Copper in so much product; with the land it goes on where that is known. */
export interface CopperIn {
  /** The form taken where none is written; absent where the form is known. */
  readonly takenAs?: CopperForm;
  readonly kgCopper: number;
  readonly land?: CopperOnLand;
}

/** One footbath period worked out. */
export interface BathSum extends ReturnType<typeof bathFills> {
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
      return { bath, ...given({ cows }), kind, ...fills, copper };
    });
  const lastYear = inLastYear(baths, hectares, today);
  return { baths, ...given({ lastYear }), hectaresMissing: hectares === undefined };
}

/** A written form is a form of copper. A trade name that says nothing is asked about, not guessed. */
function kindOf({ product, form }: FootbathPeriod): BathSum['kind'] {
  const name = product.toLowerCase();
  if (form || bathNames.copper.some((part) => name.includes(part))) return 'copper';
  return bathNames.formaldehyde.some((part) => name.includes(part)) ? 'formaldehyde' : 'other';
}

type Bathed = Readonly<{ bath: FootbathPeriod; kgProduct: number }>;

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
  const ran = baths.filter(({ kind, bath }) => kind === 'copper' && weeksInLastYear(bath, today) > 0);
  const bathed = ran.flatMap(({ bath, kgPerFill, fillsPerWeek }) =>
    kgPerFill === undefined || fillsPerWeek === undefined
      ? []
      : [{ bath, kgProduct: kgPerFill * fillsPerWeek * weeksInLastYear(bath, today) }],
  );
  if (ran.length === 0 || bathed.length < ran.length) return undefined;
  const kgProduct = bathed.reduce((sum, one) => sum + one.kgProduct, 0);
  return { kgProduct, copper: copperIn(bathed, hectares) };
}

/** What must be written before a bath's product a year can be worked out. */
type MissingOfBath = 'strength' | 'litres' | 'cows-per-fill' | 'times-a-week' | 'cows';

/**
 * Fills and kilograms of one footbath period: in one fill, for one week of bathing, for the weeks of a year it is bathed. What
 * cannot be worked out is absent, and `missing` says why.
 *
 * Why the weeks: a bath with both ends written, such as the housed months, is taken to run so once a year; one that
 * is open at an end runs all the year. Part fills count as parts: over a year they add up to whole ones.
 *
 * Shape:   a period and the cows that go through it → kg a fill, fills, kg a year
 * Unit:    strength in kg per 100 litres, as % is used of a bath; kg; weeks of 7 days
 * Valid:   `cows-per-fill` above 0; 0 counts as not written
 * Source:  shared/footbath.json
 * Checked: tests/herd/footbath.test.ts (by hand)
 */
export function bathFills(bath: FootbathPeriod, cows: number | undefined) {
  const { strength, litres, 'times-a-week': times } = bath;
  const perFill = bath['cows-per-fill'] || undefined;
  const kgPerFill = litres === undefined || strength === undefined ? undefined : (litres * strength) / 100;
  const isKnown = cows !== undefined && times !== undefined && perFill !== undefined;
  const fillsPerWeek = isKnown ? (cows * times) / perFill : undefined;
  const weeksAYear = weeksOf(bath);
  const fillsAYear = fillsPerWeek === undefined ? undefined : fillsPerWeek * weeksAYear;
  const kgAYear = fillsAYear === undefined || kgPerFill === undefined ? undefined : fillsAYear * kgPerFill;
  const asked = { strength, litres, 'cows-per-fill': perFill, 'times-a-week': times, cows };
  const names = Object.keys(asked) as MissingOfBath[];
  return {
    ...given({ kgPerFill, fillsPerWeek }),
    weeksAYear,
    ...given({ fillsAYear, kgAYear }),
    missing: names.filter((name) => asked[name] === undefined),
  };
}

function weeksOf({ from, to }: FootbathPeriod): number {
  const wholeYear = footbathNumbers.weeksAYear.value;
  if (!from || !to) return wholeYear;
  return Math.min(wholeYear, Math.max(0, daysBetween(from, addDays(to, 1)) / 7));
}

/**
 * Weeks of a period that fall within the 12 months up to a day, that day included.
 *
 * Valid:   a period without `from` ran all the time before
 * Checked: tests/herd/footbath.test.ts
 */
export function weeksInLastYear({ from, to }: FootbathPeriod, today: CalendarDay): number {
  const start = twelveMonthsTo(today).from;
  const first = from !== undefined && from > start ? from : start;
  const last = to !== undefined && to < today ? to : today;
  return Math.max(0, daysBetween(first, last) + 1) / 7;
}
