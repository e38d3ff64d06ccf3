import { gapInWall } from './gap-in-wall.mjs';
import { label, path, smooth, through } from './ink.mjs';
import { ruler } from './ruler.mjs';
import {
  backFrom,
  below,
  coronetAt,
  downFrom,
  partWithWall,
  parts,
  placing,
  sideOfClaw,
} from './side-of-claw.mjs';

const ruleBesideMm = 2;

/**
 * One claw from outside, with a rule on the toe side of the gap; without a `topMm` the wall is whole.
 * `looseOverMm`: before the trim, wall still standing over so much of the gap's top, and no rule laid beside it yet.
 * `oldTopMm` draws a broken line where growth alone would have brought the top.
 */
export function drawClawFromOutside({
  wallMm,
  topMm,
  widthMm,
  oldTopMm,
  looseOverMm,
  mirror,
  width,
  height,
}) {
  const place = placing({ scale: 4.5, originX: 90, groundY: height - 104, mirror, width });
  const claw = sideOfClaw(place);
  if (topMm === undefined) return claw;
  const part = partWithWall(wallMm);
  if (looseOverMm !== undefined)
    return [claw, gapInWall(place, { part, topMm: topMm + looseOverMm, widthMm })].join('\n');
  const at = (backMm, belowMm) => place.put(below(backFrom(part, backMm), belowMm));
  const along = place.turn(downFrom(part));
  const perMm = Math.hypot(...along);
  const toToe = [-along[1] / perMm, along[0] / perMm].map((v) => (mirror ? -v : v));
  const edge = widthMm / 2 + ruleBesideMm;
  const zero = place.put(coronetAt(backFrom(part, -edge)));
  const [wordsX, wordsY] = at(-edge - 15, topMm);
  const pieces = [
    claw,
    gapInWall(place, { part, topMm, widthMm }),
    ruler({ from: zero, along, side: toToe, lengthMm: wallMm + 4 }),
    path(through([at(-widthMm / 2, topMm), [wordsX, wordsY]]), {
      'stroke-width': 2,
      'stroke-dasharray': '2 5',
    }),
    label(wordsX + (mirror ? -8 : 8), wordsY + 8, `${topMm} mm`, {
      size: 26,
      weight: 700,
      anchor: mirror ? 'start' : 'end',
      halo: true,
    }),
  ];
  if (oldTopMm !== undefined) {
    const old = parts(backFrom(part, -edge), backFrom(part, edge), 4).map((p) =>
      place.put(below(p, oldTopMm)),
    );
    pieces.push(path(smooth(old), { 'stroke-width': 3, 'stroke-dasharray': '7 6' }));
  }
  return pieces.join('\n');
}
