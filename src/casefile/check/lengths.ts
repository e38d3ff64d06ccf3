import type { Animal } from '../../record/animal.js';
import { isWallGap } from '../../reference/lesions.js';
import type { Finding } from '../finding.js';
import { refuse, warn, lesionLooks, type LesionLook } from './check-context.js';
import { toolError, wallError } from '../../reference/growth-numbers.js';

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

/** Reading errors a top may lie beyond the wall before it cannot be one; the case format's own mark. */
const errorsAllowed = 2;

/**
 * The top of a gap lies between coronet and ground.
 *
 * Two readings each have their error, so a little beyond the wall means grown out, or measure again; beyond
 * twice their combined error while open is a slip.
 */
export function checkTopAndWall(animal: Animal): Finding[] {
  const looks = lesionLooks(animal).filter(({ code }) => isWallGap(code));
  return looks.flatMap((look) => {
    const { top, state, tool } = look.found;
    const wall = wallFor(look, looks);
    if (top === undefined || !wall) return [];
    const bothErrors = Math.hypot(toolError(tool, top), wall.sdMm);
    const measured = wall.from === look ? '' : `, measured ${wall.from.visit.date}`;
    const path = [...look.path, 'top'];
    if (state === 'healed' && top < wall.mm - errorsAllowed * bothErrors)
      return [
        refuse(
          'healed-below-wall',
          path,
          `found.${look.name} is healed with its top at ${top}, expected the top out at the ground: the wall is ${wall.mm} mm${measured}`,
          'write `state: covered` while wall is missing, or take `top` out',
        ),
      ];
    if (state !== 'open' && state !== 'covered') return [];
    if (state === 'open' && top > wall.mm + errorsAllowed * bothErrors)
      return [
        refuse(
          'top-beyond-wall',
          path,
          `found.${look.name}.top is ${top}, expected at most the wall's ${wall.mm} mm${measured}`,
          'measure from the coronet down to the highest point of the gap; if it has grown out, write `state: healed`',
        ),
      ];
    if (top < wall.mm) return [];
    return [
      warn(
        'top-at-ground',
        path,
        `found.${look.name}.top is ${top}, and the wall ${wall.mm} mm${measured}: grown out? measure again`,
        'measure top and wall again with one tool; if it has grown out, write `state: healed`',
      ),
    ];
  });
}

interface MeasuredWall {
  readonly mm: number;
  readonly sdMm: number;
  readonly from: LesionLook;
}

/** The wall of the same look, else the latest on that foot, claw and line, under whichever lesion. */
function wallFor(look: LesionLook, looks: readonly LesionLook[]): MeasuredWall | undefined {
  const { foot, claw, line } = look.declared;
  const own = measuredWall(look);
  if (own || !claw || !line) return own;
  return looks
    .filter(
      ({ declared, visitAt }) =>
        declared.foot === foot && declared.claw === claw && declared.line === line && visitAt <= look.visitAt,
    )
    .flatMap((other) => measuredWall(other) ?? [])
    .at(-1);
}

function measuredWall(look: LesionLook): MeasuredWall | undefined {
  const { wall, 'wall-lowered': lowered } = look.found;
  if (wall === undefined || lowered) return undefined;
  return { mm: wall, sdMm: wallError(look.found), from: look };
}
