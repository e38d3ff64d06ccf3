import { claws, type Claw, type Foot } from '../record/words.js';
import { z } from 'zod';
import { readShared } from '../reference/read-shared.js';
import type { Words } from '../reference/words.js';
import type { Box } from './place-tags.js';
import { label, path } from './svg-mark.js';
import { textWidth } from './wrap-text.js';

const point = z.tuple([z.number(), z.number()]);
const viewShape = z.strictObject({
  width: z.number(),
  height: z.number(),
  lines: z.array(z.strictObject({ mark: z.string(), d: z.string() })),
  sites: z.record(z.string(), point),
  both: z.record(z.string(), point),
});
const sideShape = viewShape.extend({ wallLines: z.record(z.string(), z.tuple([point, point])) });
const sheetShape = z.strictObject({ about: z.string(), below: viewShape, side: sideShape });
type FootView = z.infer<typeof viewShape>;
export type FootPoint = readonly [x: number, y: number];

let read: z.infer<typeof sheetShape> | undefined;

/** The drawn foot: its lines and where each site lies. */
export function footShape() {
  return (read ??= readShared('foot-map.json', sheetShape));
}

/**
 * The sheet a foot is drawn on: both claws from below at the left, each claw from its own side at the right. As wide
 * as the column of a small phone, so that it is never scrolled, and two are side by side on paper.
 */
export const footSheet = { width: 288, height: 214 } as const;
const below = { x: 2, y: 17, scale: 0.66 };
const side = { x: 166, y: { outer: -1, inner: 104 }, scale: 0.54 } as const;

/** The outer claw lies on the right of a left foot seen from below, on the left of a right one. */
function outerOnRight(foot: Foot): boolean {
  return foot[0] === 'L';
}

/** A left foot's outer side is seen with the toe to the left, its inner side with the toe to the right; a right foot's the other way. */
function toeRight(foot: Foot, claw: Claw): boolean {
  return outerOnRight(foot) === (claw === 'inner');
}

/** From a place in the view from below to the sheet; of the claw named, or of the whole foot. */
export function placeBelow(foot: Foot, claw: Claw | undefined, [x, y]: FootPoint): FootPoint {
  const mirrored = claw !== undefined && (claw === 'outer') !== outerOnRight(foot);
  const across = mirrored ? footShape().below.width - x : x;
  return [below.x + across * below.scale, below.y + y * below.scale];
}

/** From a place in the view of one claw from its side to the sheet. */
export function placeAside(foot: Foot, claw: Claw, [x, y]: FootPoint): FootPoint {
  const across = toeRight(foot, claw) ? footShape().side.width - x : x;
  return [side.x + across * side.scale, side.y[claw] + y * side.scale];
}

/** Where on the sheet each view begins, how wide and how high it is, px. */
export const viewsOnSheet = { below: [0, 164, 190], aside: [164, 124, 214] } as const;

const drawn = new Map<string, string>();

/** The foot without lesions: the same for all of one side, so drawn once. A `<use>` would be out of the style sheet's reach. */
export function drawFoot(foot: Foot): string {
  const known = drawn.get(foot[0]!);
  if (known !== undefined) return known;
  const shape = footShape();
  const claw = linesOf(shape.below);
  const profile = linesOf(shape.side);
  const sides = claws.map((of) => {
    const flip = toeRight(foot, of);
    const x = flip ? side.x + shape.side.width * side.scale : side.x;
    return `<g transform="matrix(${flip ? -side.scale : side.scale} 0 0 ${side.scale} ${x} ${side.y[of]})">${profile}</g>`;
  });
  const svg =
    `<g transform="matrix(${below.scale} 0 0 ${below.scale} ${below.x} ${below.y})">${claw}` +
    `<g transform="matrix(-1 0 0 1 ${shape.below.width} 0)">${claw}</g></g>${sides.join('')}`;
  drawn.set(foot[0]!, svg);
  return svg;
}

/** Neighbours of one mark as one path. */
function linesOf({ lines }: FootView): string {
  return lines
    .map(({ mark, d }, at) => {
      if (lines[at - 1]?.mark === mark) return '';
      const end = lines.findIndex((other, of) => of > at && other.mark !== mark);
      const run = lines.slice(at, end < 0 ? undefined : end);
      return path(mark, run.map((of) => of.d).join('') || d);
    })
    .join('');
}

/** The names of the two claws in one view, so wide that they have room there at 16 px too. */
export function clawsNamed(foot: Foot, view: keyof typeof viewsOnSheet, words: Words): string {
  const { below: from, side: profile } = footShape();
  const placed = claws.map((claw) => {
    const isRight = outerOnRight(foot) === (claw === 'outer');
    const x = view === 'below' ? below.x + from.width * (isRight ? 0.7 : 0.3) * below.scale : side.x + (profile.width * side.scale) / 2; // prettier-ignore
    const y = view === 'below' ? 17 : side.y[claw] + profile.height * side.scale + 8;
    return label('t', x, y, words.say(`figure.foot.${claw}`), 'middle', 46);
  });
  return placed.join('');
}

const named = new Map<string, ReturnType<typeof nameAt>[]>();

/** The names of the views and of the two claws, with the room they take. */
export function namesOfViews(foot: Foot, words: Words) {
  const key = `${words.language} ${foot[0]}`;
  const known = named.get(key);
  if (known) return known;
  const say = (of: string, values = {}) => words.say(`figure.foot.${of}`, values);
  const wall = words.say('vocabulary.site.abaxial wall');
  const { below: from, side: profile } = footShape();
  const across = (share: number) => below.x + from.width * share * below.scale;
  const [outerX, innerX] = outerOnRight(foot) ? [0.7, 0.3] : [0.3, 0.7];
  const middle = side.x + (profile.width * side.scale) / 2;
  const outside = (claw: Claw) =>
    nameAt(say('outside', { claw: say(claw), wall }), middle, side.y[claw] + profile.height * side.scale + 4);
  const names = [
    nameAt(say('outer'), across(outerX), 12),
    nameAt(say('inner'), across(innerX), 12),
    nameAt(say('below'), across(1 / 2), below.y + from.height * below.scale + 20),
    outside('outer'),
    outside('inner'),
  ];
  named.set(key, names);
  return names;
}

function nameAt(text: string, x: number, y: number): { readonly drawn: string; readonly box: Box } {
  const half = Math.min(textWidth(text, 12) / 2, x - 2, footSheet.width - x - 2);
  return {
    drawn: label('t', x, y, text, 'middle', 2 * half),
    box: { x: x - half, y: y - 11, width: 2 * half, height: 14 },
  };
}
