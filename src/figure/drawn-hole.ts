import type { ClosingBar, ExpectedWidth } from './closing-strip-input.js';
import { label, line, path, px } from './svg-mark.js';

/** The fills of the drawing a hole stands in. */
export interface HoleFills {
  readonly open: string;
  readonly covered: string;
  readonly expected: string;
}

/** A hole seen from below round its middle: width across, length up and down; heavy arcs are the edges that should meet. */
export function drawHole(bar: ClosingBar, x: number, y: number, pxPerMm: number, fills: HoleFills): string {
  const closed = bar.reads === 'covered' || bar.reads === 'healed';
  if (!bar.widthMm) {
    if (closed) return line('top', x, y - 14, x, y + 14);
    return oval('gone', x, y, 16, 16) + label('n', x, y + 4.5, '?');
  }
  const [across, along] = [bar.widthMm, bar.lengthMm ?? bar.widthMm].map((mm) => (mm * pxPerMm) / 2) as [
    number,
    number,
  ];
  const fill = closed ? fills.covered : fills.open;
  if (bar.lengthMm === undefined) return oval('gone', x, y, across, along, fill);
  return oval('edge', x, y, across, along, fill) + (bar.unused ? '' : sides(x, y, across, along));
}

/** A later visit: a dashed round of the expected width, and under it from the widest to the narrowest likely one. */
export function drawExpectedHole(
  of: ExpectedWidth,
  x: number,
  y: number,
  pxPerMm: number,
  fills: HoleFills,
): string {
  const [low, mean, high] = [of.lowMm, of.meanMm, of.highMm].map((mm) => (Math.max(0, mm) * pxPerMm) / 2) as [
    number,
    number,
    number,
  ];
  const under = y + Math.max(mean, 4) + 9;
  const range = (sign: 1 | -1) =>
    `M${px(x + sign * low)} ${px(under - 4)}v8m0-4H${px(x + sign * high)}m0-4v8`;
  return (
    (mean > 0 ? oval('dash', x, y, mean, mean, fills.expected) : line('unsure', x, y - 10, x, y + 10)) +
    path('thin', range(-1) + range(1))
  );
}

function oval(mark: string, x: number, y: number, across: number, along: number, fill?: string): string {
  const shape = (look: string) =>
    `<ellipse ${look} cx="${px(x)}" cy="${px(y)}" rx="${px(across)}" ry="${px(along)}"/>`;
  if (fill === undefined) return shape(`class="${mark}"`);
  return shape(`fill="${fill}"`) + shape(`class="${mark}"${mark === 'edge' ? '' : ' fill-opacity="0"'}`);
}

/** The middle part of each side, heavy. */
function sides(x: number, y: number, across: number, along: number): string {
  const [dx, dy] = [across * 0.8, along * 0.6];
  const side = (sign: 1 | -1) =>
    `M${px(x + sign * dx)} ${px(y - dy)}A${px(across)} ${px(along)} 0 0 ${sign === 1 ? 1 : 0} ${px(x + sign * dx)} ${px(y + dy)}`;
  return path('top', side(1) + side(-1));
}
