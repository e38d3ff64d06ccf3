import { growingConditions } from '../../src/growth/growth-line.js';
import { growthOfAnimal, publishedPrior } from '../../src/growth/growth-of-animal.js';
import { standingOfCase } from '../../src/healing/standing-of-case.js';
import type { CaseStanding } from '../../src/healing/standing.js';
import type { Animal } from '../../src/record/animal.js';
import type { Business } from '../../src/record/business.js';
import type { Farm } from '../../src/record/farm.js';
import type { CaseRecord, FarmRecord } from '../../src/record/practice.js';
import type { Visit } from '../../src/record/visit.js';
import type { DueItem } from '../../src/schedule/due/due-item.js';
import { dueItems } from '../../src/schedule/due-items.js';
import type { MissingEntry } from '../../src/schedule/missing-on-farm.js';
import { missingInCase } from '../../src/schedule/missing-in-case.js';
import type { Notice } from '../../src/schedule/notices/notice-rule.js';
import { noticesOfCase } from '../../src/schedule/notices-of-case.js';

const source = { file: 'cases/quernholt/2041.md', placeOf: () => ({ line: 1, column: 1 }) };

/** A visit with only what a test is about. */
export function visit(date: string, more: Partial<Visit> = {}): Visit {
  return { date, by: 'Orla Venn', kind: 'recheck', ...more };
}

/** An invented cow: a wall gap `a` on the outer claw of the left hind foot, unless the test says otherwise. */
export function cow(visits: readonly Visit[], more: Partial<Animal> = {}): Animal {
  return {
    casefile: 1,
    animal: '2041',
    calvings: ['2022-09-02', '2023-09-30', '2024-10-19'],
    lesions: { a: { code: 'WL', foot: 'LH', claw: 'outer', line: 'heel' } },
    visits: [...visits],
    ...more,
  };
}

export const quernholt: Farm = { farm: 'Quernholt', 'gait-scale': 'uk-0-3', 'milkings-a-day': 2 };

export interface Worked {
  readonly standing: CaseStanding;
  readonly notices: readonly Notice[];
  readonly due: readonly DueItem[];
  readonly missing: readonly MissingEntry[];
}

/** All that is worked out of one case on a day, as the book works it out. */
export function workOut(
  animal: Animal,
  today: string,
  farm: Farm = quernholt,
  business: Business = {},
  isPictureThere?: (file: string) => boolean,
): Worked {
  const record: CaseRecord = { slug: '2041', animal, narrative: '', source };
  const farmRecord: FarmRecord = { slug: 'quernholt', farm, narrative: '', source, cases: [record] };
  const growth = growthOfAnimal(animal, growingConditions(farm), { today, prior: publishedPrior });
  const standing = standingOfCase(record, farmRecord, growth, today);
  const notices = noticesOfCase(record, farmRecord, growth, standing, today);
  const due = dueItems(record, farmRecord, business, growth, standing, notices, today);
  const known = { farmRecord, business, standing, today, ...(isPictureThere ? { isPictureThere } : {}) };
  return { standing, notices, due, missing: missingInCase(record, known) };
}
