import { ink, path, smooth, through } from './ink.mjs';
import { backFrom, below, parts, wallAt } from './side-of-claw.mjs';

const onGround = (part) => below(part, wallAt(part));

/** The bare place under a gap: where wall is gone, hatched, from its top to the ground. `widthMm` round the claw. */
export function gapInWall({ put }, { part, topMm, widthMm }) {
  const left = Math.max(backFrom(part, -widthMm / 2), 0.01);
  const right = Math.min(backFrom(part, widthMm / 2), 0.99);
  const top = parts(left, right, 8).map((p, i) => below(p, topMm + ((i - 4) / 4) ** 2 * 1.6));
  const shape = `${through([...top, onGround(right + 0.012), onGround(left - 0.012)].map(put))} Z`;
  return [
    path(shape, { fill: ink.bare, stroke: 'none' }),
    path(shape, { fill: 'url(#gap)', stroke: ink.open, 'stroke-width': 2.6 }),
    path(smooth(top.map(put)), { 'stroke-width': 4 }),
  ].join('\n');
}
