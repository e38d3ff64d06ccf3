import { escapeText, px } from './svg-mark.js';

/** What a drawing is put together from. */
export interface DrawingParts {
  /** Unique on the page: the ids inside begin with it. */
  readonly id: string;
  /** CSS pixels. */
  readonly width: number;
  readonly height: number;
  readonly title: string;
  readonly description: string;
  readonly defs?: string;
  readonly body: string;
}

/**
 * One `<svg>` that a screen reader takes as a picture with a name and a description.
 *
 * It keeps its natural size, so no text falls under 11 px: on a phone the page lets a wide figure scroll inside a
 * named region (class `figure-scroll`); on paper it shrinks only where the sheet is narrower.
 */
export function drawing({ id, width, height, title, description, defs, body }: DrawingParts): string {
  return (
    `<svg class="fig" role="img" width="${px(width)}" height="${px(height)}"` +
    ` viewBox="0 0 ${px(width)} ${px(height)}" aria-labelledby="${id}-t ${id}-d">` +
    `<title id="${id}-t">${escapeText(title)}</title><desc id="${id}-d">${escapeText(description)}</desc>` +
    (defs ? `<defs>${defs}</defs>` : '') +
    `${body}</svg>`
  );
}

/** An id for a drawing from any text: only what may stand in an id and in `url(#…)`. @example drawingId('2086', 'a') // → 'f-2086-a' */
export function drawingId(...parts: readonly string[]): string {
  return ['f', ...parts].map((part) => part.replaceAll(/[^A-Za-z0-9-]/g, '-')).join('-');
}
