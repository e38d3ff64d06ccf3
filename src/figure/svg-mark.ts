import { textWidth } from './wrap-text.js';

/**
 * The few marks every drawing is made of, as SVG text. Places in CSS pixels, rounded to 0.1: finer than any
 * screen or press shows. Looks come from classes (`shared/palette.json`), never from a style attribute.
 */
export type Anchor = 'start' | 'middle' | 'end';

/** A length in the drawing. @example px(12.3456) // → '12.3' */
export function px(value: number): string {
  if (!Number.isFinite(value)) throw new RangeError(`not a place in a drawing: ${value}`);
  const tenths = Math.round(Math.abs(value) * 10);
  const sign = value < 0 && tenths > 0 ? '-' : '';
  return tenths % 10 === 0 ? `${sign}${tenths / 10}` : `${sign}${Math.floor(tenths / 10)}.${tenths % 10}`;
}

/** Text made safe inside an element or an attribute; characters that no XML may hold become spaces. */
export function escapeText(text: string): string {
  if (!unsafe.test(text)) return text;
  let safe = '';
  for (const character of text) {
    const code = character.codePointAt(0) ?? 0;
    const barred = code < 32 || (code >= 0xd800 && code <= 0xdfff) || code === 0xfffe || code === 0xffff;
    safe += barred ? ' ' : (entities.get(character) ?? character);
  }
  return safe;
}

/** Anything beyond plain ASCII is looked at letter by letter. */
const unsafe = /[^ -~]|[&<>"]/;

const entities: ReadonlyMap<string, string> = new Map([
  ['&', '&amp;'],
  ['<', '&lt;'],
  ['>', '&gt;'],
  ['"', '&quot;'],
]);

/** `fill` replaces the class, for a pattern: `url(#id)`. Nothing is drawn without a height or width. */
export function rect(
  mark: string,
  x: number,
  y: number,
  width: number,
  height: number,
  fill?: string,
): string {
  if (width <= 0 || height <= 0) return '';
  const look = fill === undefined ? `class="${mark}"` : `fill="${fill}"`;
  return `<path ${look} d="M${px(x)} ${px(y)}h${px(width)}v${px(height)}h${px(-width)}z"/>`;
}

export function path(mark: string, shape: string): string {
  return `<path class="${mark}" d="${shape}"/>`;
}

/** A straight line, level or upright or any. */
export function line(mark: string, x1: number, y1: number, x2: number, y2: number): string {
  const to = y1 === y2 ? `H${px(x2)}` : x1 === x2 ? `V${px(y2)}` : `L${px(x2)} ${px(y2)}`;
  return path(mark, `M${px(x1)} ${px(y1)}${to}`);
}

/** Several straight lines of one mark as one path, each level or upright; shorter to write than each alone. */
export function lines(
  mark: string,
  each: readonly (readonly [x1: number, y1: number, x2: number, y2: number])[],
): string {
  const shape = each
    .map(([x1, y1, x2, y2]) => `M${px(x1)} ${px(y1)}${y1 === y2 ? `H${px(x2)}` : `V${px(y2)}`}`)
    .join('');
  return shape === '' ? '' : path(mark, shape);
}

export function circle(mark: string, x: number, y: number, radius: number): string {
  return `<circle class="${mark}" cx="${px(x)}" cy="${px(y)}" r="${px(radius)}"/>`;
}

/** A line of text; `y` is its baseline. Nothing for an empty one; one of 12 px that is wider than it may be is drawn closer. */
export function label(
  mark: string,
  x: number,
  y: number,
  text: string,
  anchor: Anchor = 'middle',
  widest = Infinity,
): string {
  if (text === '') return '';
  const closer =
    widest < Infinity && textWidth(text, 12) > widest + 0.1
      ? ` textLength="${px(widest)}" lengthAdjust="spacingAndGlyphs"`
      : '';
  const look = anchor === 'middle' ? mark : `${mark} ${anchor}`;
  return `<text class="${look}" x="${px(x)}" y="${px(y)}"${closer}>${escapeText(text)}</text>`;
}
