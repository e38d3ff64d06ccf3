import { publishedPrior } from '../../src/growth/growth-of-animal.js';
import type { Animal } from '../../src/record/animal.js';
import type { Business } from '../../src/record/business.js';
import type { Farm } from '../../src/record/farm.js';
import type { FarmRecord } from '../../src/record/practice.js';
import type { CaseWork } from '../../src/schedule/case-work.js';
import { workOutCase } from '../../src/schedule/work-out-case.js';
import { herd } from '../herd/invented-herd.js';

/** An invented business; nobody is named, so all work is its own. */
export const priced: Business = {
  prices: { currency: 'GBP', visit: 45, block: 14.5, wrap: 4, 'milk-litre': 0.38 },
};

export const milking: Partial<Farm> = { 'milkings-a-day': 2, 'milk-litres': 29 };

/** One cow of a farm, all worked out for a day from published rates. */
export function worked(
  animal: Animal,
  today: string,
  { farm = milking, business = priced }: { farm?: Partial<Farm>; business?: Business } = {},
): { readonly farm: FarmRecord; readonly work: CaseWork } {
  const record = herd('quernholt', [animal], farm);
  const work = workOutCase(record, record.cases[0]!, { business, today, prior: publishedPrior });
  return { farm: record, work };
}
