import type { ScaleOptionsByType } from 'chart.js';
import { palette } from '../palette.js';

/** Values along an axis with the words for each, one line or several. */
export interface AxisTicks {
  readonly min: number;
  readonly max: number;
  readonly values: readonly number[];
  readonly text: (value: number) => string | string[];
}

/** Type of the words along an axis: the mark `s`. */
const scaleWords = { color: 's', font: { family: 'Growdown Sans', size: 11 } } as const;

/** An axis of numbers with the ticks it is told to have. `grid`: thin lines across the chart. */
export function numberAxis({ min, max, values, text }: AxisTicks, { grid }: { readonly grid: boolean }) {
  return {
    type: 'linear',
    min,
    max,
    afterBuildTicks: (axis: { ticks: { value: number }[] }) => {
      axis.ticks = values.map((value) => ({ value }));
    },
    ticks: {
      ...scaleWords,
      autoSkip: false,
      maxRotation: 0,
      padding: 5,
      callback: (value: string | number) => text(Number(value)),
    },
    grid: { display: grid, drawTicks: false, ...lineOf('rule') },
    border: grid ? { display: false } : { display: true, ...lineOf('thin') },
  } as const;
}

/** An axis of things that stand side by side, each with its words. */
export function namedAxis() {
  return {
    type: 'category',
    ticks: { ...scaleWords, autoSkip: false, maxRotation: 0, padding: 5 },
    grid: { display: false },
    border: { display: true, ...lineOf('thin') },
  } as const satisfies Partial<Record<keyof ScaleOptionsByType<'category'>, unknown>>;
}

/** A line of an axis as the palette has it. */
function lineOf(mark: string): {
  readonly color: string;
  readonly lineWidth: number;
  readonly width: number;
} {
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
