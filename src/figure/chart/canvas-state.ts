import type { Matrix } from './matrix.js';

/** What a canvas keeps under the names a program sets, as far as charts set them. */
export interface CanvasSettings {
  /** A mark of the palette (`thin`), a pattern of this drawing (`url(#…)`) or `none`. */
  fillStyle: string;
  strokeStyle: string;
  lineWidth: number;
  lineCap: string;
  lineJoin: string;
  lineDashOffset: number;
  globalAlpha: number;
  /** `[bold ]11px …`. */
  font: string;
  textAlign: string;
  textBaseline: string;
}

/** The settings and what is kept with them from `save` to `restore`. */
export interface CanvasState extends CanvasSettings {
  matrix: Matrix;
  dash: readonly number[];
  /** Id of the clip path in force. */
  clip?: string;
}

export function firstState(matrix: Matrix): CanvasState {
  return {
    fillStyle: 'none',
    strokeStyle: 'none',
    lineWidth: 1,
    lineCap: 'butt',
    lineJoin: 'miter',
    lineDashOffset: 0,
    globalAlpha: 1,
    font: '11px sans-serif',
    textAlign: 'start',
    textBaseline: 'alphabetic',
    matrix,
    dash: [],
  };
}

/** Where the baseline of a text lies below the place it is set at, in type sizes. */
const baselines: Readonly<Record<string, number>> = { alphabetic: 0, middle: 0.35, top: 0.8, bottom: -0.2 };
const anchors: Readonly<Record<string, 'start' | 'middle' | 'end'>> = {
  start: 'start',
  left: 'start',
  center: 'middle',
  right: 'end',
  end: 'end',
};

export function baselineOf({ textBaseline }: CanvasSettings): number {
  return known(baselines, textBaseline);
}

export function anchorOf({ textAlign }: CanvasSettings): 'start' | 'middle' | 'end' {
  return known(anchors, textAlign);
}

/** @example fontOf({ font: 'bold 13px Arial' }) // → { sizePx: 13, weight: 'bold' } */
export function fontOf({ font }: Pick<CanvasSettings, 'font'>): {
  readonly sizePx: number;
  readonly weight: 'regular' | 'bold';
} {
  const [, style, size] = /^(?:normal )?(?:(bold|700|normal|400) )?(\d+(?:\.\d+)?)px /.exec(font) ?? [];
  if (size === undefined) throw new RangeError(`a chart has no font "${font}"`);
  return { sizePx: Number(size), weight: style === 'bold' || style === '700' ? 'bold' : 'regular' };
}

function known<T>(table: Readonly<Record<string, T>>, word: string): T {
  const value = table[word];
  if (value === undefined) throw new RangeError(`a chart sets no text ${word}`);
  return value;
}
