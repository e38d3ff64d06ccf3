import { escapeText, px } from './svg-mark.js';
import { z } from 'zod';
import { readShared } from '../reference/read-shared.js';

/** The numbers of a figure as a table, to be folded under it: a figure is never the only place a number is given. */
export interface FigureTable {
  readonly caption: string;
  readonly columns: readonly string[];
  /** Each as long as `columns`; the first cell names its row. */
  readonly rows: readonly (readonly string[])[];
}

/** A drawing ready for a page. All strings but `svg` are plain text: the page escapes them. */
export interface Figure {
  /** One `<svg role="img">`, at natural size in CSS pixels, with title and description inside; wants `figureStyle()` on the page. */
  readonly svg: string;
  readonly title: string;
  readonly description: string;
  /** Short sentences to print under the drawing: what its marks mean, and what it leaves out. Only what occurs in it. */
  readonly notes: readonly string[];
  readonly table: FigureTable;
}

/** What a drawing is put together from. */
interface DrawingParts {
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
 * It keeps its natural size and shrinks only where the page is narrower. What runs along time is drawn for a phone anew.
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

/** A drawing beside its words: the notes under it and, where it has one, its table. */
export function figureOf<Words extends object>(parts: DrawingParts, words: Words) {
  return { svg: drawing(parts), title: parts.title, description: parts.description, ...words };
}

/** An id for a drawing from any text: only what may be in an id and in `url(#…)`. @example drawingId('2086', 'a') // → 'f-2086-a' */
export function drawingId(...parts: readonly string[]): string {
  return ['f', ...parts].map((part) => part.replaceAll(/[^A-Za-z0-9-]/g, '-')).join('-');
}

/** Fills that read without colour. `open`: dense slanting lines. `expected`: thin and wide apart. `covered`: beads of horn. */
export type Hatch = 'open' | 'expected' | 'covered';

/** The definition of a fill and the value that uses it; ids begin with the drawing's own. */
export function hatch(id: string, kind: Hatch): { readonly def: string; readonly fill: string } {
  const name = `${id}-${kind[0]}`;
  const [size, turn, ground, mark] = fills[kind];
  return {
    def:
      `<pattern id="${name}" patternUnits="userSpaceOnUse" width="${size}" height="${size}"` +
      `${turn ? ` patternTransform="rotate(${turn})"` : ''}>` +
      `${ground && `<path class="${ground}" d="M0 0H${size}V${size}H0z"/>`}${mark}</pattern>`,
    fill: `url(#${name})`,
  };
}

const fills: Readonly<Record<Hatch, readonly [size: number, turn: number, ground: string, mark: string]>> = {
  open: [7, 45, 'ground', '<path class="hatch" d="M3 0V7"/>'],
  expected: [9, 45, '', '<path class="faint" d="M4 0V9"/>'],
  covered: [7, 0, 'plate', '<path class="bead" d="M2 2h3v3H2z"/>'],
};

/** By day, by night, on paper. */
export const schemes = ['light', 'dark', 'print'] as const;
type Scheme = (typeof schemes)[number];

const hex = z.string().regex(/^#[0-9a-f]{6}$/);
const shape = z.strictObject({
  about: z.string(),
  colours: z.record(z.string(), z.strictObject({ light: hex, dark: hex, print: hex, says: z.string() })),
  marks: z.record(z.string(), z.record(z.string(), z.union([z.string(), z.number()]))),
  pairs: z.array(z.strictObject({ front: z.string(), back: z.string(), kind: z.enum(['text', 'graphic']) })),
});
type Palette = z.infer<typeof shape>;

let read: Palette | undefined;

/** The colours by role, the marks made of them, and the pairs whose contrast must hold. */
export function palette(): Palette {
  return (read ??= readShared('palette.json', shape));
}

/** Type size of a text mark, px. */
export function textSize(mark: string): number {
  return Number(palette().marks[mark]?.['font-size']);
}

export function textWeight(mark: string): 'regular' | 'bold' {
  return palette().marks[mark]?.['font-weight'] === undefined ? 'regular' : 'bold';
}

/**
 * The style sheet of all figures: the palette as custom properties (`--ink`, `--horn` …) by day, by night and on
 * paper, and one rule a mark. Given once a page, before its own rules, which may use the same properties.
 */
export function figureStyle(): string {
  return [
    `:root{${properties('light')}}`,
    `@media screen and (prefers-color-scheme:dark){:root{${properties('dark')}}}`,
    `@media print{:root{${properties('print')}}}`,
    '.fig{display:block;max-width:100%;height:auto}',
    '.fig text{text-anchor:middle}',
    '.fig .start{text-anchor:start}',
    '.fig .end{text-anchor:end}',
    ...Object.entries(palette().marks).map(([mark, look]) => `.fig .${mark}{${declarations(look)}}`),
    '@media print{.fig{print-color-adjust:exact;-webkit-print-color-adjust:exact}}',
  ].join('\n');
}

function properties(scheme: Scheme): string {
  return Object.entries(palette().colours)
    .map(([role, colour]) => `--${role}:${colour[scheme]}`)
    .join(';');
}

function declarations(look: Readonly<Record<string, string | number>>): string {
  return Object.entries(look)
    .map(([name, value]) => {
      const colour = (name === 'fill' || name === 'stroke') && value !== 'none';
      return `${name}:${colour ? `var(--${value})` : name === 'font-size' ? `${value}px` : value}`;
    })
    .join(';');
}
