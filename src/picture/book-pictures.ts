import type { PictureRefusal } from './prepare-picture.js';

/** What became of one picture that a record names. */
export type BookPicture =
  | {
      readonly kind: 'made';
      /** The JPEG as it stands in the book's one file, in base64. */
      readonly base64: string;
      readonly widthPx: number;
      readonly heightPx: number;
    }
  | { readonly kind: 'refused'; readonly why: PictureRefusal }
  /** No room in the book. */
  | { readonly kind: 'left-out' }
  /** The record names it, and no file stands there that could be read. */
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
