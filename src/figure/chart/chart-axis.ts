import type { ScaleOptionsByType } from 'chart.js';
import { palette, hatch, type Figure } from '../figure.js';
import { label, rect, px, path } from '../svg-mark.js';
import { textWidth } from '../wrap-text.js';

/** Values along an axis with the words for each, one line or several. */
interface AxisTicks {
  readonly min: number;
  readonly max: number;
  readonly values: readonly number[];
  readonly text: (value: number) => string | string[];
}

/** The words along an axis: the mark `s`. */
const words = {
  color: 's',
  font: { family: 'Growdown Sans', size: 11 },
  autoSkip: false,
  maxRotation: 0,
  padding: 5,
} as const;

/** An axis of numbers with the ticks it is to have. `grid`: thin lines across the chart. */
export function numberAxis({ min, max, values, text }: AxisTicks, { grid }: { readonly grid: boolean }) {
  return {
    type: 'linear',
    min,
    max,
    afterBuildTicks: (axis: { ticks: { value: number }[] }) => {
      axis.ticks = values.map((value) => ({ value }));
    },
    ticks: { ...words, callback: (value: string | number) => text(Number(value)) },
    grid: { display: grid, drawTicks: false, ...lineOf('rule') },
    border: grid ? { display: false } : { display: true, ...lineOf('thin') },
  } as const;
}

/** An axis of things that are side by side, each with its words. */
export function namedAxis() {
  return {
    type: 'category',
    ticks: words,
    grid: { display: false },
    border: { display: true, ...lineOf('thin') },
  } as const satisfies Partial<Record<keyof ScaleOptionsByType<'category'>, unknown>>;
}

/** A line of an axis as the palette has it. */
function lineOf(mark: string) {
  const width = Number(palette().marks[mark]?.['stroke-width']);
  return { color: mark, lineWidth: width, width };
}

/** Round steps from 0 to a number and a little past it. @example stepsTo(23, 5) // → [0, 5, 10, 15, 20, 25] */
export function stepsTo(most: number, about: number): number[] {
  const rough = Math.max(most, Number.MIN_VALUE) / about;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = power * ([1, 2, 5, 10].find((times) => times * power >= rough * (1 - 1e-9)) ?? 10);
  const count = Math.ceil(most / step - 1e-9);
  // Worked out anew for each, for sums of tenths run off.
  return Array.from({ length: Math.max(1, count) + 1 }, (_, at) => Number((at * step).toPrecision(12)));
}

/** One sign of a chart and what it means. */
interface LegendLine {
  /** Drawn 20 px wide and 12 high from a place on, with its upper left corner there. */
  readonly sign: (x: number, y: number) => string;
  readonly text: string;
}

const rowHeight = 18;
const signWidth = 20;
const beside = 8;

/** Over a chart: signs with their words, as many beside each other as there is room for; `false` for one that does not occur. */
export function drawLegend(
  lines: readonly (LegendLine | false)[],
  width: number,
): { readonly body: string; readonly height: number } {
  const right = width - beside;
  let [x, row] = [beside, 0];
  const drawn = lines
    .filter((one) => one !== false)
    .map(({ sign, text }) => {
      const needed = signWidth + 6 + textWidth(text, 12);
      if (x > beside && x + needed > right) [x, row] = [beside, row + 1];
      const y = 4 + row * rowHeight;
      const from = x + signWidth + 6;
      const one = sign(x, y) + label('t', from, y + 10.5, text, 'start', right - from);
      x += needed + 16;
      return one;
    });
  return { body: drawn.join(''), height: (row + 1) * rowHeight };
}

/** A way to fill a bar that can be distinguished without colour. */
interface Paint {
  /** As a chart takes it: a mark of the palette or `url(#…)`. */
  readonly fill: string;
  readonly def: string;
}

/**
 * Ways to fill the parts of a bar, distinguished by their pattern: plain, slanting lines, dark, squares, and thin lines far
 * apart, the last for what is lumped together.
 */
export function kindPaints(id: string): readonly [Paint, Paint, Paint, Paint, Paint] {
  return [
    { fill: 'wall', def: '' },
    hatch(id, 'open'),
    { fill: 'block', def: '' },
    hatch(id, 'covered'),
    hatch(id, 'expected'),
  ];
}

/** A small rectangle so filled, with an outline, for a legend. */
export function paintSign(fill: string): (x: number, y: number) => string {
  const isPattern = fill.startsWith('url(');
  return (x, y) => rect(fill, x, y, 20, 12, isPattern ? fill : undefined) + rect('outline', x, y, 20, 12);
}

/** A range as an upright line with a foot and a head. */
export function rangeMark(x: number, fromY: number, toY: number): string {
  return path('thin', `M${px(x - 4)} ${px(fromY)}h8m-4 0V${px(toY)}m-4 0h8`);
}

/** That line in a legend. */
export const rangeSign = (x: number, y: number): string => rangeMark(x + 10, y + 12, y);

/** A chart with its words. Its table is the page's own: the fuller one that is folded beneath. */
export type ChartFigure = Omit<Figure, 'table'>;
