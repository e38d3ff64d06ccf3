import type { Words } from '../reference/words.js';
import { drawing, type Figure, hatch } from './figure.js';
import { label, line, path, px, rect } from './svg-mark.js';
import type { WallBar, WallStripInput } from './drawn-wall.js';
import { placeInWords } from '../words/day-and-place.js';
import { wallStripDescription, wallStripTable } from './wall-strip-words.js';

const [width, height] = [64, 84];
const [bar, pitch, left, coronetY, groundY] = [11, 15, 3.5, 16, 66];

/**
 * The wall strip small enough for a row of them on page one: the last three readings and the next expected, the
 * latest reading in figures beneath. All walls are drawn equally tall, so it shows the way, not the length.
 */
export function smallStrip(input: WallStripInput, words: Words): Figure {
  const title = words.say('figure.small.title', {
    lesion: input.lesion,
    place: placeInWords(words, input.foot, input.claw),
  });
  const description = wallStripDescription(input, words);
  const id = `${input.id}-s`;
  const [open, later] = [hatch(id, 'open'), hatch(id, 'expected')];
  const shown = input.bars.slice(-3);
  const x = (at: number) => left + (at + 3 - shown.length) * pitch;
  const body =
    shown.map((of, at) => drawSmallBar(of, x(at), open.fill)).join('') +
    drawNext(input, left + 3 * pitch, later.fill) +
    line('thin', 1, coronetY, width - 1, coronetY) +
    label('n', width / 2, height - 4, latestInWords(input, words));
  return {
    svg: drawing({
      id,
      width,
      height,
      title,
      description,
      defs: [open, later].map(({ def, fill }) => (body.includes(fill) ? def : '')).join(''),
      body,
    }),
    title,
    description,
    notes: [],
    table: wallStripTable(input, title, words),
  };
}

const tall = groundY - coronetY;

function depth(mm: number, wallMm: number): number {
  return coronetY + tall * Math.min(1, Math.max(0, mm) / Math.max(wallMm, 1));
}

function drawSmallBar(of: WallBar, x: number, fill: string): string {
  if (of.state === 'healed') return rect('wall', x, coronetY, bar, tall);
  if (of.topMm === undefined || of.kind === 'not-reached')
    return rect('gone', x, coronetY, bar, tall) + label('k', x + bar / 2, coronetY + tall / 2 + 4, '?');
  const top = depth(of.topMm, of.wallMm);
  return (
    rect(of.unused ? 'pale' : 'wall', x, coronetY, bar, top - coronetY) +
    rect('', x, top, bar, groundY - top, fill) +
    rect('edge', x, top, bar, groundY - top) +
    line('top', x - 1, top, x + bar + 1, top) +
    signOver(of, x + bar / 2)
  );
}

/** Over the bar: ran up, held, doubtful, at the coronet. */
function signOver({ kind }: WallBar, x: number): string {
  if (kind === 'ran-up') return path('up', `M${px(x)} 13V4m-4 4l4-4l4 4`);
  if (kind === 'held') return path('up', `M${px(x - 5)} 6h10m-10 4h10`);
  if (kind === 'doubtful') return label('k', x, 12, '?');
  return kind === 'at-coronet' ? path('up', `M${px(x - 4)} 6l8 7m0-7l-8 7`) : '';
}

function drawNext({ expected, wall, out }: WallStripInput, x: number, fill: string): string {
  const next = expected[0];
  if (next) {
    const [low, mean, high] = [next.lowMm, next.meanMm, next.highMm].map((mm) => depth(mm, wall.mm)) as [
      number,
      number,
      number,
    ];
    return (
      rect('dash', x, coronetY, bar, mean - coronetY) +
      rect('', x, mean, bar, groundY - mean, fill) +
      path('divide', `M${px(x)} ${px(mean)}V${groundY}h${bar}V${px(mean)}`) +
      path('thin', `M${px(x + bar / 2)} ${px(low)}V${px(high)}m-3 0h6M${px(x + bar / 2 - 3)} ${px(low)}h6`)
    );
  }
  if (out) return rect('dash', x, coronetY, bar, tall);
  return '';
}

function latestInWords({ bars }: WallStripInput, words: Words): string {
  const latest = bars.at(-1);
  if (latest?.state === 'healed') return words.say('figure.wall.bar.healed');
  if (latest?.topMm === undefined || latest.kind === 'not-reached') return '?';
  return words.say('figure.mm', { mm: words.number(px(latest.topMm)) });
}
