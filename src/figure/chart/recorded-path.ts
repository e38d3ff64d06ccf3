import { px } from '../svg-mark.js';
import { type Matrix, pointAt, scaleAndTurn } from './matrix.js';

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
