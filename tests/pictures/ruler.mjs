import { element, ink, label, path, through } from './ink.mjs';

/**
 * A steel rule laid from one point in a direction, a tick a millimetre, a number every ten.
 *
 * `from` and `along` in picture units, `along` one millimetre long; `side` is the unit vector across the rule.
 */
export function ruler({ from, along, side, lengthMm, thickMm = 11, numbers = 15 }) {
  const at = (mm, across) => [
    from[0] + along[0] * mm + side[0] * across,
    from[1] + along[1] * mm + side[1] * across,
  ];
  const perMm = Math.hypot(...along);
  const thick = thickMm * perMm;
  const body = path(`${through([at(0, 0), at(lengthMm, 0), at(lengthMm, thick), at(0, thick)])} Z`, { fill: ink.steel, 'stroke-width': 1.6 }); // prettier-ignore
  const ticks = [];
  for (let mm = 1; mm < lengthMm; mm += 1) {
    const long = mm % 10 === 0 ? 4.6 : mm % 5 === 0 ? 3.4 : 2.2;
    ticks.push(path(through([at(mm, 0), at(mm, long * perMm)]), { 'stroke-width': mm % 10 === 0 ? 1.5 : 0.9 })); // prettier-ignore
  }
  const turn = (Math.atan2(along[1], along[0]) * 180) / Math.PI;
  const upright = turn > 90 || turn < -90 ? turn + 180 : turn;
  const figures = [];
  for (let mm = 10; mm < lengthMm; mm += 10) {
    const [x, y] = at(mm, 7.4 * perMm);
    figures.push(element('g', { transform: `translate(${x.toFixed(1)} ${y.toFixed(1)}) rotate(${upright.toFixed(1)})` }, label(0, numbers * 0.35, String(mm), { size: numbers, anchor: 'middle' }))); // prettier-ignore
  }
  return [body, ...ticks, ...figures].join('\n');
}
