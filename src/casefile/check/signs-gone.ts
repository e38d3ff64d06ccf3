import type { Animal } from '../../record/animal.js';
import type { Found } from '../../record/found.js';
import { isLeftDown, isLiftingVisit } from '../../record/lifting.js';
import type { FootFinding, Visit } from '../../record/visit.js';
import type { Foot } from '../../record/words.js';
import type { Finding } from '../finding.js';
import { refuse } from './finding-at.js';

/**
 * A sign is gone only where somebody had a hand on the foot, and not where it was seen at the same look.
 *
 * Word from the farm, a cow not presented or a foot left on the ground clears nothing.
 */
export function checkSignsGone(animal: Animal): Finding[] {
  return animal.visits.flatMap((visit, i) => [
    ...Object.entries(visit.feet ?? {}).flatMap(([foot, finding]) =>
      goneAt(visit, i, ['feet', foot], finding, isLeftDown(visit, foot as Foot)),
    ),
    ...Object.entries(visit.found ?? {}).flatMap(([name, found]) =>
      goneAt(visit, i, ['found', name], found, isFoundLeftDown(animal, visit, name, found)),
    ),
  ]);
}

function isFoundLeftDown(animal: Animal, visit: Visit, name: string, found: Found): boolean {
  const foot = Object.hasOwn(animal.lesions, name) ? animal.lesions[name]?.foot : undefined;
  return foot === undefined
    ? !isLiftingVisit(visit) || found.lifted === false
    : isLeftDown(visit, foot, found);
}

function goneAt(
  { kind }: Visit,
  i: number,
  at: readonly [string, string],
  { signs = [], gone = [] }: Pick<FootFinding, 'signs' | 'gone'>,
  isDown: boolean,
): Finding[] {
  const path = ['visits', i, ...at, 'gone'];
  const called = at.join('.');
  if (gone.length > 0 && isDown)
    return [
      refuse(
        'gone-without-lifting',
        path,
        `${called}.gone says ${gone.join(', ')} gone, and ${
          kind === 'report' || kind === 'missed' ? `a ${kind} visit lifts no foot` : 'it was not lifted'
        }; only hands on the foot clear a sign`,
        'put what was told in `note`, or correct `kind` or `lifted`',
        'key',
      ),
    ];
  return gone.flatMap((sign, nth) =>
    signs.includes(sign)
      ? [
          refuse(
            'seen-and-gone',
            [...path, nth],
            `${called} has ${sign} under \`signs\` and under \`gone\`, expected it under one of the two`,
            'take it out where it does not hold',
          ),
        ]
      : [],
  );
}
