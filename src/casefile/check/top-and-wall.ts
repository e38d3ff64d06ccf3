import type { Animal } from '../../record/animal.js';
import { isWallGap } from '../../reference/lesions.js';
import { toolError, wallError } from '../../reference/reading-error.js';
import type { Finding } from '../finding.js';
import { refuse, warn } from './finding-at.js';
import { lesionLooks, type LesionLook } from './look.js';

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
