import type { Animal } from '../../record/animal.js';
import type { Found } from '../../record/found.js';
import { lesionKinds, type LesionFamily, type Measure } from '../../reference/lesions.js';
import type { Finding } from '../finding.js';
import { refuse } from './finding-at.js';
import { lesionLooks, type LesionLook } from './look.js';
import { oneOf } from './one-of.js';

const measureKeys = ['top', 'wall', 'length', 'width', 'depth', 'stage'] as const satisfies Measure[];

/** Keys that only mean something on a gap in the wall. */
const wallKeys = [
  'top-found',
  'wall-at',
  'wall-lowered',
  'wall-tool',
  'ran-up',
  'opened-further',
  'joined',
] as const;

/** A finding carries only keys that belong to its lesion's code. */
export function checkKeysOfLesion(animal: Animal): Finding[] {
  return lesionLooks(animal).flatMap((look) => [
    ...measureKeys.flatMap((key) => measureOff(look, key)),
    ...wallKeys.flatMap((key) => wallWordOff(look, key)),
    ...distanceOn(look),
    ...toolWithNothing(look),
    ...infectionOf(look),
  ]);
}

const instead: Readonly<Record<LesionFamily, string>> = {
  wall: 'a wall gap carries `top`, `wall` and `width`',
  ulcer: 'an ulcer carries `length` and `width`',
  'double sole': 'a double sole carries `length` and `width`',
  'toe necrosis': 'toe necrosis carries no wall line',
  dermatitis: 'digital dermatitis carries `stage`, and may carry `length` and `width`',
  present: 'it is only said to be `present` or `healed`',
};

function measureOff({ name, found, code, path }: LesionLook, key: Measure): Finding[] {
  const kind = lesionKinds[code];
  if (found[key] === undefined || kind.measures.has(key)) return [];
  const why =
    key === 'length' && kind.family === 'wall'
      ? 'on a wall gap it only repeats wall − top'
      : instead[kind.family];
  return [
    refuse(
      `${key}-not-for-code`,
      [...path, key],
      `found.${name}.${key} does not belong to ${kind.name} (${code}): ${why}`,
      `take \`${key}\` out, or correct the code of ${name}`,
      'key',
    ),
  ];
}

function wallWordOff({ name, found, code, path }: LesionLook, key: keyof Found): Finding[] {
  if (found[key] === undefined || found[key] === false || lesionKinds[code].family === 'wall') return [];
  return [
    refuse(
      `${key}-not-for-code`,
      [...path, key],
      `found.${name}.${key} does not belong to ${lesionKinds[code].name} (${code}), expected on a gap in the wall only`,
      `take \`${key}\` out, or correct the code of ${name}`,
      'key',
    ),
  ];
}

function distanceOn({ name, found, path }: LesionLook): Finding[] {
  if (found.distance === undefined) return [];
  return [
    refuse(
      'distance-on-lesion',
      [...path, 'distance'],
      `found.${name}.distance stands on a lesion, expected on a mark only`,
      'write the length of a wall gap as `top`; declare a growth mark under `marks`',
      'key',
    ),
  ];
}

function toolWithNothing({ name, found, code, path }: LesionLook): Finding[] {
  const kind = lesionKinds[code];
  if (found.tool === undefined || kind.measures.size > 0) return [];
  return [
    refuse(
      'tool-not-for-code',
      [...path, 'tool'],
      `found.${name}.tool does not belong to ${kind.name} (${code}): nothing is measured on it; expected ${oneOf(kind.states)} as its state`,
      'take `tool` out, or correct the code',
      'key',
    ),
  ];
}

function infectionOf({ name, found, code, path }: LesionLook): Finding[] {
  if (!found.infected || lesionKinds[code].family !== 'dermatitis') return [];
  return [
    refuse(
      'infected-not-for-code',
      [...path, 'infected'],
      `found.${name}.infected does not belong to digital dermatitis (DD): it says that dermatitis got into another lesion`,
      'write `infected: true` on the lesion in the horn; on the skin the `stage` says it',
      'key',
    ),
  ];
}
