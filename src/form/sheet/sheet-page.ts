import { z } from 'zod';
import { type PageBasis, pageCss } from '../../book/layout-css.js';
import { renderPage } from '../../book/render-page.js';
import { figureStyle } from '../../figure/figure.js';
import type { ReadBefore } from '../known-of-animal.js';
import { readShared } from '../../reference/read-shared.js';

/** One thing to answer: boxes to tick, boxes of a digit each, words to ring, a line. `line` is how wide it is; empty: none. */
export interface SheetItem {
  readonly label: string;
  readonly boxes: readonly string[];
  readonly digits: number;
  readonly ring: readonly string[];
  /** Before the line where boxes are before it. */
  readonly other: string;
  readonly line: 'short' | 'day' | 'middle' | 'rest' | '';
  readonly unit: string;
}

export interface PrintedPart {
  readonly heading: string;
  /** `lesion`: a frame with a foot to mark; `mark` and `walk`: large boxes; `jobs`: in columns; else a row after the other. */
  readonly kind: 'lesion' | 'mark' | 'walk' | 'jobs' | 'rows';
  readonly foot?: string;
  readonly rows: readonly (readonly SheetItem[])[];
}

/** What is known of her before she is lifted, and may be: nothing of it is a reading. */
export interface SheetAbout {
  /** Work on the farm has stopped: first of all. */
  readonly stop?: string;
  readonly identity: string;
  /** How she is to be handled, and that she is near calving. */
  readonly handling: readonly string[];
}

/** The last readings and what is expected, on the back, with what is due. */
export interface AfterMeasuring {
  readonly heading: string;
  readonly heads: readonly string[];
  readonly rows: readonly ReadBefore[];
  readonly items: readonly SheetItem[];
  readonly dueHeading: string;
  readonly due: readonly string[];
}

/** One printed page. */
export interface SheetSide {
  readonly heading: string;
  /** A number of many letters is set smaller. */
  readonly long: boolean;
  readonly kicker: string;
  readonly side: string;
  readonly about?: SheetAbout;
  readonly after?: AfterMeasuring;
  readonly parts: readonly PrintedPart[];
  /** Lines to the foot of the page, and what may be written there. */
  readonly lines?: { readonly heading: string; readonly says: string };
  /** Words for looking up, in small print. */
  readonly codes?: { readonly heading: string; readonly items: readonly string[] };
  readonly says: string;
}

/** One animal's pages: always an even number. */
export interface SheetLeaf {
  readonly id: string;
  readonly sides: readonly SheetSide[];
}

/** A farm's yard sheet as finished page data. */
export interface SheetPage extends PageBasis {
  readonly lead: string;
  readonly leaves: readonly SheetLeaf[];
}

const mm = z.number();
const size = z.strictObject({ width: mm, height: mm });
const shape = z.strictObject({
  about: z.string(),
  words: z.record(z.string(), z.array(z.string())),
  ticks: z.record(z.string(), z.array(z.string())),
  paper: z.strictObject({ A4: size, Letter: size }),
  mm: z.strictObject({ head: mm, row: mm, digits: mm, lesion: mm, walk: mm, gap: mm, heading: mm, line: mm, boxed: mm, ruled: mm }), // prettier-ignore
  products: z.int(),
});

/** How a yard sheet is laid out: `shared/sheet.json`. */
export const sheetLayout = readShared('sheet.json', shape);

/** A yard sheet's page data as one self-contained HTML file, with no script and no request; each side is one printed page. */
export function renderSheet(page: SheetPage): string {
  const { height } = sheetLayout.paper[page.paper];
  const paper = `@page{size:${page.paper};margin:9mm 11mm}@media print{.side{height:${height}mm}}`;
  return renderPage('sheet/page.njk', page, [figureStyle(), pageCss('sheet.css'), paper].join('\n'));
}
