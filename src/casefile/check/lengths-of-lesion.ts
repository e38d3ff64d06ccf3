import type { Animal } from '../../record/animal.js';
import { isWallGap } from '../../reference/lesions.js';
import type { Finding } from '../finding.js';
import { refuse, warn } from './finding-at.js';
import { lesionLooks, type LesionLook } from './look.js';

/** Lengths of one look agree with each other and with what is said of the lesion. */
export function checkLengthsOfLesion(animal: Animal): Finding[] {
  const seen = new Set<string>();
  return lesionLooks(animal).flatMap((look) => {
    const first = !seen.has(look.name);
    seen.add(look.name);
    return [
      ...widthOverLength(look),
      ...sizeOfHealed(look),
      ...(isWallGap(look.code) ? [...wallWords(look), ...runningUp(look, first)] : []),
    ];
  });
}

function widthOverLength({ name, found: { width, length }, path }: LesionLook): Finding[] {
  if (width === undefined || length === undefined || width <= length) return [];
  return [
    refuse(
      'width-over-length',
      [...path, 'width'],
      `found.${name}.width is ${width}, expected at most the length, ${length} mm`,
      'write the longest extent as `length`, the widest across it as `width`',
    ),
  ];
}

function sizeOfHealed({ name, found, path }: LesionLook): Finding[] {
  if (found.state !== 'healed' && found.stage !== 'M0') return [];
  if (found['top-found'] === 'higher')
    return [
      refuse(
        'healed-with-higher',
        [...path, 'top-found'],
        `found.${name} is healed, and top-found says the gap goes on up`,
        'write `state: open` while the gap goes on, or take `top-found` out',
      ),
    ];
  return (['length', 'width', 'depth'] as const)
    .filter((key) => (found[key] ?? 0) > 0)
    .map((key) =>
      warn(
        'healed-with-size',
        [...path, key],
        `found.${name} is healed and has a ${key} of ${found[key]} mm, expected nothing left to measure`,
        `take \`${key}\` out, or correct the state`,
      ),
    );
}

function wallWords({ name, found, path }: LesionLook): Finding[] {
  if (found.wall !== undefined) return [];
  return (['wall-at', 'wall-tool'] as const)
    .filter((key) => found[key] !== undefined)
    .map((key) =>
      warn(
        'wall-word-without-wall',
        [...path, key],
        `found.${name}.${key} stands without a wall length, expected \`wall\` beside it`,
        `write \`wall\`, or take \`${key}\` out`,
        'key',
      ),
    );
}

function runningUp({ name, found, path }: LesionLook, first: boolean): Finding[] {
  const ranUp = found['ran-up'] === true;
  if (ranUp && found['opened-further'])
    return [
      warn(
        'ran-up-and-opened-further',
        [...path, 'ran-up'],
        `found.${name} says ran-up and opened-further, expected one of the two`,
        '`opened-further` where more wall came off today along the same gap, `ran-up` where the gap itself went higher',
        'key',
      ),
    ];
  const word = ranUp ? 'ran-up' : 'opened-further';
  if (!first || found[word] !== true) return [];
  return [
    warn(
      'ran-up-at-first',
      [...path, word],
      `found.${name} says ${word} at its first look, expected an earlier look to compare with`,
      `take \`${word}\` out, or add the earlier visit`,
      'key',
    ),
  ];
}
