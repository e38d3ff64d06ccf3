import type { Animal } from '../../record/animal.js';
import type { Found } from '../../record/found.js';
import { isLiftingVisit } from '../../record/lifting.js';
import type { Visit } from '../../record/visit.js';
import type { Foot } from '../../record/words.js';
import type { Finding } from '../finding.js';
import { refuse } from './finding-at.js';

const lengthKeys = ['top', 'wall', 'length', 'width', 'depth', 'distance'] as const satisfies (keyof Found)[];

/** Where a foot stayed on the ground at a visit that lifted others, nothing of it is measured, trimmed or cut back. */
export function checkFootLeftDown(animal: Animal): Finding[] {
  return animal.visits.flatMap((visit, i) =>
    isLiftingVisit(visit)
      ? [...lengths(animal, visit, i), ...trimmed(visit, i), ...cutBack(animal, visit, i)]
      : [],
  );
}

function lengths(animal: Animal, visit: Visit, i: number): Finding[] {
  return Object.entries(visit.found ?? {}).flatMap(([name, found]) => {
    const foot = footOf(animal, name);
    const footDown = foot !== undefined && isDown(visit, foot);
    const path = ['visits', i, 'found', name];
    if (footDown && found.lifted)
      return [
        refuse(
          'lifted-both-ways',
          [...path, 'lifted'],
          `found.${name} says lifted, and feet.${foot} says it was not; expected one answer`,
          `correct \`lifted\` on ${name} or on ${foot}`,
        ),
      ];
    if (!footDown && found.lifted !== false) return [];
    return lengthKeys
      .filter((key) => found[key] !== undefined)
      .map((key) =>
        refuse(
          'length-on-foot-left-down',
          [...path, key],
          `found.${name}.${key} is measured, and ${footDown ? `feet.${foot}` : name} says lifted: false`,
          'take the length out, or correct `lifted`',
          'key',
        ),
      );
  });
}

function trimmed(visit: Visit, i: number): Finding[] {
  return (visit.trimmed ?? []).flatMap((foot, at) =>
    isDown(visit, foot)
      ? [
          refuse(
            'trimmed-foot-left-down',
            ['visits', i, 'trimmed', at],
            `${foot} is trimmed, and feet.${foot} says lifted: false`,
            'take the foot out of `trimmed`, or correct `lifted`',
          ),
        ]
      : [],
  );
}

function cutBack(animal: Animal, visit: Visit, i: number): Finding[] {
  return (visit['cut-back'] ?? []).flatMap((name, at) => {
    const foot = footOf(animal, name);
    if (!(foot && isDown(visit, foot)) && visit.found?.[name]?.lifted !== false) return [];
    return [
      refuse(
        'cut-back-foot-left-down',
        ['visits', i, 'cut-back', at],
        `${name} is cut back, and its foot was not lifted at this visit`,
        'take it out of `cut-back`, or correct `lifted`',
      ),
    ];
  });
}

function footOf(animal: Animal, name: string): Foot | undefined {
  if (Object.hasOwn(animal.lesions, name)) return animal.lesions[name]?.foot;
  return Object.hasOwn(animal.marks ?? {}, name) ? animal.marks?.[name]?.foot : undefined;
}

function isDown(visit: Visit, foot: Foot): boolean {
  return visit.feet?.[foot]?.lifted === false;
}
