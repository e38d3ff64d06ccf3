import { ink, n, path, smooth, through } from './ink.mjs';

/** Angle of the front wall to the ground; further back the measuring line is at right angles to the rings. */
const frontAngle = (51 * Math.PI) / 180;
const backAngle = (65 * Math.PI) / 180;
const angleAt = (part) =>
  frontAngle + (backAngle - frontAngle) * Math.sin((Math.min(part / 0.5, 1) * Math.PI) / 2);

/** Down the wall from a part of the coronet, one millimetre. */
export const downFrom = (part) => [-Math.cos(angleAt(part)), Math.sin(angleAt(part))];
/** Front end and rear end of the coronet, mm from the toe tip on the ground, y downwards. */
const coronetFront = [78 * Math.cos(frontAngle), -78 * Math.sin(frontAngle)];
const coronetRear = [120, -29];

/** A point on the coronet, 0 at the front wall, 1 at the heel; a little bowed. */
export function coronetAt(part) {
  const bow = 4.5 * part * (1 - part);
  return [
    coronetFront[0] + (coronetRear[0] - coronetFront[0]) * part,
    coronetFront[1] + (coronetRear[1] - coronetFront[1]) * part - bow,
  ];
}

/** Coronet to ground along the measuring line at a part of the coronet, mm. */
export const wallAt = (part) => -coronetAt(part)[1] / Math.sin(angleAt(part));

/** The part of the coronet whose wall has this length, mm. */
export function partWithWall(mm) {
  let [low, high] = [0, 1];
  for (let i = 0; i < 40; i += 1) {
    const middle = (low + high) / 2;
    if (wallAt(middle) > mm) low = middle;
    else high = middle;
  }
  return low;
}

/** A point so many mm below the coronet along the measuring line. */
export const below = (part, mm) => {
  const [x, y] = coronetAt(part);
  const [dx, dy] = downFrom(part);
  return [x + dx * mm, y + dy * mm];
};

/** Evenly spaced parts of the coronet. */
export const parts = (from, to, steps = 14) =>
  Array.from({ length: steps + 1 }, (_, i) => from + ((to - from) * i) / steps);

/** The part of the coronet so many mm further back than another. */
export const backFrom = (part, mm) => part + mm / (coronetRear[0] - coronetFront[0]);

/** Millimetres to picture units; `mirror` turns the toe to the right. */
export function placing({ scale, originX, groundY, mirror, width }) {
  const put = ([x, y]) => {
    const px = originX + x * scale;
    return [mirror ? width - px : px, groundY + y * scale];
  };
  const turn = ([x, y]) => [mirror ? -x * scale : x * scale, y * scale];
  return { put, turn, scale, mirror };
}

/** Front edge of the leg at a height, for keeping hair on it. */
const frontAt = (y) => (y > -80 ? 67 - ((y + 80) / 14.8) * 15.7 : 67 + ((-80 - y) / 16) * 9);

/** Leg, soft band, wall with growth rings, heel and ground line. */
export function sideOfClaw(place, { rings = [9, 17, 26, 34, 43, 52, 61, 69] } = {}) {
  const { put } = place;
  const line = (points, attributes) => path(smooth(points.map(put)), attributes);
  const area = (points, attributes) => path(`${smooth(points.map(put))} Z`, attributes);
  const coronet = parts(0, 1).map(coronetAt);
  const hair = parts(-0.02, 1.02).map((p) => {
    const [x, y] = coronetAt(Math.min(Math.max(p, 0), 1));
    return [x + (p < 0 ? -1 : p > 1 ? 1 : 0) + 2.2, y - 4.6];
  });
  const legBack = [[129, -27], [127.5, -36], [127.5, -50], [124, -72], [126, -92], [129, -112]]; // prettier-ignore
  const legFront = [[82, -112], [76, -96], [67, -80], [51.3, -65.2]]; // prettier-ignore
  const cut = [[129, -112], [119, -114], [106, -111], [93, -114], [82, -112]]; // prettier-ignore
  const leg = [hair, [coronetRear, [122, -26]], legBack, cut, legFront]
    .map((edge) => smooth(edge.map(put)))
    .join(' ')
    .replaceAll(' M', ' L');
  const heelGround = below(1, wallAt(1))[0];
  const heel = [coronetRear, [127, -30.5], [133.5, -24], [136, -14], [133, -4.5], [126, -0.4], [116, 0], [heelGround, 0]]; // prettier-ignore
  const wall = [...coronet.map(put), put([heelGround, 0]), put([0, 0])];
  const out = [
    path(`${leg} Z`, { fill: ink.skin, stroke: 'none' }),
    line(legBack),
    line(legFront),
    line(cut, { stroke: ink.skinDeep, 'stroke-width': 1.6 }),
    path(`${smooth(heel.map(put))} Z`, { fill: ink.hornDeep, 'stroke-width': 2.4 }),
    line([[126, -25], [131, -17], [130.5, -8]], { stroke: ink.quiet, 'stroke-width': 1.4 }), // prettier-ignore
    path(`${through(wall)} Z`, { fill: ink.horn, 'stroke-width': 2.6 }),
    ...rings.map((mm) =>
      line(
        parts(0, 1)
          .filter((p) => wallAt(p) > mm + 1.5)
          .map((p) => below(p, mm)),
        { stroke: ink.hornDeep, 'stroke-width': 1.5 },
      ),
    ),
    area([...coronet, ...hair.toReversed()], { fill: ink.soft, 'stroke-width': 1.6 }),
    line(coronet, { 'stroke-width': 3 }),
  ];
  // Hair: short strokes lying down and forward above the soft band.
  for (let i = 0; i < 26; i += 1) {
    const p = 0.02 + (i / 26) * 0.98;
    const [x, y] = coronetAt(p);
    for (const lift of [7, 15, 24]) {
      const start = [x + 3.5 + lift * 0.35 + ((i * 7) % 5) * 0.5, y - lift - 3 - ((i * 5) % 4)];
      if (start[0] > 123 || start[0] < frontAt(start[1]) + 2) continue;
      out.push(
        line([start, [start[0] - 0.9, start[1] + 4.4]], { stroke: ink.skinDeep, 'stroke-width': 1.3 }),
      );
    }
  }
  const [groundLeft] = put([-14, 0]);
  const [groundRight, groundY] = put([146, 0]);
  out.push(path(`M${n(groundLeft)} ${n(groundY + 1)} L${n(groundRight)} ${n(groundY + 1)}`, { 'stroke-width': 2 })); // prettier-ignore
  return out.join('\n');
}
