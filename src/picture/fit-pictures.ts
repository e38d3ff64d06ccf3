import { type PictureRefusal, preparePicture, type PreparedPicture } from './prepare-picture.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { pictureNumbers, type PictureStep } from '../reference/numbers.js';

/** What became of one picture that a record names. */
export type BookPicture =
  | {
      readonly kind: 'made';
      /** The JPEG as it is in the book's one file, in base64. */
      readonly base64: string;
      readonly widthPx: number;
      readonly heightPx: number;
    }
  | { readonly kind: 'refused'; readonly why: PictureRefusal }
  /** No room in the book. */
  | { readonly kind: 'left-out' }
  /** The record names it, and no file is there that could be read. */
  | { readonly kind: 'missing' };

/** All pictures of one book, and the size they were made in. */
export interface BookPictures {
  /** By the file's name as the record writes it, oldest first. */
  readonly byFile: ReadonlyMap<string, BookPicture>;
  /** Longest side of the large ones. */
  readonly longestPx: number;
  /** Whether they were made smaller than they could be, to keep the book within its size. */
  readonly madeSmaller: boolean;
  /** The size the book keeps within, million bytes. */
  readonly maxMb: number;
}

/** A picture that should be in a book. */
export interface PictureWanted {
  /** As the record writes it. */
  readonly file: string;
  readonly day: CalendarDay;
  /** Latest, previous or first of its strip: made larger than the rest. */
  readonly large: boolean;
}

interface PicturesFitted {
  readonly byFile: ReadonlyMap<string, BookPicture>;
  /** What they take in the book's file, bytes of base64. */
  readonly bytes: number;
  readonly longestPx: number;
  readonly madeSmaller: boolean;
}

/** Oldest first. */
type Made = ReadonlyMap<string, PreparedPicture | { readonly kind: 'missing' }>;

/** So many at a time: decoding and packing share the processor, and memory stays small. */
const atOnce = 4;

/**
 * Makes a book's pictures as large as the room for them allows.
 *
 * The sizes are tried from the largest down, leaving out those that cannot fit whatever the picture; each picture is
 * made once a size, and asking again with less room goes on from where it stood. Where even the smallest size does not
 * fit, the oldest pictures are left out until the rest does.
 *
 * Shape:   what is wanted and how a file is read (undefined where none can be) → a function from room, in bytes of base64, to the pictures
 * Checked: tests/picture/fit-pictures.test.ts
 */
export function pictureFitter(
  wanted: readonly PictureWanted[],
  read: (file: string) => Uint8Array | undefined,
  onMade: (done: number, of: number) => void = () => {},
): (room: number) => Promise<PicturesFitted> {
  const { steps } = pictureNumbers;
  const inOrder = wanted.toSorted(oldestFirst);
  let at = 0;
  let made: Made | undefined;
  return async (room) => {
    made ??= await makeAll(inOrder, steps[0], read, onMade);
    while (bytesOf(made) > room && at < steps.length - 1) {
      at = nextStep(steps, at, made, inOrder, room);
      made = await makeAll(inOrder, steps[at]!, read, onMade);
    }
    const byFile = leaveOut(made, room);
    return {
      byFile,
      bytes: [...byFile.values()].reduce(
        (sum, one) => sum + (one.kind === 'made' ? one.base64.length : 0),
        0,
      ),
      longestPx: steps[at]!.largePx,
      madeSmaller: at > 0,
    };
  };
}

async function makeAll(
  wanted: readonly PictureWanted[],
  { largePx, smallPx, quality }: PictureStep,
  read: (file: string) => Uint8Array | undefined,
  onMade: (done: number, of: number) => void,
): Promise<Made> {
  const made = new Map<string, PreparedPicture | { readonly kind: 'missing' }>();
  for (let from = 0; from < wanted.length; from += atOnce) {
    const some = wanted.slice(from, from + atOnce);
    onMade(from + some.length, wanted.length);
    const ready = await Promise.all(
      some.map(async ({ file, large }) => {
        const bytes = read(file);
        const longestPx = large ? largePx : smallPx;
        return bytes ? preparePicture(bytes, { longestPx, quality }) : ({ kind: 'missing' } as const);
      }),
    );
    for (const [index, { file }] of some.entries()) made.set(file, ready[index]!);
  }
  return made;
}

/** Four characters of base64 for every three bytes begun. */
const inBase64 = (bytes: number): number => Math.ceil(bytes / 3) * 4;

function bytesOf(made: Made): number {
  return [...made.values()].reduce(
    (sum, one) => sum + (one.kind === 'made' ? inBase64(one.jpeg.length) : 0),
    0,
  );
}

/** The next size down that the pictures may fit in, by the fewest bytes its pixels can need; the last where none may. */
function nextStep(
  steps: readonly PictureStep[],
  at: number,
  made: Made,
  wanted: readonly PictureWanted[],
  room: number,
): number {
  const least = ({ largePx, smallPx }: PictureStep): number =>
    wanted.reduce((sum, { file, large }) => {
      const one = made.get(file);
      if (one?.kind !== 'made') return sum;
      const longest = Math.max(one.widthPx, one.heightPx);
      const share = Math.min(1, (large ? largePx : smallPx) / longest) ** 2;
      return sum + inBase64(one.jpeg.length) * share * pictureNumbers.leastShare.value;
    }, 0);
  const fits = steps.findIndex((step, index) => index > at && least(step) <= room);
  return fits < 0 ? steps.length - 1 : fits;
}

function leaveOut(made: Made, room: number): ReadonlyMap<string, BookPicture> {
  let over = bytesOf(made) - room;
  const out = new Set<string>();
  for (const [file, one] of made) {
    if (over <= 0) break;
    if (one.kind !== 'made') continue;
    out.add(file);
    over -= inBase64(one.jpeg.length);
  }
  return new Map(
    [...made].map(([file, one]): [string, BookPicture] => [
      file,
      out.has(file) ? { kind: 'left-out' } : one.kind === 'made' ? embedded(one) : one,
    ]),
  );
}

/** Of one day the smaller ones go first, then by name: the same files always give the same book. */
function oldestFirst(a: PictureWanted, b: PictureWanted): number {
  if (a.day !== b.day) return a.day < b.day ? -1 : 1;
  if (a.large !== b.large) return a.large ? 1 : -1;
  return a.file < b.file ? -1 : 1;
}

function embedded(one: PreparedPicture & { kind: 'made' }): BookPicture {
  const { jpeg, widthPx, heightPx } = one;
  return { kind: 'made', base64: Buffer.from(jpeg).toString('base64'), widthPx, heightPx };
}
