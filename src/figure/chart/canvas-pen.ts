import { type CanvasState, firstState, identity, type Matrix, times, RecordedPath } from './canvas-state.js';

/**
 * The half of a 2D canvas that draws nothing: what is set, saved and restored, where its axes lie, and the path begun.
 *
 * Checked: tests/figure/chart/canvas-recorder.test.ts
 */
export class CanvasPen {
  readonly #base: Matrix;
  readonly #saved: CanvasState[] = [];
  protected path = new RecordedPath();
  state: CanvasState;

  /** `left`, `top`: where the canvas lies in the drawing. */
  constructor({ left = 0, top = 0 }: { left?: number; top?: number }) {
    this.#base = [1, 0, 0, 1, left, top];
    this.state = firstState(this.#base);
  }

  save(): void {
    this.#saved.push({ ...this.state });
  }

  restore(): void {
    this.state = this.#saved.pop() ?? this.state;
  }

  translate(x: number, y: number): void {
    this.#turn([1, 0, 0, 1, x, y]);
  }

  rotate(angle: number): void {
    this.#turn([Math.cos(angle), Math.sin(angle), -Math.sin(angle), Math.cos(angle), 0, 0]);
  }

  scale(x: number, y: number): void {
    this.#turn([x, 0, 0, y, 0, 0]);
  }

  transform(...matrix: [number, number, number, number, number, number]): void {
    this.#turn(matrix);
  }

  setTransform(...matrix: [number, number, number, number, number, number]): void {
    this.state.matrix = times(this.#base, matrix);
  }

  resetTransform(): void {
    this.setTransform(...identity);
  }

  beginPath(): void {
    this.path = new RecordedPath();
  }

  closePath(): void {
    this.path.close();
  }

  moveTo(x: number, y: number): void {
    this.path.moveTo(this.state.matrix, x, y);
  }

  lineTo(x: number, y: number): void {
    this.path.lineTo(this.state.matrix, x, y);
  }

  quadraticCurveTo(cx: number, cy: number, x: number, y: number): void {
    this.path.quadratic(this.state.matrix, cx, cy, x, y);
  }

  bezierCurveTo(ax: number, ay: number, bx: number, by: number, x: number, y: number): void {
    this.path.cubic(this.state.matrix, [ax, ay], [bx, by], [x, y]);
  }

  arc(x: number, y: number, radius: number, from: number, to: number, back = false): void {
    this.path.arc(this.state.matrix, [x, y], radius, from, to, back);
  }

  rect(x: number, y: number, width: number, height: number): void {
    this.path.rect(this.state.matrix, x, y, width, height);
  }

  setLineDash(dash: readonly number[]): void {
    this.state.dash = [...dash];
  }

  getLineDash(): number[] {
    return [...this.state.dash];
  }

  #turn(by: Matrix): void {
    this.state.matrix = times(this.state.matrix, by);
  }
}
