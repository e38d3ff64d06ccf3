import type { Animal } from '../../record/animal.js';
import type { Finding } from '../finding.js';
import { declaredIn } from './declared-names.js';
import { refuse, warn } from './finding-at.js';
import { lesionLooks, type LesionLook } from './look.js';

/** `joined`: a wall gap that ran into another on the same claw is followed there and nowhere else. */
export function checkJoinedLesions(animal: Animal): Finding[] {
  const looks = lesionLooks(animal);
  const joinedTo = new Map<string, string>();
  return looks.flatMap((look) => {
    const into = look.found.joined;
    if (into === undefined) return followedOn(look, joinedTo.get(look.name));
    joinedTo.set(look.name, into);
    const wrong = wrongPartner(animal, look, into) ?? circle(look, into, joinedTo);
    return wrong ? [wrong] : [];
  });
}

function wrongPartner(
  animal: Animal,
  { name, declared, path }: LesionLook,
  into: string,
): Finding | undefined {
  const at = [...path, 'joined'];
  if (into === name)
    return refuse(
      'joined-itself',
      at,
      `${name} is joined to itself, expected another lesion`,
      'name the lesion it ran into',
    );
  const other = Object.hasOwn(animal.lesions, into) ? animal.lesions[into] : undefined;
  if (!other)
    return refuse(
      'joined-undeclared',
      at,
      `${name} is joined to ${into}, which is no lesion of this file; ${declaredIn(animal.lesions, 'lesion')}`,
      'name the lesion it ran into as it is declared under `lesions`',
    );
  if (other.foot !== declared.foot)
    return refuse(
      'joined-other-foot',
      at,
      `${name} on ${declared.foot} is joined to ${into} on ${other.foot}, expected a lesion on the same foot`,
      'name the lesion it ran into, or correct the foot',
    );
  if (other.claw && declared.claw && other.claw !== declared.claw)
    return refuse(
      'joined-other-claw',
      at,
      `${name} on the ${declared.claw} claw is joined to ${into} on the ${other.claw} claw, expected the same claw`,
      'name the lesion it ran into, or correct the claw',
    );
  return undefined;
}

function circle(
  { name, path }: LesionLook,
  into: string,
  joinedTo: ReadonlyMap<string, string>,
): Finding | undefined {
  const passed = new Set([name]);
  for (let next: string | undefined = into; next !== undefined; next = joinedTo.get(next)) {
    if (next === name)
      return refuse(
        'joined-in-a-circle',
        [...path, 'joined'],
        `${name} is joined to ${into}, which was joined to ${name} before, expected one that is followed on`,
        'keep `joined` on the lesion that is no longer followed, and take it off the other',
      );
    if (passed.has(next)) return undefined;
    passed.add(next);
  }
  return undefined;
}

function followedOn({ name, found, path }: LesionLook, into: string | undefined): Finding[] {
  if (into === undefined || (found.top === undefined && found.wall === undefined)) return [];
  return [
    warn(
      'measured-after-joined',
      path,
      `${name} is measured after it was joined to ${into}, expected its lengths under ${into}`,
      `write the lengths under ${into}, or take \`joined\` off if the two are still apart`,
      'key',
    ),
  ];
}
