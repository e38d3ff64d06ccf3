import type { Animal } from '../../record/animal.js';
import type { Lesion } from '../../record/lesion.js';
import type { Finding } from '../finding.js';
import { declaredIn } from './declared-names.js';
import { refuse, warn } from './finding-at.js';
import { lesionLooks } from './look.js';

/** `again-of`: the same place broke down again, after it had healed. */
export function checkLesionsAgain(animal: Animal): Finding[] {
  return Object.entries(animal.lesions).flatMap(([name, lesion]) => {
    const of = lesion['again-of'];
    return of === undefined ? [] : [...wrongPlace(animal, name, lesion, of), ...notHealed(animal, name, of)];
  });
}

function wrongPlace(animal: Animal, name: string, lesion: Lesion, of: string): Finding[] {
  const path = ['lesions', name, 'again-of'];
  const earlier = Object.hasOwn(animal.lesions, of) ? animal.lesions[of] : undefined;
  if (of === name)
    return [
      refuse(
        'again-of-itself',
        path,
        `${name} is again-of itself, expected the lesion that healed before`,
        'name the lesion that healed before, or leave `again-of` out',
      ),
    ];
  if (!earlier)
    return [
      refuse(
        'again-of-undeclared',
        path,
        `${name} is again-of ${of}, which is no lesion of this file; ${declaredIn(animal.lesions, 'lesion')}`,
        'name the lesion that healed before, as it is declared',
      ),
    ];
  if (earlier.foot !== lesion.foot)
    return [
      refuse(
        'again-of-other-foot',
        path,
        `${name} on ${lesion.foot} is again-of ${of} on ${earlier.foot}, expected the same foot`,
        'correct the foot, or leave `again-of` out: on another foot it is a new lesion',
      ),
    ];
  const circle = circleOf(animal, name);
  // Told once, at the one declared last.
  if (circle.length > 0 && Object.keys(animal.lesions).findLast((each) => circle.includes(each)) !== name)
    return [];
  if (circle.length > 0)
    return [
      refuse(
        'again-of-in-a-circle',
        path,
        `${name} is again-of ${of}, and by that again-of itself, expected the earlier one last`,
        'keep `again-of` on the later lesion only',
      ),
    ];
  if (earlier.claw && lesion.claw && earlier.claw !== lesion.claw)
    return [
      warn(
        'again-of-other-claw',
        path,
        `${name} on the ${lesion.claw} claw is again-of ${of} on the ${earlier.claw} claw, expected the same place`,
        'correct the claw, or leave `again-of` out',
      ),
    ];
  return [];
}

/** The lesions that follow on from a lesion and lead back to it; empty where none do. */
function circleOf(animal: Animal, name: string): string[] {
  const passed: string[] = [];
  let next = animal.lesions[name]?.['again-of'];
  while (next !== undefined && !passed.includes(next)) {
    passed.push(next);
    if (next === name) return passed;
    next = Object.hasOwn(animal.lesions, next) ? animal.lesions[next]?.['again-of'] : undefined;
  }
  return [];
}

/** The earlier lesion should have been seen healed before the later one was first found. */
function notHealed(animal: Animal, name: string, of: string): Finding[] {
  if (!Object.hasOwn(animal.lesions, of) || circleOf(animal, name).length > 0) return [];
  const looks = lesionLooks(animal);
  const first = looks.find((look) => look.name === name);
  if (!first) return [];
  const last = looks.findLast(
    ({ name: looked, visitAt, found }) =>
      looked === of && visitAt <= first.visitAt && (found.state !== undefined || found.stage !== undefined),
  );
  if (last?.found.state === 'healed' || last?.found.stage === 'M0') return [];
  return [
    warn(
      'again-of-not-healed',
      ['lesions', name, 'again-of'],
      `${name} is again-of ${of}, which was not seen healed before ${first.visit.date}`,
      `write the visit at which ${of} was healed, or follow it on under ${of}`,
    ),
  ];
}
