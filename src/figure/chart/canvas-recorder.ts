import { textSize, textWeight, palette } from '../figure.js';
import { escapeText, px } from '../svg-mark.js';
import { textWidth } from '../wrap-text.js';
import { CanvasPen } from './canvas-pen.js';
import {
  anchorOf,
  baselineOf,
  fontOf,
  type CanvasState,
  pointAt,
  scaleAndTurn,
  RecordedPath,
} from './canvas-state.js';

/**
 * A canvas that draws nothing and writes down, as SVG, what it is asked to draw.
 *
 * Colours are no colours but marks of the palette, so that a chart follows day, night and paper like every other figure. What the
 * palette says of a mark (width of line, dashes, size of type) must be what the canvas was told: the layout was reckoned with that,
 * so a difference is refused and not drawn over.
 *
 * Shape:   calls of a 2D canvas → `body` and `defs` of a drawing, in order
 * Unit:    CSS pixels, written to 0.1
 * Error:   RangeError or Error for whatever it does not know, places that are no number among it
 * Checked: tests/figure/chart/canvas-recorder.test.ts
 */
export class CanvasRecorder extends CanvasPen {
  readonly #id: string;
  readonly #size: { readonly width: number; readonly height: number };
  readonly #clips = new Map<string, string>();
  #marks: string[] = [];
  #line: { look: string; shape: string } | undefined;

  /** `left`, `top`: where the chart lies in the drawing; ids begin with `id`. */
  constructor(id: string, size: { width: number; height: number; left?: number; top?: number }) {
    super(size);
    this.#id = id;
    this.#size = size;
  }

  get body(): string {
    this.#endLine();
    return this.#marks.join('');
  }

  get defs(): string {
    return [...this.#clips].map(([inside, name]) => `<clipPath id="${name}"${inside}</clipPath>`).join('');
  }

  fill(rule?: string): void {
    if (rule !== undefined && rule !== 'nonzero') throw new RangeError(`the ${rule} rule is not recorded`);
    this.#fill(this.path.shape);
  }

  stroke(...ready: readonly unknown[]): void {
    if (ready.length > 0) throw new TypeError('a ready-made path cannot be recorded');
    this.#stroke(this.path.shape);
  }

  fillRect(x: number, y: number, width: number, height: number): void {
    this.#fill(this.#shapeOf(x, y, width, height));
  }

  strokeRect(x: number, y: number, width: number, height: number): void {
    this.#stroke(this.#shapeOf(x, y, width, height));
  }

  /** A chart clears the whole of its canvas before it is drawn again; part of a drawing cannot be taken back. */
  clearRect(x: number, y: number, width: number, height: number): void {
    const isWhole = x <= 0 && y <= 0 && width >= this.#size.width && height >= this.#size.height;
    if (!isWhole) throw new RangeError('a part of a chart cannot be cleared');
    this.#marks = [];
    this.#line = undefined;
    this.#clips.clear();
  }

  /** Shapes drawn from here on show only inside the path, and inside what was clipped before. */
  clip(): void {
    const outer = this.#clipped();
    const inside = `${outer}><path d="${this.path.shape}"/>`;
    const name = this.#clips.get(inside) ?? `${this.#id}-clip${this.#clips.size + 1}`;
    this.#clips.set(inside, name);
    this.state.clip = name;
  }

  measureText(text: string): { readonly width: number } {
    const { sizePx, weight } = fontOf(this.state);
    return { width: textWidth(text, sizePx, weight) };
  }

  fillText(text: string, x: number, y: number, widest?: number): void {
    const { fillStyle: mark, matrix } = this.state;
    const { sizePx, weight } = fontOf(this.state);
    if (text === '' || mark === 'none') return;
    if (textSize(mark) !== sizePx || textWeight(mark) !== weight)
      throw new RangeError(`"${text}" was measured as ${this.state.font}, which the mark ${mark} is not`);
    if (widest !== undefined && this.measureText(text).width > widest)
      throw new RangeError(`"${text}" is wider than ${widest} px`);
    const { scale, turnDegrees } = scaleAndTurn(matrix);
    if (Math.abs(scale - 1) > 1e-9) throw new RangeError('type is not scaled');
    const [left, top] = pointAt(matrix, x, y + sizePx * baselineOf(this.state)).map(px);
    const anchor = anchorOf(this.state);
    const turned =
      Math.abs(turnDegrees) < 1e-9 ? '' : ` transform="rotate(${px(turnDegrees)} ${left} ${top})"`;
    this.#add(
      `<text class="${anchor === 'middle' ? mark : `${mark} ${anchor}`}"${this.#shared()} x="${left}" y="${top}"${turned}>` +
        `${escapeText(text)}</text>`,
    );
  }

  #shapeOf(x: number, y: number, width: number, height: number): string {
    const path = new RecordedPath();
    path.rect(this.state.matrix, x, y, width, height);
    return path.shape;
  }

  #fill(shape: string): void {
    const { fillStyle: paint } = this.state;
    if (shape === '' || paint === 'none') return;
    const isPattern = paint.startsWith(`url(#${this.#id}-`);
    if (!isPattern && (lookOf(paint)['fill'] ?? 'none') === 'none')
      throw new RangeError(`the mark ${paint} fills nothing`);
    this.#add(`<path ${isPattern ? 'fill' : 'class'}="${paint}"${this.#shared()} d="${shape}"/>`);
  }

  /** Lines of one look that follow each other become one path: a grid is one mark and not twelve. */
  #stroke(shape: string): void {
    const { strokeStyle: mark } = this.state;
    if (shape === '' || mark === 'none') return;
    const look = `class="${mark}"${lineLook(mark, this.state)}${this.#shared()}`;
    if (this.#line?.look === look && this.state.globalAlpha === 1) {
      this.#line.shape += shape;
      return;
    }
    this.#endLine();
    this.#line = { look, shape };
  }

  #add(mark: string): void {
    this.#endLine();
    this.#marks.push(mark);
  }

  #endLine(): void {
    if (this.#line) this.#marks.push(`<path ${this.#line.look} d="${this.#line.shape}"/>`);
    this.#line = undefined;
  }

  #shared(): string {
    const { globalAlpha } = this.state;
    return `${globalAlpha === 1 ? '' : ` opacity="${Number(globalAlpha.toFixed(3))}"`}${this.#clipped()}`;
  }

  #clipped(): string {
    return this.state.clip === undefined ? '' : ` clip-path="url(#${this.state.clip})"`;
  }
}

/** What the palette says of a mark. Throws a RangeError on a mark it does not have. */
function lookOf(mark: string): Readonly<Record<string, string | number>> {
  const look = palette().marks[mark];
  if (!look) throw new RangeError(`no mark of the palette: "${mark}"`);
  return look;
}

/** What the palette leaves open of a line, as attributes; what it settles must be what the canvas was told, or a RangeError. */
function lineLook(mark: string, told: CanvasState): string {
  const said = lookOf(mark);
  if (said['stroke'] === undefined || said['fill'] !== 'none')
    throw new RangeError(`the mark ${mark} is no line`);
  const { lineWidth, dash, lineDashOffset, lineCap, lineJoin, matrix } = told;
  const attributes: Readonly<Record<string, string>> = {
    'stroke-width': px(lineWidth * scaleAndTurn(matrix).scale),
    'stroke-dasharray': dash.join(' '),
    'stroke-dashoffset': dash.length === 0 || lineDashOffset === 0 ? '' : px(lineDashOffset),
    'stroke-linecap': lineCap === 'butt' ? '' : lineCap,
    'stroke-linejoin': lineJoin === 'miter' ? '' : lineJoin,
  };
  return Object.entries(attributes)
    .map(([name, value]) => {
      const settled = said[name];
      if (settled === undefined) return value === '' ? '' : ` ${name}="${value}"`;
      if (String(settled) === value) return '';
      throw new RangeError(`${name} of ${mark} is ${settled}; the chart was told "${value}"`);
    })
    .join('');
}
