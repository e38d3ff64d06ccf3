import { composeBook, type BookOptions } from './compose-book.js';
import { renderBook } from './render-book.js';
import { type BookPictures, pictureFitter, type PictureWanted } from '../picture/fit-pictures.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { FarmRecord, Practice } from '../record/practice.js';
import type { BookPage } from './book-page.js';

/** What a book of a given size needs besides its record. */
export interface WithinSize {
  /** The size to keep within, million bytes. */
  readonly maxMb: number;
  /** A picture's bytes by the name in the record; undefined where none can be read. */
  readonly read: (file: string) => Uint8Array | undefined;
  readonly onMade?: (done: number, of: number) => void;
  /** How its pages are laid out; the whole book unless said. */
  readonly compose?: typeof composeBook;
}

export interface BookWithin {
  readonly html: string;
  readonly bytes: number;
  /** Absent where the records in the book name none. */
  readonly pictures?: BookPictures;
}

/** So often a book is laid out again with less room for pictures: the words that say so take a little room themselves. */
const mostTries = 4;

/**
 * A farm's book with its pictures, its one file no larger than asked where that can be.
 *
 * The pictures get what the words leave; how much that is, is known once a book has been written out. A book whose words
 * alone are larger is given without a picture, and its caller says so.
 */
export async function bookWithin(
  practice: Practice,
  farm: FarmRecord,
  today: CalendarDay,
  options: Omit<BookOptions, 'pictures'>,
  { maxMb, read, onMade, compose = composeBook }: WithinSize,
): Promise<BookWithin> {
  const bare = compose(practice, farm, today, options);
  const wanted = picturesWanted(bare);
  if (wanted.length === 0) return sized(await renderBook(bare));
  const most = Math.floor(maxMb * 1e6);
  const fit = pictureFitter(wanted, read, onMade);
  let room = most;
  for (let tries = 1; ; tries += 1) {
    const { bytes: taken, ...fitted } = await fit(room);
    const pictures = { ...fitted, maxMb };
    const book = sized(await renderBook(compose(practice, farm, today, { ...options, pictures })));
    if (book.bytes <= most || taken === 0 || tries === mostTries) return { ...book, pictures };
    room = taken - (book.bytes - most);
  }
}

function sized(html: string): BookWithin {
  return { html, bytes: Buffer.byteLength(html) };
}

/** Every picture that has its place in a book, once; what is large in one place is made large. */
function picturesWanted({ cows }: BookPage): readonly PictureWanted[] {
  const parts = cows.flatMap(({ pictures, overleaf, onScreen }) =>
    [pictures, overleaf.pictures, onScreen.pictures].flatMap((one) => one ?? []),
  );
  const days = parts.flatMap(({ days: shown, more }) => {
    const strips = more?.section.strips ?? [];
    return [...shown, ...strips.flatMap((strip) => [...strip.large, ...(strip.more?.days ?? [])])];
  });
  const wanted = new Map<string, PictureWanted>();
  for (const { of } of days.flatMap(({ shots }) => shots))
    wanted.set(of.file, { ...of, large: of.large || wanted.get(of.file)?.large === true });
  return [...wanted.values()];
}
