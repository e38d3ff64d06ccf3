import { looksAt } from '../../healing/looks-at-lesion.js';
import { isLiftingVisit } from '../../record/lifting.js';
import { familyOf } from '../../reference/lesions.js';
import type { Gap } from '../gap.js';
import type { GapContext } from './gap-context.js';

/**
 * A gap in the wall or an ulcer, open at its last lifted look, with no length there; and a top that does not say
 * how it was found.
 *
 * Serious where no length was ever taken, since then nothing gives a date; else worth closing. A top that could not
 * be reached (`higher`) has no length to give and is no gap.
 */
export function lengthGaps({ animal, standing, open, today }: GapContext): Gap[] {
  const from = open[0]?.[0];
  if (from === undefined) return [];
  return standing.lesions.flatMap(({ lesion, code, standing: word }): Gap[] => {
    const family = familyOf(code);
    const key = family === 'wall' ? 'top' : family === 'ulcer' ? 'width' : undefined;
    if (key === undefined || ['healed', 'lasting', 'joined'].includes(word)) return [];
    const looks = looksAt(animal, lesion, today).filter(
      ({ visit }) => visit >= from && isLiftingVisit(animal.visits[visit]!),
    );
    const last = looks.at(-1);
    if (!last) return [];
    const path = ['visits', last.visit, 'found', lesion];
    const values = { lesion, day: last.date };
    const measured = looks.filter(({ found }) => found[key] !== undefined);
    if (last.found['top-found'] !== 'higher' && last.found[key] === undefined) {
      const ulcer = key === 'width';
      // A covered ulcer has no width left to read.
      if (ulcer && last.found.state !== 'open') return [];
      const grade = measured.length === 0 ? 'serious' : 'worth closing';
      const what = ulcer ? { ...values, what: 'width' } : { ...values, what: 'top' };
      return [{ id: 'gap/no-length', grade, path, values: what, closable: 'next-lift', since: last.date }];
    }
    const lastMeasured = measured.at(-1);
    if (key !== 'top' || !lastMeasured || lastMeasured.found['top-found'] !== undefined) return [];
    return [
      {
        id: 'gap/top-found-not-said',
        grade: 'worth closing',
        path: ['visits', lastMeasured.visit, 'found', lesion],
        values: { lesion, day: lastMeasured.date },
        closable: 'in-the-record',
        since: lastMeasured.date,
      },
    ];
  });
}
