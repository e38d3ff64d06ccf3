import type { Language, Paper } from '../../record/words.js';
import { z } from 'zod';
import { readShared } from '../../reference/read-shared.js';
import type { Words } from '../../reference/words.js';

/** One thing to tick or write: boxes, a line, or both. `line` is how wide it is; empty: none. */
export interface SheetItem {
  readonly label: string;
  readonly boxes: readonly string[];
  readonly line: 'short' | 'day' | 'middle' | 'rest' | '';
  readonly unit: string;
}

/** A table to tick or write in, each cell one box or one blank. */
export interface SheetGrid {
  readonly caption: string;
  readonly corner: string;
  readonly heads: readonly string[];
  readonly rows: readonly { readonly head: string; readonly cells: readonly ('box' | 'blank')[] }[];
}

export interface PrintedPart {
  readonly heading: string;
  /** What is measured stands apart from what is only asked. */
  readonly lesion: boolean;
  readonly rows: readonly (readonly SheetItem[])[];
  readonly grid?: SheetGrid;
}

/** What is known of her before she is lifted, and may be: nothing of it is a reading. */
export interface SheetAbout {
  /** Work on the farm stands still: before all else. */
  readonly stop?: string;
  readonly identity: string;
  readonly handling: string;
  readonly dueHeading: string;
  readonly due: readonly string[];
  readonly picture?: {
    readonly source: string;
    readonly width: number;
    readonly height: number;
    readonly alt: string;
    readonly caption: string;
  };
}

/** The last readings and what is expected, on the back. */
export interface AfterMeasuring {
  readonly heading: string;
  readonly says: string;
  readonly heads: readonly string[];
  readonly rows: readonly { readonly name: string; readonly last: string; readonly expected: string }[];
  readonly tick?: SheetItem;
}

/** One printed page. */
export interface SheetSide {
  readonly heading: string;
  readonly kicker: string;
  readonly side: string;
  readonly about?: SheetAbout;
  readonly after?: AfterMeasuring;
  readonly parts: readonly PrintedPart[];
  /** Lines to the foot of the page. */
  readonly ruled: boolean;
  /** Words for looking up, in small print. */
  readonly codes?: { readonly heading: string; readonly items: readonly string[] };
}

/** One animal's pages. */
export interface SheetLeaf {
  readonly id: string;
  readonly sides: readonly SheetSide[];
}

/** A farm's yard sheet as finished page data. */
export interface SheetPage {
  readonly language: Language;
  readonly paper: Paper;
  readonly title: string;
  readonly lead: string;
  readonly skip: string;
  readonly leaves: readonly SheetLeaf[];
}

const room = z.strictObject({ front: z.number(), more: z.number(), met: z.number() });
const shape = z.strictObject({
  about: z.string(),
  front: z.array(z.string()),
  back: z.array(z.string()),
  /** Stands behind what was found where that leaves room for it, else first on the back. */
  ifRoom: z.string(),
  words: z.record(z.string(), z.array(z.string())),
  /** How many lesions a page has room for, and how much of one is taken by a mark, by what is first met, and by each line due above so many. */
  room: z.strictObject({ A4: room, Letter: room, mark: z.number(), dueLines: z.int(), dueLine: z.number() }),
  picturePx: z.int(),
  pictureQuality: z.int(),
});

/** How a yard sheet is laid out: `shared/sheet.json`. */
export const sheetLayout = readShared('sheet.json', shape);

/** The pages of one leaf, each told where it belongs: paper comes apart. */
export function sidesOf(
  words: Words,
  kicker: string,
  sides: readonly Omit<SheetSide, 'kicker' | 'side'>[],
): SheetSide[] {
  return sides.map((side, at) => ({
    ...side,
    kicker,
    side: words.say('sheet.side', { side: at + 1, of: sides.length }),
  }));
}
