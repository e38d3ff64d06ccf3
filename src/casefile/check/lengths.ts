import type { Animal } from '../../record/animal.js';
import { isWallGap } from '../../reference/lesions.js';
import type { Finding } from '../../problem/problem.js';
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
  return [refuse('width-over-length', [...path, 'width'], { name, width, length })];
}

function sizeOfHealed({ name, found, path }: LesionLook): Finding[] {
  if (found.state !== 'healed' && found.stage !== 'M0') return [];
  if (found['top-found'] === 'higher')
    return [refuse('healed-with-higher', [...path, 'top-found'], { name })];
  return (['length', 'width', 'depth'] as const)
    .filter((key) => (found[key] ?? 0) > 0)
    .map((key) => warn('healed-with-size', [...path, key], { name, key, mm: found[key]! }));
}

function wallWords({ name, found, path }: LesionLook): Finding[] {
  if (found.wall !== undefined) return [];
  return (['wall-at', 'wall-tool'] as const)
    .filter((key) => found[key] !== undefined)
    .map((key) => warn('wall-word-without-wall', [...path, key], { name, key }, { at: 'key' }));
}

function runningUp({ name, found, path }: LesionLook, first: boolean): Finding[] {
  const ranUp = found['ran-up'] === true;
  if (ranUp && found['opened-further'])
    return [warn('ran-up-and-opened-further', [...path, 'ran-up'], { name }, { at: 'key' })];
  const word = ranUp ? 'ran-up' : 'opened-further';
  if (!first || found[word] !== true) return [];
  return [warn('ran-up-at-first', [...path, word], { name, key: word }, { at: 'key' })];
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
    const values = { name: look.name, top, wall: wall.mm, measured: wall.from.visit.date };
    const way = wall.from === look ? undefined : 'wall-of-another-day';
    const path = [...look.path, 'top'];
    if (state === 'healed' && top < wall.mm - errorsAllowed * bothErrors)
      return [refuse('healed-below-wall', path, values, { way })];
    if (state !== 'open' && state !== 'covered') return [];
    if (state === 'open' && top > wall.mm + errorsAllowed * bothErrors)
      return [refuse('top-beyond-wall', path, values, { way })];
    return top < wall.mm ? [] : [warn('top-at-ground', path, values, { way })];
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
