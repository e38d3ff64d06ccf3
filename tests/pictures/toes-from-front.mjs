import { element, ink, label, path, smooth, through } from './ink.mjs';
import { ruler } from './ruler.mjs';

/** Front wall as seen from the front: 79 mm of wall, leaning away. */
const lean = 0.92;

/** Height and both edges of the wall so many mm below the coronet. */
const row = (mm) => {
  const y = -79 * lean + mm * lean;
  const t = mm / 79;
  return { y, left: 3 + t * 1.5, right: 45 + t * 4 - t * t * 6 };
};

/** A line across the wall so many mm below the coronet, a little bowed; whole, or from one share to another. */
const acrossAt = (mm, from = 0, to = 1) => {
  const { y, left, right } = row(mm);
  return Array.from({ length: 9 }, (_, i) => {
    const p = from + ((to - from) * i) / 8;
    return [left + (right - left) * p, y - 4 * Math.sin(p * Math.PI) + p * 3];
  });
};

/** Both claws from the front: a break across one, a groove across the other. */
export function drawToesFromFront({
  outerAt,
  breakMm,
  breakWidthMm,
  grooveMm,
  names = ['outer', 'inner'],
  width,
  height,
}) {
  const scale = 4.35;
  const ground = height - 100;
  const put = (mirror) => (points) =>
    points.map(([x, y]) => [width / 2 + x * scale * (mirror ? -1 : 1), ground + y * scale]);
  const flank = [[46, -74], [43, -90], [40, -104], [39, -114]]; // prettier-ignore
  const cut = [[-39, -114], [-22, -116], [-4, -113], [16, -116], [39, -114]]; // prettier-ignore
  const other = flank.map(([x, y]) => [-x, y]);
  const out = [
    path(`${through(put(false)([...flank, ...cut.toReversed().slice(1, -1), ...other.toReversed(), [0, -60]]))} Z`, { fill: ink.skin, stroke: 'none' }), // prettier-ignore
    path(smooth(put(false)(flank)), { 'stroke-width': 2.2 }),
    path(smooth(put(false)(other)), { 'stroke-width': 2.2 }),
    path(smooth(put(false)(cut)), { stroke: ink.skinDeep, 'stroke-width': 1.6 }),
  ];
  for (let i = 0; i < 44; i += 1) {
    const x = -38 + ((i * 29) % 76);
    const y = -108 + ((i * 31) % 26);
    const [a, b] = put(false)([[x, y], [x * 0.99, y + 4.5]]); // prettier-ignore
    out.push(path(through([a, b]), { stroke: ink.skinDeep, 'stroke-width': 1.3 }));
  }
  for (const mirror of [false, true]) {
    const to = put(mirror);
    const outer = (mirror ? 'left' : 'right') === outerAt;
    const claw = [...acrossAt(0), [47.5, -30], [45, -9], [34, -1], [18, 0], [7, -2], [4.5, -20], [3.4, -50]]; // prettier-ignore
    out.push(path(smooth(to(claw), true), { fill: ink.horn, 'stroke-width': 2.6 }));
    for (const mm of [8, 20, 33, 42, 51, 60, 69]) {
      out.push(path(smooth(to(acrossAt(mm))), { stroke: ink.hornDeep, 'stroke-width': 1.5 }));
    }
    out.push(
      path(`${smooth(to([...acrossAt(0), ...acrossAt(-5).toReversed()]))} Z`, { fill: ink.soft, 'stroke-width': 1.6 }), // prettier-ignore
      path(smooth(to(acrossAt(0))), { 'stroke-width': 3 }),
    );
    if (outer) {
      const half = breakWidthMm / 2 / 43;
      const upper = acrossAt(breakMm, 0.5 - half, 0.5 + half);
      const lower = acrossAt(breakMm + 3.4, 0.5 - half, 0.5 + half).map(([x, y], i) => [x, y - (i === 0 || i === 8 ? 3 : 0)]); // prettier-ignore
      const shape = `${smooth(to([...upper, ...lower.toReversed()]))} Z`;
      out.push(path(shape, { fill: ink.bare, stroke: 'none' }), path(shape, { fill: 'url(#gap)', stroke: ink.open, 'stroke-width': 2.6 }), path(smooth(to(upper)), { 'stroke-width': 3.6 })); // prettier-ignore
    } else {
      out.push(path(smooth(to(acrossAt(grooveMm))), { 'stroke-width': 5, stroke: ink.quiet }));
    }
    const mm = outer ? breakMm : grooveMm;
    const dir = mirror ? -1 : 1;
    const [[x, y]] = to([[52, row(0).y + 2]]);
    out.push(
      ruler({ from: [x, y], along: [0, scale * lean], side: [dir, 0], lengthMm: 50 }),
      label(x + dir * 60, y + mm * lean * scale + 8, `${mm} mm`, { size: 24, weight: 700, anchor: dir < 0 ? 'end' : 'start' }), // prettier-ignore
      label(to([[25, 9]])[0][0], ground + 34, outer ? names[0] : names[1], { size: 20, anchor: 'middle', fill: ink.quiet }), // prettier-ignore
    );
  }
  const [[left, g], [right]] = put(false)([[-70, 0], [70, 0]]); // prettier-ignore
  out.push(path(`M${left} ${g + 1} L${right} ${g + 1}`, { 'stroke-width': 2 }));
  return element('g', {}, out.join('\n'));
}
