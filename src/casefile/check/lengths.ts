import type { Animal } from '../../record/animal.js';
import { isWallGap } from '../../reference/lesions.js';
import { type Findings, refuse, warn, lesionLooks, type LesionLook } from './check-context.js';
import { toolError, wallError } from '../../reference/growth-numbers.js';

/** Lengths of one look agree with each other and with what is said of the lesion. */
export function* checkLengthsOfLesion(animal: Animal): Findings {
  const seen = new Set<string>();
  for (const { name, found, path, code } of lesionLooks(animal)) {
    const { width, length, state, stage } = found;
    if (width !== undefined && length !== undefined && width > length)
      yield refuse('width-over-length', [...path, 'width'], { name, width, length });
    if (state === 'healed' || stage === 'M0') {
      if (found['top-found'] === 'higher')
        yield refuse('healed-with-higher', [...path, 'top-found'], { name });
      else
        for (const key of ['length', 'width', 'depth'] as const)
          if (found[key]) yield warn('healed-with-size', [...path, key], { name, key, mm: found[key] });
    }
    if (isWallGap(code)) {
      for (const key of ['wall-at', 'wall-tool'] as const)
        if (found.wall === undefined && found[key] !== undefined)
          yield warn('wall-word-without-wall', [...path, key], { name, key }, { at: 'key' });
      const key = found['ran-up'] ? 'ran-up' : 'opened-further';
      if (found['ran-up'] && found['opened-further'])
        yield warn('ran-up-and-opened-further', [...path, key], { name }, { at: 'key' });
      else if (!seen.has(name) && found[key])
        yield warn('ran-up-at-first', [...path, key], { name, key }, { at: 'key' });
    }
    seen.add(name);
  }
}

/** Reading errors a top may lie beyond the wall before it cannot be one; the case format's own mark. */
const errorsAllowed = 2;

/**
 * The top of a gap lies between coronet and ground.
 *
 * Two readings each have their error, so a little beyond the wall means grown out, or measure again; beyond
 * twice their combined error while open is a slip.
 */
export function* checkTopAndWall(animal: Animal): Findings {
  const looks = lesionLooks(animal).filter(({ code }) => isWallGap(code));
  for (const look of looks) {
    const { top, state, tool } = look.found;
    const measured = lookOfWall(look, looks);
    if (top === undefined || !measured) continue;
    const wall = measured.found.wall!;
    const slack = errorsAllowed * Math.hypot(toolError(tool, top), wallError(measured.found));
    const values = { name: look.name, top, wall, measured: measured.visit.date };
    const said = { way: measured === look ? undefined : 'wall-of-another-day' };
    const path = [...look.path, 'top'];
    if (state === 'healed' && top < wall - slack) yield refuse('healed-below-wall', path, values, said);
    else if (state === 'open' && top > wall + slack) yield refuse('top-beyond-wall', path, values, said);
    else if ((state === 'open' || state === 'covered') && top >= wall)
      yield warn('top-at-ground', path, values, said);
  }
}

/** The same look where it measured the wall, else the latest on that foot, claw and line, under whichever lesion. */
function lookOfWall(look: LesionLook, looks: readonly LesionLook[]): LesionLook | undefined {
  const { foot, claw, line } = look.declared;
  const isMeasured = ({ found }: LesionLook): boolean => found.wall !== undefined && !found['wall-lowered'];
  if (isMeasured(look)) return look;
  if (!claw || !line) return undefined;
  return looks.findLast((other) => {
    const at = other.declared;
    const isThere = at.foot === foot && at.claw === claw && at.line === line;
    return isThere && other.visitAt <= look.visitAt && isMeasured(other);
  });
}
