/**
 * The few marks every drawing is made of, as SVG text. Places in CSS pixels, rounded to 0.1: finer than any
 * screen or press shows. Looks come from classes (`shared/palette.json`), never from a style attribute.
 */
export type Anchor = 'start' | 'middle' | 'end';

/** A length in the drawing. @example px(12.3456) // → '12.3' */
export function px(value: number): string {
  if (!Number.isFinite(value)) throw new RangeError(`not a place in a drawing: ${value}`);
  const rounded = Math.round(value * 10) / 10;
  return rounded === 0 ? '0' : String(rounded);
}

/** Text made safe inside an element or an attribute; control characters, which no XML may hold, become spaces. */
export function escapeText(text: string): string {
  return text
    .replaceAll(
      /[\u0000-\u001f\u007f\ufffe\uffff]|[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g,
      ' ',
    )
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');
}

/** `fill` overrides the class's own, for a pattern: `url(#id)`. Nothing is drawn without a height or width. */
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
  return `<rect ${look} x="${px(x)}" y="${px(y)}" width="${px(width)}" height="${px(height)}"/>`;
}

export function path(mark: string, shape: string): string {
  return `<path class="${mark}" d="${shape}"/>`;
}

/** A straight line, level or upright or any. */
export function line(mark: string, x1: number, y1: number, x2: number, y2: number): string {
  const to = y1 === y2 ? `H${px(x2)}` : x1 === x2 ? `V${px(y2)}` : `L${px(x2)} ${px(y2)}`;
  return path(mark, `M${px(x1)} ${px(y1)}${to}`);
}

export function circle(mark: string, x: number, y: number, radius: number): string {
  return `<circle class="${mark}" cx="${px(x)}" cy="${px(y)}" r="${px(radius)}"/>`;
}

/** A line of text; `y` is its baseline. */
export function label(mark: string, x: number, y: number, text: string, anchor: Anchor = 'middle'): string {
  const look = anchor === 'middle' ? mark : `${mark} ${anchor}`;
  return `<text class="${look}" x="${px(x)}" y="${px(y)}">${escapeText(text)}</text>`;
}
