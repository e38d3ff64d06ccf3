import { label, line, path, px, rect } from './svg-mark.js';
import type { WallScale } from './wall-strip-words.js';
import type { ExpectedBar, WallBar } from './drawn-wall.js';
import type { Words } from '../reference/words.js';

/** Width of a bar, px. */
export const barWidth = 36;
/** How far the line of the reading stands out either side. */
const overhang = 4;
/** Height that a number of 13 px needs. */
const numberHeight = 18;

/** The fills of the drawing a bar stands in. */
export interface BarFills {
  readonly open: string;
  readonly covered: string;
  readonly expected: string;
}

/** One visit: wall above the line, the gap below it, the reading on the line. `x` is the middle of the bar. */
export function drawWallBar(
  bar: WallBar,
  x: number,
  scale: WallScale,
  fills: BarFills,
  words: Words,
): string {
  const left = x - barWidth / 2;
  const ground = scale.y(bar.wallMm);
  const full = (mark: string) => rect(mark, left, scale.coronetY, barWidth, ground - scale.coronetY);
  const foot = bar.lowered ? loweredFoot(left, ground) : '';
  if (bar.state === 'healed') return full('wall') + foot;
  if (bar.kind === 'not-reached') return full('wall') + notReached(bar, x, ground, scale, fills) + foot;
  if (bar.topMm === undefined) return full('gone') + label('n', x, (scale.coronetY + ground) / 2, '?') + foot;
  const top = Math.min(scale.y(bar.topMm), ground);
  return (
    rect(bar.unused ? 'pale' : 'wall', left, scale.coronetY, barWidth, top - scale.coronetY) +
    gap(bar, left, top, ground, scale, fills) +
    line(
      bar.kind === 'doubtful' || bar.unused ? 'unsure' : 'top',
      left - overhang,
      top,
      left + barWidth + overhang,
      top,
    ) +
    reading(bar, x, top, scale, words) +
    foot
  );
}

/**
 * The gap to the ground. Where loose wall was taken off only its outline is left, dashed, round a narrower gap;
 * where loose wall still stands over it, and before anything was taken off, the hatching fills the bar.
 */
function gap(
  bar: WallBar,
  left: number,
  top: number,
  ground: number,
  scale: WallScale,
  fills: BarFills,
): string {
  const fill = bar.state === 'covered' ? fills.covered : fills.open;
  const bare =
    bar.bareFromMm === undefined ? ground : Math.min(ground, Math.max(top, scale.y(bar.bareFromMm)));
  const inset = 7;
  const outline = (edge: string, x: number, from: number, width: number) =>
    ground <= from ? '' : path(edge, `M${px(x)} ${px(from)}V${px(ground)}h${px(width)}V${px(from)}`);
  return (
    rect('', left, top, barWidth, bare - top, fill) +
    (bare > top
      ? path('edge', `M${px(left)} ${px(bare)}V${px(top)}h${barWidth}V${px(bare)}${bare < ground ? '' : 'z'}`)
      : '') +
    outline('gone', left, bare, barWidth) +
    rect('', left + inset, bare, barWidth - 2 * inset, ground - bare, fill) +
    outline('edge', left + inset, bare, barWidth - 2 * inset)
  );
}

/** In the wall above its line where there is room, else just below it, its letters ringed with paper. */
/** Such as 27; `17 ?` when doubtful; `(17)` when it taught nothing. */
function reading(bar: WallBar, x: number, top: number, scale: WallScale, words: Words): string {
  const mm = words.number(px(bar.topMm ?? 0));
  const way = bar.kind === 'doubtful' ? 'doubtful' : bar.unused ? 'unused' : undefined;
  const text = way ? words.say(`figure.wall.number.${way}`, { mm }) : mm;
  if (top - scale.coronetY >= numberHeight) return label(bar.unused ? 'n' : 'nh', x, top - 5, text);
  return label('np', x, top + 15.5, text);
}

/** The gap goes on up under standing wall: no line, an arrow into the unknown. */
function notReached(bar: WallBar, x: number, ground: number, scale: WallScale, fills: BarFills): string {
  const tall = ground - scale.coronetY;
  const from = Math.max(
    scale.coronetY + Math.min(34, tall * 0.6),
    bar.topMm === undefined ? ground - tall * 0.4 : scale.y(bar.topMm),
  );
  const half = barWidth / 2 - 7;
  const tip = scale.coronetY + Math.min(22, tall * 0.4);
  return (
    rect('', x - half, from, 2 * half, ground - from, fills.open) +
    path('edge', `M${px(x - half)} ${px(from)}V${px(ground)}M${px(x + half)} ${px(from)}V${px(ground)}`) +
    path('top', `M${px(x)} ${px(from)}V${px(tip)}m-5 6l5-6l5 6`) +
    label('nh', x, tip - 6, '?')
  );
}

/** Two teeth under a wall that had been lowered. */
function loweredFoot(left: number, ground: number): string {
  return path('thin', `M${px(left - 3)} ${px(ground + 3)}l7-4l7 4l7-4l7 4l7-4l7 4`);
}

/** A later visit: paler, dashed, with the range the reading should lie in. */
export function drawExpectedBar(
  bar: ExpectedBar,
  wallMm: number,
  x: number,
  scale: WallScale,
  fills: BarFills,
): string {
  const left = x - barWidth / 2;
  const ground = scale.y(wallMm);
  const depth = (mm: number) => Math.min(scale.y(mm), ground);
  const [mean, low, high] = [depth(bar.meanMm), depth(bar.lowMm), depth(bar.highMm)];
  const text = String(Math.round(bar.meanMm));
  return (
    rect('dash', left, scale.coronetY, barWidth, mean - scale.coronetY) +
    rect('', left, mean, barWidth, ground - mean, fills.expected) +
    path('divide', `M${px(left)} ${px(mean)}V${px(ground)}h${barWidth}V${px(mean)}`) +
    path('thin', `M${px(x - 5)} ${px(low)}h10m-5 0V${px(high)}m-5 0h10`) +
    expectedNumber(text, x, low, high, ground, scale)
  );
}

/** Over the range where there is room, else under it, else on it. */
function expectedNumber(
  text: string,
  x: number,
  low: number,
  high: number,
  ground: number,
  scale: WallScale,
): string {
  if (low - scale.coronetY >= numberHeight) return label('e', x, low - 4, text);
  const top = ground - high >= numberHeight ? high + 2 : (low + high) / 2 - 7.5;
  return label('ep', x, top + 12, text);
}

/** The last bar: wall from coronet to ground, as it should be. */
export function drawOutBar(wallMm: number, x: number, scale: WallScale, out: string): string {
  const ground = scale.y(wallMm);
  return (
    rect('dash', x - barWidth / 2, scale.coronetY, barWidth, ground - scale.coronetY) +
    label('n', x, (scale.coronetY + ground) / 2 + 4, out)
  );
}
