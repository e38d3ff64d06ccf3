import { element, ink, label, path, smooth } from './ink.mjs';
import { ruler } from './ruler.mjs';

/** Outline of one claw from below, mm: toe up, the cleft at x = 0, the outside at +x. */
const outline = [
  [4, -58], [12, -60], [22, -54], [33, -38], [42, -16], [46.5, 8], [46, 28], [41, 45], [31, 55], [18, 56], [7, 50], [2.5, 36], [4, 14], [5.5, -8], [4, -32], [2.5, -50],
]; // prettier-ignore
const inside = [
  [7.5, -51], [12, -53.5], [19.5, -48.5], [29.5, -34], [37.8, -14], [41.8, 8], [41.2, 24],
]; // prettier-ignore
const insideOnCleft = [[7.5, -51], [7.2, -32], [8.8, -12]]; // prettier-ignore
/** Where the sole goes over into the heel bulb. */
const heelLine = [[5, 18], [14, 13], [26, 14], [37, 20], [44, 29]]; // prettier-ignore

function blob(cx, cy, length, width, turn) {
  const points = Array.from({ length: 12 }, (_, i) => {
    const a = (i / 12) * Math.PI * 2;
    const r = 1 + 0.07 * Math.sin(3 * a + 1) + 0.04 * Math.cos(5 * a);
    const [x, y] = [(Math.cos(a) * width * r) / 2, (Math.sin(a) * length * r) / 2];
    return [cx + x * Math.cos(turn) - y * Math.sin(turn), cy + x * Math.sin(turn) + y * Math.cos(turn)];
  });
  return points;
}

/** The foot from below: two claws, white line, heel; the outer claw on the side the foot puts it. */
export function drawFootFromBelow({
  outerAt,
  ulcer,
  wallGone,
  healedUlcer,
  names = ['outer', 'inner'],
  width,
  height,
}) {
  const scale = 4.05;
  const centre = [width / 2, height / 2 - 26];
  const side = (mirror) => (points) =>
    points.map(([x, y]) => [centre[0] + (x + 2) * scale * (mirror ? -1 : 1), centre[1] + y * scale]);
  const out = [];
  for (const which of ['left', 'right']) {
    const put = side(which === 'left');
    const outer = which === outerAt;
    out.push(
      path(smooth(put(outline), true), { fill: ink.hornPale, 'stroke-width': 2.8 }),
      path(`${smooth(put([...heelLine]))} L${put([[46, 28]])[0].join(' ')} ${smooth(put([[46, 28], [41, 45], [31, 55], [18, 56], [7, 50], [2.5, 36], [5, 18]])).replace('M', 'L')} Z`, { fill: ink.horn, stroke: 'none' }), // prettier-ignore
      path(smooth(put(outline), true), { 'stroke-width': 2.8 }),
      path(smooth(put(inside)), { stroke: ink.quiet, 'stroke-width': 2 }),
      path(smooth(put(insideOnCleft)), { stroke: ink.quiet, 'stroke-width': 2 }),
      path(smooth(put(heelLine)), { stroke: ink.hornDeep, 'stroke-width': 2, 'stroke-dasharray': '9 6' }),
    );
    for (const [x, y, l] of [
      [20, -26, 7],
      [27, -6, 8],
      [16, -8, 6],
      [31, 40, 6],
      [16, 38, 7],
    ]) {
      out.push(path(smooth(put([[x, y], [x + l / 2, y - 1], [x + l, y + 0.5]])), { stroke: ink.hornDeep, 'stroke-width': 1.4 })); // prettier-ignore
    }
    const [lx, ly] = put([[24, 70]])[0];
    out.push(label(lx, ly, outer ? names[0] : names[1], { size: 20, anchor: 'middle', fill: ink.quiet }));
    if (wallGone && wallGone.claw === (outer ? 'outer' : 'inner')) {
      const piece = [[37, -29.5], [40.4, -21], [43.2, -12], [45.2, -2], [41, -1], [38.9, -12], [34.6, -23]]; // prettier-ignore
      out.push(
        path(smooth(put(piece), true), { fill: wallGone.covered ? ink.hornDeep : ink.bare, stroke: 'none' }),
        wallGone.covered ? '' : path(smooth(put(piece), true), { fill: 'url(#gap)', stroke: 'none' }),
        path(smooth(put(piece), true), { stroke: wallGone.covered ? ink.line : ink.open, 'stroke-width': 2.6 }), // prettier-ignore
      );
    }
    const sore = ulcer ?? healedUlcer;
    if (sore && sore.claw === (outer ? 'outer' : 'inner')) {
      const [cx, cy] = sore.at === 'toe' ? [15.5, -41] : [17, 14];
      const turn = sore.at === 'toe' ? 0.15 : 0.5;
      if (ulcer) {
        out.push(
          path(smooth(put(blob(cx, cy, sore.length + 7, sore.width + 7, turn)), true), { fill: ink.bare, 'stroke-width': 1.8 }), // prettier-ignore
          path(smooth(put(blob(cx, cy, sore.length, sore.width, turn)), true), { fill: ink.raw, stroke: ink.open, 'stroke-width': 2.6 }), // prettier-ignore
          path(smooth(put(blob(cx, cy, sore.length, sore.width, turn)), true), { fill: 'url(#gap)', stroke: 'none' }), // prettier-ignore
        );
        const [rx, ry] = put([[sore.at === 'toe' ? 52 : 53, cy - 15]])[0];
        const mirror = which === 'left' ? -1 : 1;
        out.push(
          ruler({ from: [rx, ry], along: [0, scale], side: [mirror, 0], lengthMm: 36 }),
          label(rx + mirror * 62, ry + 20, `${sore.length} × ${sore.width} mm`, { size: 22, weight: 700, anchor: mirror < 0 ? 'end' : 'start' }), // prettier-ignore
        );
      } else {
        out.push(path(smooth(put(blob(cx, cy, sore.length, sore.width, turn)), true), { fill: ink.horn, stroke: ink.hornDeep, 'stroke-width': 2, 'stroke-dasharray': '4 5' })); // prettier-ignore
      }
    }
  }
  return element('g', {}, out.join('\n'));
}
