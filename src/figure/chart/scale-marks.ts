import { circle, path, px, rect } from '../svg-mark.js';

/** A mark of the rounds on one scale: as Chart.js names its shape, as the palette names its look, and drawn by itself. */
export interface ScaleMark {
  readonly style: 'circle' | 'rect' | 'triangle';
  readonly mark: 'solid' | 'ring';
  readonly sign: (x: number, y: number) => string;
}

const marks: readonly [ScaleMark, ...ScaleMark[]] = [
  { style: 'circle', mark: 'solid', sign: (x, y) => circle('solid', x, y, 5) },
  { style: 'rect', mark: 'ring', sign: (x, y) => rect('ring', x - 4, y - 4, 8, 8) },
  { style: 'triangle', mark: 'ring', sign: (x, y) => path('ring', `M${px(x)} ${px(y - 5)}l4.5 7.5h-9z`) },
  { style: 'rect', mark: 'solid', sign: (x, y) => rect('solid', x - 4, y - 4, 8, 8) },
];

/** The mark of the first scale, the second … There are four scales. */
export function scaleMark(at: number): ScaleMark {
  return marks[at % marks.length] ?? marks[0];
}
