import { label } from '../svg-mark.js';
import { textWidth } from '../text-width.js';

/** One sign of a chart and what it means. */
export interface LegendLine {
  /** Drawn 20 px wide and 12 high from a place on, with its upper left corner there. */
  readonly sign: (x: number, y: number) => string;
  readonly text: string;
}

const rowHeight = 18;
const signWidth = 20;

/** Signs with their words, as many beside each other as there is room for. */
export function drawLegend(
  lines: readonly LegendLine[],
  { left, top, width }: { readonly left: number; readonly top: number; readonly width: number },
): { readonly body: string; readonly height: number } {
  let [x, row] = [left, 0];
  const drawn = lines.map(({ sign, text }) => {
    const needed = signWidth + 6 + textWidth(text, 12);
    if (x > left && x + needed > left + width) [x, row] = [left, row + 1];
    const y = top + row * rowHeight;
    const one = sign(x, y) + label('t', x + signWidth + 6, y + 10.5, text, 'start');
    x += needed + 16;
    return one;
  });
  return { body: drawn.join(''), height: lines.length === 0 ? 0 : (row + 1) * rowHeight };
}
