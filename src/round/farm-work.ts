import type { Business } from '../record/business.js';
import type { FarmRecord } from '../record/practice.js';
import type { CaseWork } from '../schedule/case-work.js';
import { type Words, wordsOf } from '../words/words.js';

/** One farm with its cases worked out for a day, and the business that looks after it. Nothing of another farm. */
export interface FarmWork {
  readonly record: FarmRecord;
  readonly business: Business;
  readonly cases: readonly CaseWork[];
}

/** The words a farm is written to in: its own language, else the business's. */
export function wordsOfFarm({ record, business }: Pick<FarmWork, 'record' | 'business'>): Words {
  return wordsOf(record.farm.language ?? business.language ?? 'en-GB');
}
