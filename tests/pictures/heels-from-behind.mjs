import { element, ink, label, path, smooth, through } from './ink.mjs';
import { ruler } from './ruler.mjs';

/** Both heels from behind with the skin above them, and dermatitis in the dip between. */
export function drawHeelsFromBehind({ sore, width, height }) {
  const scale = 4.2;
  const ground = height - 108;
  const put = (mirror) => (points) =>
    points.map(([x, y]) => [width / 2 + x * scale * (mirror ? -1 : 1), ground + y * scale]);
  const flank = [[47, -38], [45, -52], [40, -70], [36, -88], [35, -112]]; // prettier-ignore
  const cut = [[-35, -112], [-20, -114], [-4, -111], [14, -114], [35, -112]]; // prettier-ignore
  const other = flank.map(([x, y]) => [-x, y]);
  const out = [
    path(`${through(put(false)([...flank, ...cut.toReversed().slice(1, -1), ...other.toReversed(), [0, -26]]))} Z`, { fill: ink.skin, stroke: 'none' }), // prettier-ignore
    path(smooth(put(false)(flank)), { 'stroke-width': 2.2 }),
    path(smooth(put(false)(other)), { 'stroke-width': 2.2 }),
    path(smooth(put(false)(cut)), { stroke: ink.skinDeep, 'stroke-width': 1.6 }),
  ];
  const dew = [[20, -96], [27, -101], [32, -95], [29, -86], [22, -87]]; // prettier-ignore
  for (const mirror of [false, true]) {
    const to = put(mirror);
    out.push(
      path(smooth(to([[2, -30], [8, -42], [22, -50], [36, -50], [45, -42], [49, -26], [50, -8], [47, -1], [30, 0], [12, 0], [4, -2], [2, -16]]), true), { fill: ink.horn, 'stroke-width': 2.6 }), // prettier-ignore
      path(smooth(to([[3, -30], [9, -38], [22, -43], [36, -42], [44, -34]])), { stroke: ink.hornDeep, 'stroke-width': 2 }), // prettier-ignore
      path(
        smooth(
          to([
            [40, -30],
            [43, -18],
            [43.5, -2],
          ]),
        ),
        { stroke: ink.hornDeep, 'stroke-width': 2 },
      ),
      path(
        smooth(
          to([
            [8, -12],
            [20, -9],
            [34, -11],
          ]),
        ),
        { stroke: ink.hornDeep, 'stroke-width': 1.5 },
      ),
      path(smooth(to(dew), true), { fill: ink.hornDeep, 'stroke-width': 2 }),
    );
  }
  for (let i = 0; i < 46; i += 1) {
    const x = -34 + ((i * 37) % 69);
    const y = -106 + ((i * 53) % 56);
    if (Math.abs(x) < 16 && y > -66) continue;
    const [a, b] = put(false)([[x, y], [x + (x > 0 ? -0.8 : 0.8), y + 4.5]]); // prettier-ignore
    out.push(path(`M${a.map((v) => v.toFixed(1)).join(' ')} L${b.map((v) => v.toFixed(1)).join(' ')}`, { stroke: ink.skinDeep, 'stroke-width': 1.3 })); // prettier-ignore
  }
  const round = (grow, rough) =>
    Array.from({ length: 18 }, (_, i) => {
      const a = (i / 18) * Math.PI * 2;
      const r = 1 + rough * Math.sin(4 * a + 0.6) + rough * 0.6 * Math.cos(7 * a);
      return [(Math.cos(a) * (sore.length + grow) * r) / 2, -52 + (Math.sin(a) * (sore.width + grow) * r) / 2]; // prettier-ignore
    });
  const to = put(false);
  if (sore.look === 'raw') {
    out.push(
      path(smooth(to(round(3.5, 0.06)), true), { fill: ink.bare, 'stroke-width': 1.8 }),
      path(smooth(to(round(0, 0.05)), true), { fill: ink.raw, stroke: ink.open, 'stroke-width': 2.4 }),
    );
    for (let i = 0; i < 30; i += 1) {
      const a = i * 2.4;
      const r = Math.sqrt((i + 0.5) / 30) * 0.42;
      const [[x, y]] = to([[Math.cos(a) * sore.length * r, -52 + Math.sin(a) * sore.width * r]]);
      out.push(element('circle', { cx: x, cy: y, r: 3.4, fill: ink.open }));
    }
  } else {
    out.push(path(smooth(to(round(0, 0.09)), true), { fill: ink.hornDeep, 'stroke-width': 2.4 }));
    for (const dy of [-4, -1.3, 1.4, 4]) {
      const half = sore.length * 0.36 - Math.abs(dy) * 0.4;
      out.push(path(smooth(to([[-half, -52 + dy], [0, -52.8 + dy], [half, -52 + dy]])), { 'stroke-width': 1.8 })); // prettier-ignore
    }
  }
  const [[rx, ry]] = to([[-20, -72]]);
  out.push(
    ruler({ from: [rx, ry], along: [scale, 0], side: [0, -1], lengthMm: 40 }),
    label(rx + 64 * scale, ry - 14, `${sore.length} × ${sore.width} mm`, { size: 24, weight: 700, halo: true }), // prettier-ignore
  );
  const [[left, g], [right]] = to([[-70, 0], [70, 0]]); // prettier-ignore
  out.push(path(`M${left} ${g + 1} L${right} ${g + 1}`, { 'stroke-width': 2 }));
  return element('g', {}, out.join('\n'));
}
