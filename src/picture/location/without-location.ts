import { jpegDotsOnly } from './jpeg-dots-only.js';
import { pngDotsOnly } from './png-dots-only.js';
import { webpDotsOnly } from './webp-dots-only.js';

/** A picture taken apart: the bytes that draw it, and whether anything else was in the file. */
export interface DotsOnly {
  readonly bytes: Uint8Array;
  readonly changed: boolean;
}

/**
 * A picture without where it was taken, dot for dot the same.
 *
 * A place can stand in EXIF, XMP, IPTC, a maker's own notes, a remark, or a second picture or film behind the first. So
 * what draws the picture is copied, and all else left behind, known or not; which way up it is and when it was taken are
 * written anew. Nothing is decoded. A file that is not built as its kind should be is not trusted: undefined.
 *
 * Shape:   bytes of a JPEG, PNG or WebP → the same picture, or undefined where it is not sure that nothing else is left
 * Checked: tests/picture/without-location.test.ts, by an independent reader
 */
export function withoutLocation(bytes: Uint8Array): DotsOnly | undefined {
  const start = Buffer.from(bytes.subarray(0, 12)).toString('latin1');
  try {
    if (start.startsWith('\u00ff\u00d8')) return madeOf(jpegDotsOnly(bytes), bytes);
    if (start.startsWith('\u0089PNG\r\n\u001a\n')) return madeOf(pngDotsOnly(bytes), bytes);
    if (start.startsWith('RIFF') && start.endsWith('WEBP')) return madeOf(webpDotsOnly(bytes), bytes);
  } catch (error) {
    // A length that leads beyond the file.
    if (!(error instanceof RangeError)) throw error;
  }
  return undefined;
}

function madeOf(parts: readonly Uint8Array[] | undefined, before: Uint8Array): DotsOnly | undefined {
  if (!parts) return undefined;
  const bytes = Buffer.concat(parts);
  return { bytes, changed: !bytes.equals(before) };
}
