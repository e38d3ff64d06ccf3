import type { Words } from '../reference/words.js';
import { drawing, type Figure, type FigureTable, figureOf, hatch } from './figure.js';
import { drawFoot, footSheet, footShape, namesOfViews, viewsOnSheet, clawsNamed } from './foot-sheet.js';
import { type FootMapInput, type FootMapLesion, footSpots, type FootSpot } from './foot-spots.js';
import { placeInWords } from '../words/day-and-place.js';
import { placeTags, type Box } from './place-tags.js';
import { circle, label, line, px } from './svg-mark.js';
import { textWidth, cutText } from './wrap-text.js';

const dot = 6.5;
const dotBefore = 4;
/** A longer short name is cut; the words beneath have it whole. */
const longestName = 84;

/**
 * One foot: both claws from below, and each claw from its own side, with a mark where each lesion sits and its short
 * name beside it; hollow where it was. Seen from below with the toes up, the outer claw of a left foot lies on the right.
 */
export function footMap(input: FootMapInput, words: Words): Figure {
  const foot = placeInWords(words, input.foot);
  const title = words.say('figure.foot.title', { foot });
  const fill = hatch(input.id, 'open');
  const names = namesOfViews(input.foot, words);
  const spots = footSpots(input);
  const short = spots.map(({ lesion }) => cutText(lesion, longestName, 13, 'bold'));
  const tags = placeTags(
    spots.map(({ x, y }, at) => ({ x, y, width: textWidth(short[at]!, 13, 'bold') + 6 })),
    [...names.map(({ box }) => box), ...spots.flatMap(({ from }) => (from ? [boxRound(from)] : []))],
    footSheet,
    dot,
  );
  const body =
    drawFoot(input.foot) +
    names.map(({ drawn }) => drawn).join('') +
    spots.map(drawBefore).join('') +
    spots.map((spot, at) => drawSpot(spot, short[at]!, tags[at]!, fill.fill)).join('');
  const description = lesionsInWords(input, foot, words).join(' ');
  const defs = body.includes(fill.fill) ? fill.def : '';
  return figureOf(
    { id: input.id, ...footSheet, title, description, defs, body },
    { notes: footMapNotes(input, spots, foot, words), table: footMapTable(input, foot, words) },
  );
}

/**
 * One view of a foot, to be marked by hand: the one in which the lesion's site is seen, with the site as it is declared
 * and nothing that was measured. Without a lesion it is any foot, and no claw is named: left and right mirror each other.
 */
export function footToMark({ id, foot, lesions: [lesion] }: FootMapInput, words: Words): string {
  const { gap: _gap, ...sited } = lesion ?? { healed: false, lesion: '', name: '' };
  const { sites, both } = footShape().side;
  const view = sited.site && (sites[sited.site] ?? both[sited.site]) ? 'aside' : 'below';
  const [from, width, height] = viewsOnSheet[view];
  const fill = hatch(id, 'open');
  const spots = footSpots({ id, foot, lesions: [sited] });
  const body =
    drawFoot(foot) +
    (lesion ? clawsNamed(foot, view, words) : '') +
    spots.map((spot) => drawDot(spot, fill.fill)).join('');
  const place = placeInWords(words, foot);
  return drawing({
    id,
    width,
    height,
    title: words.say(lesion ? 'figure.foot.title' : 'figure.foot.any', { foot: place }),
    description: lesion
      ? lesionsInWords({ id, foot, lesions: [sited] }, place, words).join(' ')
      : words.say('figure.foot.to-mark'),
    defs: spots.length > 0 ? fill.def : '',
    body: from === 0 ? body : `<g transform="translate(-${from} 0)">${body}</g>`,
  });
}

function boxRound([x, y]: readonly [number, number]): Box {
  return { x: x - dotBefore, y: y - dotBefore, width: 2 * dotBefore, height: 2 * dotBefore };
}

/** Where the top was first, and the way it has come. */
function drawBefore({ x, y, from }: FootSpot): string {
  return from ? line('thin', from[0], from[1], x, y) + circle('gone', from[0], from[1], dotBefore) : '';
}

function drawSpot(spot: FootSpot, name: string, tag: Box, fill: string): string {
  const middle = { x: tag.x + tag.width / 2, y: tag.y + tag.height / 2 };
  return (
    line('thin', spot.x, spot.y, middle.x, middle.y) +
    drawDot(spot, fill) +
    label('np', middle.x, middle.y + 4.5, name)
  );
}

function drawDot({ x, y, was }: FootSpot, fill: string): string {
  if (was) return circle('gone', x, y, dot);
  return `${circle('plate', x, y, dot)}<circle fill="${fill}" cx="${px(x)}" cy="${px(y)}" r="${dot}"/>${circle('up', x, y, dot)}`;
}

/** Each lesion with its full name and place, one sentence each. */
function lesionsInWords({ lesions }: FootMapInput, foot: string, words: Words): string[] {
  return lesions.map((lesion) =>
    words.say('figure.foot.mark', {
      lesion: lesion.lesion,
      name: lesion.name,
      where: whereInWords(lesion, foot, words),
    }),
  );
}

/** What the marks mean: only those that occur. */
function footMapNotes(input: FootMapInput, spots: readonly FootSpot[], foot: string, words: Words): string[] {
  const say = (key: string) => words.say(`figure.foot.note.${key}`);
  return [
    ...lesionsInWords(input, foot, words),
    ...(spots.some(({ was }) => was) ? [say('healed')] : []),
    ...(spots.some(({ from }) => from) ? [say('came-down')] : []),
    say('place'),
  ];
}

/** Every lesion with its place, and of a measured gap how far down its top is and was at first. */
function footMapTable({ lesions }: FootMapInput, foot: string, words: Words): FigureTable {
  const say = (key: string) => words.say(`figure.foot.column.${key}`);
  const measured = lesions.some(({ gap }) => gap);
  const mm = (value: number | undefined) => (value === undefined ? '' : words.number(px(value)));
  return {
    caption: words.say('figure.foot.caption', { foot }),
    columns: [say('lesion'), say('name'), say('where'), ...(measured ? [say('first'), say('now')] : [])],
    rows: lesions.map((lesion) => [
      lesion.lesion,
      lesion.name,
      whereInWords(lesion, foot, words),
      ...(measured ? [mm(lesion.gap?.firstMm), mm(lesion.gap?.topMm)] : []),
    ]),
  };
}

function whereInWords({ claw, site, healed }: FootMapLesion, foot: string, words: Words): string {
  const parts = [claw && words.say(`vocabulary.claw.${claw}`), site && words.say(`vocabulary.site.${site}`)];
  const where = words.commas(parts) || words.say('figure.foot.whole', { foot });
  return healed ? words.say('figure.foot.was', { where }) : where;
}
