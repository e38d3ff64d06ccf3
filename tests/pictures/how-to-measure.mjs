import { gapInWall } from './gap-in-wall.mjs';
import {
  below,
  coronetAt,
  downFrom,
  partWithWall,
  placing,
  sideOfClaw,
  wallAt,
  backFrom,
} from './side-of-claw.mjs';
import { element, ink, label, path, sheet, smooth, through } from './ink.mjs';
import { ruler } from './ruler.mjs';

const size = { width: 1400, height: 1330 };

/** A measured length between two points: a line with end bars and its key word. */
function span(from, to, bar = 9) {
  const length = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const [ux, uy] = [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
  const end = ([x, y]) => path(through([[x - uy * bar, y + ux * bar], [x + uy * bar, y - ux * bar]]), { 'stroke-width': 2.6 }); // prettier-ignore
  return path(through([from, to]), { 'stroke-width': 2.6 }) + end(from) + end(to);
}

/** A thin pointer from words to the place they name, with a dot at its end. */
const pointer = (points) =>
  path(through(points), { 'stroke-width': 1.5, stroke: ink.quiet }) +
  element('circle', { cx: points.at(-1)[0], cy: points.at(-1)[1], r: 4, fill: ink.line });

const words = (x, y, lines, options = {}) =>
  lines.map((line, i) => label(x, y + i * (options.step ?? 27), line, { size: 21, ...options })).join('');

function sideView() {
  const place = placing({ scale: 6.1, originX: 230, groundY: 862, mirror: false, width: size.width });
  const part = partWithWall(50);
  const [topMm, widthMm] = [24, 11];
  const across = (mm) => backFrom(part, mm);
  const at = (p, mm) => place.put(below(p, mm));
  const out = [sideOfClaw(place), gapInWall(place, { part, topMm, widthMm })];

  // The rule lies beside the gap with its zero on the first hard horn.
  const beside = across(widthMm / 2 + 2);
  const unit = place.turn(downFrom(part));
  const [ux, uy] = unit.map((v) => v / Math.hypot(...unit));
  out.push(ruler({ from: at(beside, 0), along: unit, side: [-uy, ux].map((v) => -v), lengthMm: 50, numbers: 17 })); // prettier-ignore

  // Lengths on the toe side of the gap.
  const topLine = across(-widthMm / 2 - 5);
  const wallLine = across(-widthMm / 2 - 16);
  out.push(
    path(through([at(part, topMm), at(topLine, topMm)]), { 'stroke-width': 2, 'stroke-dasharray': '3 5' }),
    span(at(topLine, 0), at(topLine, topMm)),
    span(at(wallLine, 0), at(wallLine, wallAt(wallLine))),
    label(at(topLine, topMm / 2)[0] - 14, at(topLine, topMm / 2)[1] + 4, 'top', { size: 28, weight: 700, anchor: 'end', halo: true }), // prettier-ignore
    label(at(wallLine, 30)[0] - 16, at(wallLine, 30)[1] + 6, 'wall', { size: 28, weight: 700, anchor: 'end', halo: true }), // prettier-ignore
  );
  const low = 36;
  const [left, right] = [at(across(-widthMm / 2), low), at(across(widthMm / 2), low)];
  out.push(
    span(left, right, 8),
    label((left[0] + right[0]) / 2 - 2, (left[1] + right[1]) / 2 + 36, 'width', { size: 25, weight: 700, anchor: 'middle', halo: true }), // prettier-ignore
  );

  const band = coronetAt(0.2);
  const middleOfRule = at(beside + 0.06, 46);
  out.push(
    pointer([[378, 226], [500, 226], place.put([band[0] + 1, band[1] - 2.4])]),
    words(60, 220, ['Soft band, below the hair.', 'Press a thumbnail down', 'through it.'], { weight: 600 }),
    pointer([[352, 350], [410, 350], place.put(coronetAt(0.07))]), // prettier-ignore
    words(60, 344, ['Coronet: where the nail', 'first meets hard horn.', 'Zero is here.'], { weight: 600 }),
    pointer([[236, 572], [300, 572], at(0.04, 43)]),
    words(60, 512, ['Growth rings run', 'with the coronet.', 'The rule lies at', 'right angles to', 'them.']),
    pointer([[1042, 516], [1000, 516], at(part, topMm - 0.4)]),
    words(1052, 510, ['Top of the gap: the', 'highest point where', 'wall and the tissue', 'beneath have come', 'apart. Read it last,', 'washed, after the loose', 'horn is off.'], { weight: 600 }), // prettier-ignore
    pointer([[470, 926], [at(part, 46)[0], 926], at(part, 46)]),
    words(458, 933, ['Gap: wall gone, hatched.'], { anchor: 'end' }),
    pointer([[800, 926], [740, 926], middleOfRule]),
    words(810, 933, ['Rule beside the gap, on wall that stands.']),
    label(190, 894, 'toe', { size: 21, fill: ink.quiet }),
    label(985, 894, 'heel', { size: 21, fill: ink.quiet }),
    label(62, 869, 'ground', { size: 21, fill: ink.quiet }),
  );
  return out.join('\n');
}

/** One foot from below with the four lines named on both claws. */
function linesFromBelow() {
  const scale = 2.35;
  const [cx, cy] = [1130, 1158];
  const half = [[4, -58], [12, -60], [22, -54], [33, -38], [42, -16], [46.5, 8], [46, 28], [41, 45], [31, 55], [18, 56], [7, 50], [2.5, 36], [4, 14], [5.5, -8], [4, -32], [2.5, -50]]; // prettier-ignore
  const lines = { dorsal: [11, -60], abaxial: [41, -18], heel: [44.5, 36], axial: [5, -22] };
  const out = [];
  for (const mirror of [true, false]) {
    const put = ([x, y]) => [cx + (x + 3) * scale * (mirror ? -1 : 1), cy + y * scale];
    out.push(path(smooth(half.map(put), true), { fill: ink.hornPale, 'stroke-width': 2.6 }));
    for (const [name, place] of Object.entries(lines)) {
      const [x, y] = put(place);
      out.push(element('circle', { cx: x, cy: y, r: 6.5, fill: ink.line }));
      const away = mirror ? -1 : 1;
      if (name === 'axial') continue;
      const [lx, ly] = [x + away * (name === 'dorsal' ? 62 : 34), y + (name === 'dorsal' ? -12 : 0)];
      out.push(
        path(through([[x + away * 8, y - (name === 'dorsal' ? 2 : 0)], [lx - away * 4, ly]]), { 'stroke-width': 1.5 }), // prettier-ignore
        label(lx, ly + 7, name, { size: 22, weight: 700, anchor: mirror ? 'end' : 'start' }),
      );
    }
    const [hx, hy] = put([24, 42]);
    out.push(label(hx, hy, mirror ? 'outer' : 'inner', { size: 19, anchor: 'middle', fill: ink.quiet }));
  }
  out.push(
    path(through([[cx, cy - 46 + 2], [cx, cy + 142]]), { 'stroke-width': 1.5 }), // prettier-ignore
    path(through([[cx - 20, cy - 50], [cx, cy - 44], [cx + 20, cy - 50]]), { 'stroke-width': 1.5 }), // prettier-ignore
    label(cx, cy + 164, 'axial: in the cleft', { size: 22, weight: 700, anchor: 'middle' }),
  );
  return out.join('\n');
}

/** The picture on measuring: lengths on the side of a claw, and where the four lines run. */
export function drawHowToMeasure() {
  const title = 'How to measure a gap in the wall: top, wall and width from the coronet, and the four lines';
  const inside = [
    words(60, 66, ['Measuring a gap in the wall'], { size: 34, weight: 700 }),
    words(60, 104, ['One claw from outside. All lengths in millimetres, along one straight line, with the same tool each time.']), // prettier-ignore
    sideView(),
    path('M60 978 L1340 978', { 'stroke-width': 1.2, stroke: ink.quiet }),
    words(60, 1030, ['Which line'], { size: 28, weight: 700 }),
    words(60, 1076, [
      'Every wall length runs down one of four lines, from the coronet to the ground.',
      'dorsal: the front wall, down to the toe',
      'abaxial: the side wall away from the cleft (white line fore)',
      'heel: the last of the wall, before the bulb (white line rear)',
      'axial: the wall in the cleft',
    ], { step: 33 }), // prettier-ignore
    words(60, 1268, ['A right foot from below, toes up. Dots: where each line meets the ground.'], { fill: ink.quiet, size: 20 }), // prettier-ignore
    linesFromBelow(),
  ];
  return { svg: sheet(size.width, size.height, title, inside.join('\n')), size };
}
