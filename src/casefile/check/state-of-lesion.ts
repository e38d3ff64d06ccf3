import type { Animal } from '../../record/animal.js';
import { isLeftDown } from '../../record/lifting.js';
import type { DdStage, LesionState } from '../../record/words.js';
import { lesionKinds } from '../../reference/lesions.js';
import type { Finding } from '../finding.js';
import { refuse } from './finding-at.js';
import { lesionLooks, type LesionLook } from './look.js';
import { oneOf } from './one-of.js';

/** Every look at a lifted foot says how the lesion stands, in a word its code has, and says it once. */
export function checkStateOfLesion(animal: Animal): Finding[] {
  return lesionLooks(animal).flatMap((look) => [
    ...missing(look),
    ...wordOfAnotherCode(look),
    ...againstStage(look),
  ]);
}

function missing({ name, found, visit, declared, code, path }: LesionLook): Finding[] {
  // Joined says it: the gap is followed under the other name from here on.
  if (found.state ?? found.stage ?? found.joined) return [];
  if (isLeftDown(visit, declared.foot, found)) return [];
  const kind = lesionKinds[code];
  const wanted = kind.measures.has('stage') ? '`stage`' : `\`state\` (${oneOf(kind.states)})`;
  return [
    refuse(
      'state-missing',
      path,
      `found.${name} of ${visit.date} has no ${kind.measures.has('stage') ? 'stage' : 'state'}, expected ${wanted}`,
      'say how it stands; if the foot was not lifted, write `lifted: false`',
      'key',
    ),
  ];
}

function wordOfAnotherCode({ name, found, code, path }: LesionLook): Finding[] {
  const kind = lesionKinds[code];
  if (found.state === undefined || kind.states.has(found.state)) return [];
  return [
    refuse(
      'state-not-for-code',
      [...path, 'state'],
      `found.${name}.state is ${found.state}, expected ${oneOf(kind.states)} for ${kind.name} (${code})`,
      'use a word of this code, or correct the code',
    ),
  ];
}

/** What may be written beside a stage: active is open, quiet is open or covered, M0 is healed. */
const statesBeside: Readonly<Record<DdStage, readonly LesionState[]>> = {
  M0: ['healed'],
  M1: ['open'],
  M2: ['open'],
  'M4.1': ['open'],
  M3: ['open', 'covered'],
  M4: ['open', 'covered'],
};

function againstStage({ name, found, code, path }: LesionLook): Finding[] {
  if (!found.stage || !found.state || lesionKinds[code].family !== 'dermatitis') return [];
  const fitting = statesBeside[found.stage];
  if (fitting.includes(found.state) || !lesionKinds[code].states.has(found.state)) return [];
  return [
    refuse(
      'state-against-stage',
      [...path, 'state'],
      `found.${name}.state is ${found.state} beside stage ${found.stage}, expected ${oneOf(fitting)}`,
      'leave `state` out: it follows from the stage',
    ),
  ];
}
