import { claws, type Claw } from '../record/words.js';
import type { Words } from '../words/words.js';
import { drawing } from './drawing.js';
import type { Figure, FigureTable } from './figure.js';
import type { FootMapInput, FootMapLesion } from './foot-map-input.js';
import { footShape, type FootView } from './foot-shape.js';
import { hatch } from './hatch.js';
import { placeInWords } from './place-in-words.js';
import { placeTags, type Box } from './place-tags.js';
import { circle, label, line, path, px } from './svg-mark.js';
import { textWidth } from './text-width.js';

const belowAt = { x: 24, y: 22 };
const sideX = 300;
const sideY: Readonly<Record<Claw, number>> = { outer: 4, inner: 152 };
const sideScale = 0.8;
const [width, height] = [496, 304];
const dot = 8;

/**
 * One foot: both claws from below, and each claw from its own side, with a mark where each lesion sits and its short
 * name beside it. Seen from below with the toes up, the outer claw of a left foot lies on the right.
 */
export function footMap(input: FootMapInput, words: Words): Figure {
  const foot = placeInWords(input.foot, undefined, words);
  const title = words.say('figure.foot.title', { foot });
  const spots = input.lesions.flatMap((lesion) => {
    const at = spotOf(lesion, input);
    return at ? [{ lesion, ...at }] : [];
  });
  const fill = hatch(input.id, 'open');
  const names = namesOfViews(input, words);
  const marks = spread(spots);
  const tags = placeTags(
    marks.map(({ lesion, x, y }) => ({ x, y, width: textWidth(lesion.lesion, 13, 'bold') + 8 })),
    names.map(({ box }) => box),
    { width, height },
    dot,
  );
  const body =
    drawFoot() +
    names.map(({ drawn }) => drawn).join('') +
    marks.map((mark, at) => drawMark(mark, tags[at]!, fill.fill)).join('');
  const description = input.lesions.map((lesion) => `${lesionInWords(lesion, foot, words)}.`).join(' ');
  return {
    svg: drawing({
      id: input.id,
      width,
      height,
      title,
      description,
      defs: body.includes(fill.fill) ? fill.def : '',
      body,
    }),
    title,
    description,
    notes: [
      ...input.lesions.map((lesion) => `${lesionInWords(lesion, foot, words)}.`),
      words.say('figure.foot.note'),
    ],
    table: tableOf(input, foot, words),
  };
}

/** The outer claw lies on the right of a left foot seen from below, on the left of a right one. */
function outerOnRight({ foot }: FootMapInput): boolean {
  return foot[0] === 'L';
}

interface Spot {
  readonly x: number;
  readonly y: number;
}

/** Where a lesion's site lies in the drawing; undefined where no site, or no claw for a claw's site, is written. */
function spotOf({ site, claw }: FootMapLesion, input: FootMapInput): Spot | undefined {
  if (site === undefined) return undefined;
  const { below, side } = footShape();
  const foot = below.both[site];
  if (foot) return { x: belowAt.x + foot[0], y: belowAt.y + foot[1] };
  const inFront = side.both[site];
  if (inFront) return sideSpot('outer', inFront);
  if (claw === undefined) return undefined;
  const sole = below.sites[site];
  if (sole) {
    const right = (claw === 'outer') === outerOnRight(input);
    return { x: belowAt.x + (right ? sole[0] : below.width - sole[0]), y: belowAt.y + sole[1] };
  }
  const wall = side.sites[site];
  return wall && sideSpot(claw, wall);
}

function sideSpot(claw: Claw, [x, y]: readonly [number, number]): Spot {
  return { x: sideX + x * sideScale, y: sideY[claw] + y * sideScale };
}

/** Lesions on one site stand side by side. */
function spread(spots: readonly ({ readonly lesion: FootMapLesion } & Spot)[]) {
  return spots.map((spot, at) => {
    const before = spots.slice(0, at).filter(({ x, y }) => x === spot.x && y === spot.y).length;
    return { ...spot, x: spot.x + before * (2 * dot + 3) };
  });
}

function linesOf({ lines }: FootView): string {
  return lines.map(({ mark, d }) => path(mark, d)).join('');
}

let drawnFoot: string | undefined;

/**
 * The foot without lesions: the same for all, so drawn once. The claw stands twice, once as its mirror image: a
 * `<use>` would be out of the style sheet's reach.
 */
function drawFoot(): string {
  if (drawnFoot !== undefined) return drawnFoot;
  const { below, side } = footShape();
  const claw = linesOf(below);
  const sides = claws.map(
    (of) => `<g transform="translate(${sideX} ${sideY[of]}) scale(${sideScale})">${linesOf(side)}</g>`,
  );
  return (drawnFoot =
    `<g transform="translate(${belowAt.x} ${belowAt.y})">${claw}` +
    `<g transform="matrix(-1 0 0 1 ${below.width} 0)">${claw}</g></g>${sides.join('')}`);
}

function name(text: string, x: number, y: number, mark: string) {
  const half = textWidth(text, 12) / 2;
  return { drawn: label(mark, x, y, text), box: { x: x - half, y: y - 11, width: 2 * half, height: 14 } };
}

/** The names of the views and of the two claws, with the room they take. */
function namesOfViews(input: FootMapInput, words: Words): { readonly drawn: string; readonly box: Box }[] {
  const say = (key: string) => words.say(`figure.foot.${key}`);
  const { below, side } = footShape();
  const right = belowAt.x + below.width * 0.7;
  const left = belowAt.x + below.width * 0.3;
  const [outerX, innerX] = outerOnRight(input) ? [right, left] : [left, right];
  const sideMiddle = sideX + (side.width * sideScale) / 2;
  return [
    name(say('outer'), outerX, 16, 't'),
    name(say('inner'), innerX, 16, 't'),
    name(say('below'), belowAt.x + below.width / 2, belowAt.y + below.height + 20, 's'),
    name(say('outer-side'), sideMiddle, sideY.outer + side.height * sideScale + 2, 's'),
    name(say('inner-side'), sideMiddle, sideY.inner + side.height * sideScale + 2, 's'),
  ];
}

function drawMark(
  { x, y, lesion }: Spot & { readonly lesion: FootMapLesion },
  tag: Box,
  fill: string,
): string {
  const middle = { x: tag.x + tag.width / 2, y: tag.y + tag.height / 2 };
  return (
    line('thin', x, y, middle.x, middle.y) +
    (lesion.healed
      ? circle('gone', x, y, dot)
      : `${circle('plate', x, y, dot)}<circle fill="${fill}" cx="${px(x)}" cy="${px(y)}" r="${dot}"/>${circle('up', x, y, dot)}`) +
    label('np', middle.x, middle.y + 4.5, lesion.lesion)
  );
}

function lesionInWords(lesion: FootMapLesion, foot: string, words: Words): string {
  return words.say('figure.foot.mark', {
    lesion: lesion.lesion,
    name: lesion.name,
    where: whereInWords(lesion, foot, words),
  });
}

function whereInWords({ claw, site }: FootMapLesion, foot: string, words: Words): string {
  const parts = [
    claw && words.say(`vocabulary.claw.${claw}`),
    site && words.say(`vocabulary.site.${site}`),
  ].filter((part) => part !== undefined);
  return parts.length ? parts.join(', ') : words.say('figure.foot.whole', { foot });
}

function tableOf({ lesions }: FootMapInput, foot: string, words: Words): FigureTable {
  const say = (key: string) => words.say(`figure.foot.column.${key}`);
  return {
    caption: words.say('figure.foot.caption', { foot }),
    columns: [say('lesion'), say('name'), say('where')],
    rows: lesions.map((lesion) => [lesion.lesion, lesion.name, whereInWords(lesion, foot, words)]),
  };
}
