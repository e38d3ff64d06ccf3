import { px } from '../svg-mark.js';

/** A turn, a scale and a shift of the plane: x′ = a·x + c·y + e, y′ = b·x + d·y + f, in the order a canvas names them. */
export type Matrix = readonly [a: number, b: number, c: number, d: number, e: number, f: number];

export const identity: Matrix = [1, 0, 0, 1, 0, 0];

/** First the inner, then the outer. @example times([1, 0, 0, 1, 5, 0], [2, 0, 0, 2, 0, 0]) // → [2, 0, 0, 2, 5, 0] */
export function times(outer: Matrix, inner: Matrix): Matrix {
  const [a, b, c, d, e, f] = outer;
  const [g, h, i, j, k, l] = inner;
  return [a * g + c * h, b * g + d * h, a * i + c * j, b * i + d * j, a * k + c * l + e, b * k + d * l + f];
}

/** Where a point comes to lie. @example pointAt([1, 0, 0, 1, 5, 7], 1, 1) // → [6, 8] */
export function pointAt([a, b, c, d, e, f]: Matrix, x: number, y: number): readonly [number, number] {
  return [a * x + c * y + e, b * x + d * y + f];
}

/**
 * By how much it makes lengths longer and how far it turns, in degrees; throws where it skews, mirrors or stretches one way, for then
 * a circle or a letter would be none.
 */
export function scaleAndTurn([a, b, c, d]: Matrix): { readonly scale: number; readonly turnDegrees: number } {
  const isEven = Math.abs(a - d) < 1e-9 && Math.abs(b + c) < 1e-9;
  if (!isEven) throw new RangeError('a skewed or mirrored drawing is not recorded');
  return { scale: Math.hypot(a, b), turnDegrees: (Math.atan2(b, a) * 180) / Math.PI };
}

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

/** The path a canvas is being given, as the `d` of an SVG path: each point where the transform of its moment puts it. */
export class RecordedPath {
  #shape = '';
  #isBegun = false;

  get shape(): string {
    return this.#shape;
  }

  moveTo(matrix: Matrix, x: number, y: number): void {
    this.#shape += `M${place(matrix, x, y)}`;
    this.#isBegun = true;
  }

  /** Without a point before it a line only begins, as on a canvas. */
  lineTo(matrix: Matrix, x: number, y: number): void {
    if (!this.#isBegun) return this.moveTo(matrix, x, y);
    this.#shape += `L${place(matrix, x, y)}`;
  }

  quadratic(matrix: Matrix, cx: number, cy: number, x: number, y: number): void {
    if (!this.#isBegun) this.moveTo(matrix, cx, cy);
    this.#shape += `Q${place(matrix, cx, cy)} ${place(matrix, x, y)}`;
  }

  cubic(matrix: Matrix, [ax, ay]: Point, [bx, by]: Point, [x, y]: Point): void {
    if (!this.#isBegun) this.moveTo(matrix, ax, ay);
    this.#shape += `C${place(matrix, ax, ay)} ${place(matrix, bx, by)} ${place(matrix, x, y)}`;
  }

  rect(matrix: Matrix, x: number, y: number, width: number, height: number): void {
    this.moveTo(matrix, x, y);
    this.#shape += `L${place(matrix, x + width, y)}L${place(matrix, x + width, y + height)}L${place(matrix, x, y + height)}z`;
  }

  /** An arc in two halves, since SVG knows no arc that ends where it began. */
  arc(matrix: Matrix, [x, y]: Point, radius: number, from: number, to: number, back: boolean): void {
    if (!(radius >= 0)) throw new RangeError(`a radius of ${radius}`);
    const r = radius * scaleAndTurn(matrix).scale;
    const sweep = sweepOf(from, to, back);
    const at = (angle: number) => [x + radius * Math.cos(angle), y + radius * Math.sin(angle)] as const;
    this.lineTo(matrix, ...at(from));
    for (const angle of [from + sweep / 2, from + sweep])
      this.#shape += `A${px(r)} ${px(r)} 0 0 ${sweep < 0 ? 0 : 1} ${place(matrix, ...at(angle))}`;
  }

  close(): void {
    if (this.#isBegun) this.#shape += 'z';
  }
}

type Point = readonly [x: number, y: number];

const turn = 2 * Math.PI;

/** How far an arc goes, by the rules of a canvas: a whole turn and more is one turn, else less than one in its direction. */
function sweepOf(from: number, to: number, back: boolean): number {
  const sweep = back ? from - to : to - from;
  const forward = sweep >= turn ? turn : ((sweep % turn) + turn) % turn;
  return back ? -forward : forward;
}

function place(matrix: Matrix, x: number, y: number): string {
  const [right, down] = pointAt(matrix, x, y);
  return `${px(right)} ${px(down)}`;
}
