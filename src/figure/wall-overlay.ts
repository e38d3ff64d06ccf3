import { path, px } from './svg-mark.js';
import { barWidth } from './wall-bar.js';
import type { NoteLine, WallColumn } from './wall-columns.js';
import type { WallScale } from './wall-scale.js';
import type { HeldStretch, WallBar } from './drawn-wall.js';

/** A bar with its middle, and the one column before it where that is a bar too. */
export interface PlacedBar {
  readonly bar: WallBar;
  readonly x: number;
  readonly notes: readonly NoteLine[];
}

export function placesOfBars(columns: readonly WallColumn[], middle: (at: number) => number): PlacedBar[] {
  return columns.flatMap((column, at) =>
    column.what === 'bar' ? [{ bar: column.bar, x: middle(at), notes: column.notes }] : [],
  );
}

/** A bracket over the bars of each stretch in which the top stood still; cut at the bars that are shown. */
export function drawHeldBrackets(
  held: readonly HeldStretch[],
  bars: readonly PlacedBar[],
  y: number,
): string {
  return held
    .map(({ from, to }) => {
      const inside = bars.filter(({ bar }) => bar.date >= from && bar.date <= to);
      const [first, last] = [inside[0], inside.at(-1)];
      if (!first || !last) return '';
      const half = barWidth / 2;
      return path('up', `M${px(first.x - half)} ${px(y + 6)}v-6H${px(last.x + half)}v6`);
    })
    .join('');
}

/** Less would be all head, px. */
const shortestArrow = 8;

/**
 * An arrow left of a bar whose top was found higher: from where growth would have brought it, else from the reading
 * before, up to where it was found.
 */
export function drawRunUps(bars: readonly PlacedBar[], scale: WallScale, pitch: number): string {
  return bars
    .map(({ bar, x }, at) => {
      if (bar.kind !== 'ran-up' || bar.topMm === undefined) return '';
      const before = bars[at - 1]?.bar.topMm;
      const fromMm = bar.ranUpMm === undefined ? before : bar.topMm + bar.ranUpMm;
      if (fromMm === undefined || fromMm <= bar.topMm) return '';
      const [tip, tail] = [scale.y(bar.topMm), Math.min(scale.y(fromMm), scale.groundY)];
      if (tail - tip < shortestArrow) return '';
      const arrowX = x - pitch / 2 + 1;
      return path(
        'up',
        `M${px(arrowX)} ${px(tail)}V${px(tip + 1)}m-4 6l4-6l4 6M${px(arrowX - 4)} ${px(tail)}h8`,
      );
    })
    .join('');
}
