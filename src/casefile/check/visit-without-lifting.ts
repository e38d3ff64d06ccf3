import type { Animal } from '../../record/animal.js';
import type { Found, Visit } from '../../record/visit.js';
import { isLiftingVisit } from '../../record/lifting.js';
import type { Foot } from '../../record/words.js';
import type { Finding } from '../../problem/problem.js';
import { refuse, warn } from './check-context.js';

const lengthKeys = ['top', 'wall', 'length', 'width', 'depth', 'distance'] as const satisfies (keyof Found)[];

/** A report or a missed visit lifts no foot: nothing is measured, trimmed or cut back. */
export function checkVisitWithoutLifting({ visits }: Animal): Finding[] {
  return visits.flatMap((visit, i) =>
    isLiftingVisit(visit) ? [] : [...lengths(visit, i), ...work(visit, i), ...feetLifted(visit, i)],
  );
}

function lengths(visit: Visit, i: number): Finding[] {
  return Object.entries(visit.found ?? {}).flatMap(([name, found]) =>
    lengthKeys
      .filter((key) => found[key] !== undefined)
      .map((key) =>
        refuse(
          'length-without-lifting',
          ['visits', i, 'found', name, key],
          { name, key, kind: visit.kind },
          { at: 'key' },
        ),
      ),
  );
}

function work(visit: Visit, i: number): Finding[] {
  return (['trimmed', 'cut-back'] as const)
    .filter((key) => (visit[key] ?? []).length > 0)
    .map((key) => refuse(`${key}-without-lifting`, ['visits', i, key], { kind: visit.kind }, { at: 'key' }));
}

function feetLifted(visit: Visit, i: number): Finding[] {
  return (Object.keys(visit.feet ?? {}) as Foot[])
    .filter((foot) => visit.feet?.[foot]?.lifted)
    .map((foot) =>
      warn('lifted-without-lifting', ['visits', i, 'feet', foot, 'lifted'], { foot, kind: visit.kind }),
    );
}
