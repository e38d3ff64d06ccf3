import { drawFootFromBelow } from './foot-from-below.mjs';
import { drawHeelsFromBehind } from './heels-from-behind.mjs';
import { element, ink, label, path, sheet, through } from './ink.mjs';
import { ruler } from './ruler.mjs';
import { backFrom, below, coronetAt, downFrom, partWithWall, placing, sideOfClaw } from './side-of-claw.mjs';

const size = { width: 1400, height: 1010 };
const panel = { width: 900, height: 675 };
const ulcer = { claw: 'outer', at: 'heel', length: 18, width: 13 };
const sore = { look: 'raw', length: 26, width: 18 };

/** A length across a place: a line with end bars through its middle, and its key word beyond one end. */
function span([x, y], lengthPx, turn, word, [dx, dy], anchor) {
  const [ux, uy] = [Math.cos(turn), Math.sin(turn)];
  const at = (along, beside) => [x + ux * along - uy * beside, y + uy * along + ux * beside];
  const half = lengthPx / 2;
  const [wx, wy] = at(half, 0);
  return [
    path(through([at(-half, 0), at(half, 0)]), { stroke: ink.paper, 'stroke-width': 7 }),
    path(through([at(-half, 0), at(half, 0)]), { 'stroke-width': 3 }),
    ...[-half, half].map((end) => path(through([at(end, -9), at(end, 9)]), { 'stroke-width': 3 })),
    label(wx + dx, wy + dy, word, { size: 30, weight: 700, anchor, halo: true }),
  ].join('\n');
}

function fromBelow() {
  const scale = 4.05;
  const middle = [panel.width / 2 + (17 + 2) * scale, panel.height / 2 - 26 + 14 * scale];
  return [
    drawFootFromBelow({ outerAt: 'right', ulcer, ...panel }),
    span(middle, ulcer.length * scale, 0.5 + Math.PI / 2, 'length', [-14, 34], 'middle'),
    span(middle, ulcer.width * scale, 0.5, 'width', [14, 12], 'start'),
  ].join('\n');
}

function fromBehind() {
  const scale = 4.2;
  const middle = [panel.width / 2, panel.height - 108 - 52 * scale];
  return [
    drawHeelsFromBehind({ sore, ...panel }),
    span(middle, sore.length * scale, 0, 'length', [14, 10], 'start'),
    span(middle, sore.width * scale, Math.PI / 2, 'width', [0, 36], 'middle'),
  ].join('\n');
}

function fromOutside() {
  const place = placing({
    scale: 4.5,
    originX: 90,
    groundY: panel.height - 104,
    mirror: false,
    width: panel.width,
  });
  const part = partWithWall(50);
  const [distanceMm, acrossMm] = [17, 6];
  const at = (mm, down) => place.put(below(backFrom(part, mm), down));
  const along = place.turn(downFrom(part));
  const perMm = Math.hypot(...along);
  const toHeel = [along[1] / perMm, -along[0] / perMm];
  return [
    sideOfClaw(place),
    path(through([at(-acrossMm, distanceMm), at(acrossMm, distanceMm)]), {
      stroke: ink.line,
      'stroke-width': 6,
    }),
    ruler({ from: place.put(coronetAt(backFrom(part, acrossMm + 2))), along, side: toHeel, lengthMm: 40 }),
    path(through([at(-2, 0), at(-2, distanceMm)]), { 'stroke-width': 3 }),
    path(through([at(-4, 0), at(0, 0)]), { 'stroke-width': 3 }),
    label(at(-4, 8)[0] - 10, at(-4, 8)[1] + 10, 'distance', {
      size: 30,
      weight: 700,
      anchor: 'end',
      halo: true,
    }),
    label(at(-acrossMm, distanceMm)[0] - 16, at(-acrossMm, distanceMm)[1] + 22, 'the mark', {
      size: 26,
      anchor: 'end',
      halo: true,
    }),
  ].join('\n');
}

const put = (inside, x, y) => element('g', { transform: `translate(${x} ${y}) scale(0.72)` }, inside);
const words = (x, y, title, lines) =>
  [
    label(x, y, title, { size: 30, weight: 700 }),
    ...lines.map((line, i) => label(x, y + 38 + i * 28, line, { size: 22 })),
  ].join('\n');

/** The picture on what is measured besides a gap: an ulcer, dermatitis, and a mark in sound wall. */
export function drawMoreMeasures() {
  const title = 'How to measure an ulcer, dermatitis and a mark';
  const inside = [
    words(50, 60, 'An ulcer', ['From below. The open part, loose horn off.']),
    put(fromBelow(), 20, 80),
    words(740, 60, 'Digital dermatitis', ['From behind. Skin washed, the long way and across.']),
    put(fromBehind(), 710, 60),
    path('M50 560 L1350 560', { 'stroke-width': 1.2, stroke: ink.quiet }),
    words(740, 640, 'A mark', [
      'A fine notch filed across sound wall,',
      'no deeper than a file stroke, never on',
      'thin or sore wall.',
      '',
      'Its distance from the first hard horn,',
      'down the same line each time, shows',
      'how fast her own horn grows.',
    ]),
    put(fromOutside(), 20, 540),
  ];
  return { svg: sheet(size.width, size.height, title, inside.join('\n')), size };
}
