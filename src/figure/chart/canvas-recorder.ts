import { textSize, textWeight, palette } from '../figure.js';
import { escapeText, px } from '../svg-mark.js';
import { textWidth } from '../wrap-text.js';

/** What a chart may set on its canvas; `fillStyle` and `strokeStyle` are marks of the palette, patterns of the drawing or `none`. */
const settings = {
  fillStyle: 'none',
  strokeStyle: 'none',
  lineWidth: 1,
  lineCap: 'butt',
  lineJoin: 'miter',
  lineDashOffset: 0,
  font: '11px sans-serif',
  textAlign: 'start',
  textBaseline: 'alphabetic',
};

const anchors: Readonly<Record<string, string>> = { left: ' start', center: '', right: ' end' };

/** Where a chart lies in its drawing, px; the ids inside begin with `id`. */
export interface ChartPlace {
  readonly id: string;
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/**
 * A canvas that draws nothing and writes down, as SVG, what a chart asks it to draw. It knows only what our charts use: any
 * other name that is read or set, and any other way of using it, throws, so that no part of a chart is silently left out.
 *
 * Colours are no colours but marks of the palette, so that a chart follows day, night and paper like every other figure.
 * What the palette says of a mark (width of line, size of type) must be what the canvas was set to: the layout was reckoned
 * with that, so a difference is refused and not drawn over.
 *
 * Shape:   calls of a 2D canvas → `body` and `defs` of a drawing, in order
 * Unit:    CSS pixels, written to 0.1
 * Error:   Error for whatever it does not know, places that are no number among it
 * Checked: tests/figure/chart/canvas-recorder.test.ts
 */
export function recordedCanvas({ id, left, top, width, height }: ChartPlace) {
  let state = { ...settings, x: left, y: top, clip: '' };
  const saved: (typeof state)[] = [];
  const clips = new Map<string, string>();
  let shape = '';
  let marks: string[] = [];
  let line: { look: string; shape: string } | undefined;

  const at = (x: number, y: number): string => `${px(state.x + x)} ${px(state.y + y)}`;
  const lineTo = (x: number, y: number): void => void (shape += `${shape === '' ? 'M' : 'L'}${at(x, y)}`);
  const endLine = (): void => {
    if (line) marks.push(`<path ${line.look} d="${line.shape}"/>`);
    line = undefined;
  };
  const add = (mark: string): void => {
    endLine();
    marks.push(mark);
  };
  const measureText = (text: string) => ({ width: textWidth(text, ...fontOf(state.font)) });

  const calls: Readonly<Record<string, (...given: never[]) => unknown>> = {
    save: () => saved.push({ ...state }),
    restore: () => (state = saved.pop() ?? state),
    resetTransform: () => Object.assign(state, { x: left, y: top }),
    setTransform: (...matrix: number[]) => {
      only(matrix.join(), '1,0,0,1,0,0');
      Object.assign(state, { x: left, y: top });
    },
    translate: (x: number, y: number) => Object.assign(state, { x: state.x + x, y: state.y + y }),
    rotate: (angle: number) => only(angle, 0),
    setLineDash: (dash: readonly number[]) => only(dash.length, 0),
    beginPath: () => (shape = ''),
    moveTo: (x: number, y: number) => (shape += `M${at(x, y)}`),
    lineTo,
    closePath: () => (shape += shape === '' ? '' : 'z'),
    rect: (x: number, y: number, wide: number, high: number) =>
      (shape += `M${at(x, y)}L${at(x + wide, y)}L${at(x + wide, y + high)}L${at(x, y + high)}z`),
    /** A circle in two halves, since SVG knows no arc that ends where it began. */
    arc: (x: number, y: number, radius: number, from: number, to: number) => {
      if (from !== 0 || to !== 2 * Math.PI || !(radius >= 0)) throw new RangeError('no whole circle');
      lineTo(x + radius, y);
      for (const side of [-1, 1]) shape += `A${px(radius)} ${px(radius)} 0 0 1 ${at(x + side * radius, y)}`;
    },
    /** A chart clears the whole of its canvas before it is drawn again; part of a drawing cannot be taken back. */
    clearRect: (...box: number[]) => {
      only(box.join(), [0, 0, width, height].join());
      marks = [];
      line = undefined;
      clips.clear();
    },
    /** Shapes drawn from here on show only inside the path, and inside what was clipped before. */
    clip: () => {
      const inside = `${state.clip}><path d="${shape}"/>`;
      const name = clips.get(inside) ?? `${id}-clip${clips.size + 1}`;
      clips.set(inside, name);
      state.clip = ` clip-path="url(#${name})"`;
    },
    fill: (rule = 'nonzero') => {
      only(rule, 'nonzero');
      const { fillStyle: paint, clip } = state;
      if (shape === '' || paint === 'none') return;
      const isPattern = paint.startsWith(`url(#${id}-`);
      if (!isPattern && (lookOf(paint)['fill'] ?? 'none') === 'none')
        throw new RangeError(`the mark ${paint} fills nothing`);
      add(`<path ${isPattern ? 'fill' : 'class'}="${paint}"${clip} d="${shape}"/>`);
    },
    /** Lines of one look that follow each other become one path: a grid is one mark and not twelve. */
    stroke: (...ready: unknown[]) => {
      only(ready.length, 0);
      if (shape === '' || state.strokeStyle === 'none') return;
      const look = `class="${lineMark(state)}"${state.clip}`;
      if (line?.look !== look) {
        endLine();
        line = { look, shape: '' };
      }
      line.shape += shape;
    },
    measureText,
    fillText: (text: string, x: number, y: number, widest = Infinity) => {
      const { fillStyle: mark, font, textAlign, textBaseline } = state;
      const [size, weight] = fontOf(font);
      if (textSize(mark) !== size || textWeight(mark) !== weight)
        throw new RangeError(`"${text}" was measured as ${font}, which the mark ${mark} is not`);
      if (measureText(text).width > widest) throw new RangeError(`"${text}" is wider than ${widest} px`);
      const anchor = anchors[textAlign];
      if (anchor === undefined) throw new RangeError(`a chart sets no text ${textAlign}`);
      only(textBaseline, 'middle');
      const [across, down] = at(x, y + 0.35 * size).split(' ');
      const look = `class="${mark}${anchor}"${state.clip}`;
      if (text !== '') add(`<text ${look} x="${across}" y="${down}">${escapeText(text)}</text>`);
    },
  };

  const context: object = new Proxy(
    {},
    {
      get: (_, name) => {
        if (typeof name === 'symbol') return undefined;
        if (name === 'canvas') return canvas;
        const known = Object.hasOwn(settings, name) ? state[name as keyof typeof settings] : calls[name];
        if (known === undefined)
          throw new Error(`the chart asks its canvas for ${name}, which is not recorded`);
        return known;
      },
      set: (_, name, value: unknown) => {
        if (typeof value !== typeof settings[name as keyof typeof settings])
          throw new Error(`the chart sets ${String(name)} to ${String(value)}, which is not recorded`);
        Object.assign(state, { [name]: value });
        return true;
      },
    },
  );
  /** As much of a canvas element as a chart asks for. */
  const canvas = {
    width,
    height,
    style: {},
    getContext: (kind: string) => {
      only(kind, '2d');
      return context;
    },
  };
  return {
    canvas,
    body: () => {
      endLine();
      return marks.join('');
    },
    defs: () => [...clips].map(([inside, name]) => `<clipPath id="${name}"${inside}</clipPath>`).join(''),
  };
}

function only(told: string | number, known: string | number): void {
  if (told !== known) throw new RangeError(`a chart is drawn with "${known}" alone, not "${told}"`);
}

/** Of `bold 13px Arial`: 13 and bold. */
function fontOf(font: string): [sizePx: number, weight: 'regular' | 'bold'] {
  const [, style, size] = /^(?:(bold|normal) )?(\d+(?:\.\d+)?)px /.exec(font) ?? [];
  if (size === undefined) throw new RangeError(`a chart has no font "${font}"`);
  return [Number(size), style === 'bold' ? 'bold' : 'regular'];
}

/** What the palette says of a mark. Throws a RangeError on a mark it does not have. */
function lookOf(mark: string): Readonly<Record<string, string | number>> {
  const look = palette().marks[mark];
  if (!look) throw new RangeError(`no mark of the palette: "${mark}"`);
  return look;
}

/** The mark of a plain line as wide as the canvas was set to; a RangeError for any other. */
function lineMark({ strokeStyle, lineWidth, lineCap, lineJoin }: typeof settings): string {
  const { fill, stroke, 'stroke-width': width, 'stroke-dasharray': dashes } = lookOf(strokeStyle);
  only(
    [strokeStyle, fill, typeof stroke, `${width}`, dashes, lineCap, lineJoin].join(' '),
    [strokeStyle, 'none', 'string', px(lineWidth), undefined, 'butt', 'miter'].join(' '),
  );
  return strokeStyle;
}
