import { growingConditions } from '../growth/growth-line.js';
import { growthOfAnimal } from '../growth/growth-of-animal.js';
import type { Prior } from '../growth/what-is-known.js';
import { closingsOf, withoutDate } from '../healing/closing/closing-of-ulcer.js';
import { standingOfCase } from '../healing/standing-of-case.js';
import type { Animal } from '../record/animal.js';
import type { CaseRecord, FarmRecord } from '../record/practice.js';
import { given } from '../record/given.js';
import { calvingNear } from './calving.js';
import type { CaseWork } from './case-work.js';
import { dueItems } from './due-items.js';
import { missingInCase, type MissingKnown } from './missing-in-case.js';
import { nextLift } from './next-lift.js';
import type { Notice } from './notices/notice-rule.js';
import { noticesOfCase } from './notices-of-case.js';
import { leftUnderWithdrawal } from './end-of-case.js';
import { withheldOf } from './withheld.js';
import type { Priors } from '../growth/learning/priors-for.js';
import type { DueItem } from './due/due-item.js';
import { isTrimmers, stopWorkOf } from './stop-work.js';

/** What a case is worked out with, besides its file and its farm. */
export interface CaseKnown extends Pick<MissingKnown, 'business' | 'today' | 'isPictureThere'> {
  /** What is held of her growth beforehand. */
  readonly prior: Prior;
}

/** All that is worked out on one case for a day: growth, closing, standing, what is withheld and due, for the vet, missing. */
export function workOutCase(farm: FarmRecord, record: CaseRecord, known: CaseKnown): CaseWork {
  const { business, today, prior, isPictureThere } = known;
  const { animal } = record;
  const conditions = growingConditions(farm.farm);
  const followed = growthOfAnimal(animal, conditions, { today, prior });
  const standing = standingOfCase(record, farm, followed, today);
  const notices = noticesOfCase(record, farm, followed, standing, today);
  const underNotice = lesionsUnderNotice(animal, notices);
  const growth =
    underNotice.size === 0 ? followed : growthOfAnimal(animal, conditions, { today, prior, underNotice });
  const due = dueItems(record, farm, business, growth, standing, notices, today);
  const lift = nextLift(farm.farm, { due }, today);
  const isLifted = !standing.closed || lift !== undefined;
  return {
    record,
    growth,
    closings: closingsOf(animal, today).map((closing) =>
      underNotice.has(closing.lesion) ? withoutDate(closing) : closing,
    ),
    standing,
    withheld: withheldOf(animal, farm.farm, today),
    ...given({ left: leftUnderWithdrawal(animal, farm.farm, today) }),
    due,
    notices,
    missing: missingInCase(record, {
      farmRecord: farm,
      business,
      standing,
      today,
      ...given({ isPictureThere }),
    }),
    ...given({ calvingNear: isLifted ? calvingNear(animal, [today, lift ?? today]) : undefined }),
  };
}

/**
 * Lesions of which no date may be given: a notice for the same day, or one that stops work, is on the lesion, on
 * its foot or on the animal.
 *
 * Checked: tests/schedule/no-date-under-notice.test.ts
 */
export function lesionsUnderNotice(
  { lesions }: Pick<Animal, 'lesions'>,
  notices: readonly Pick<Notice, 'standing' | 'urgency' | 'lesion' | 'foot'>[],
): ReadonlySet<string> {
  const standing = notices.filter((notice) => notice.standing && notice.urgency !== 'notice');
  const covers = ({ lesion, foot }: (typeof standing)[number], name: string) =>
    lesion === undefined ? foot === undefined || foot === lesions[name]?.foot : lesion === name;
  return new Set(Object.keys(lesions).filter((name) => standing.some((notice) => covers(notice, name))));
}

/**
 * All cases of a farm worked out for a day, in the order of their files, each with what is held of her beforehand.
 * While work has stopped, the trimmer's jobs there are suspended.
 */
export function workOutFarm(
  farm: FarmRecord,
  { priors, ...known }: Omit<CaseKnown, 'prior'> & { readonly priors: Pick<Priors, 'priorOf'> },
): CaseWork[] {
  const cases = farm.cases.map((record) =>
    workOutCase(farm, record, { ...known, prior: priors.priorOf(farm.slug, record.slug) }),
  );
  const stop = stopWorkOf(cases);
  const suspended = (item: DueItem): DueItem =>
    isTrimmers(item) ? { ...item, standing: 'suspended' } : item;
  return stop ? cases.map((one) => ({ ...one, stop, due: one.due.map(suspended) })) : cases;
}
