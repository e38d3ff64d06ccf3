import { jpegPixelsOnly } from './jpeg-pixels-only.js';
import { webpPixelsOnly } from './webp-pixels-only.js';
import { crc32 } from 'node:zlib';
import { type KeptExif, keptExifBlock, readKeptExif } from './kept-exif.js';

const signatureBytes = 8;

/** Chunks that draw the picture or say how its colours are meant (PNG, third edition, 11). */
const draws = new Set(
  'IHDR PLTE IDAT IEND tRNS cHRM gAMA iCCP sBIT sRGB cICP mDCV cLLI bKGD hIST pHYs sPLT acTL fcTL fdAT'.split(
    ' ',
  ),
);

/** The parts of a PNG that draw it, with a small EXIF of our own; undefined where it is not built as it should be. */
function pngPixelsOnly(bytes: Uint8Array): readonly Uint8Array[] | undefined {
  const view = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const parts: Uint8Array[] = [bytes.subarray(0, signatureBytes)];
  let kept: KeptExif = {};
  for (let at = signatureBytes; ;) {
    const length = view.readUInt32BE(at);
    const name = view.toString('latin1', at + 4, at + 8);
    const to = at + 12 + length;
    if (to > bytes.length || (at === signatureBytes && name !== 'IHDR')) return undefined;
    if (draws.has(name)) parts.push(bytes.subarray(at, to));
    else if (name === 'eXIf') kept = readKeptExif(bytes.subarray(at + 8, to - 4));
    // A capital first letter: a picture that cannot be drawn without this part.
    else if (!/^[a-z][A-Za-z]{3}$/.test(name)) return undefined;
    if (name === 'IEND') break;
    at = to;
  }
  const block = keptExifBlock(kept);
  return block ? parts.toSpliced(2, 0, chunk('eXIf', block)) : parts;
}

function chunk(name: string, content: Uint8Array): Uint8Array {
  const named = Buffer.concat([Buffer.from(name, 'latin1'), content]);
  const whole = Buffer.alloc(named.length + 8);
  whole.writeUInt32BE(content.length, 0);
  whole.set(named, 4);
  whole.writeUInt32BE(crc32(named), named.length + 4);
  return whole;
}

/** A picture taken apart: the bytes that draw it, and whether anything else was in the file. */
export interface DotsOnly {
  readonly bytes: Uint8Array;
  readonly changed: boolean;
}

/**
 * A picture without where it was taken, dot for dot the same.
 *
 * A place can be in EXIF, XMP, IPTC, a maker's own notes, a remark, or a second picture or film behind the first. So
 * what draws the picture is copied, and all else left behind, known or not; which way up it is and when it was taken are
 * written anew. Nothing is decoded. A file that is not built as its kind should be is not trusted: undefined.
 *
 * Shape:   bytes of a JPEG, PNG or WebP → the same picture, or undefined where it is not sure that nothing else is left
 * Checked: tests/picture/without-location.test.ts, by an independent reader
 */
export function withoutLocation(bytes: Uint8Array): DotsOnly | undefined {
  const start = Buffer.from(bytes.subarray(0, 12)).toString('latin1');
  try {
    if (start.startsWith('\u00ff\u00d8')) return madeOf(jpegPixelsOnly(bytes), bytes);
    if (start.startsWith('\u0089PNG\r\n\u001a\n')) return madeOf(pngPixelsOnly(bytes), bytes);
    if (start.startsWith('RIFF') && start.endsWith('WEBP')) return madeOf(webpPixelsOnly(bytes), bytes);
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
