import { type KeptExif, keptExifBlock, readKeptExif } from './kept-exif.js';

/** Markers of JPEG (ITU-T T.81, table B.1). */
const marker = { start: 0xd8, end: 0xd9, scan: 0xda, remark: 0xfe, app0: 0xe0, app15: 0xef } as const;

/** Tables, frames and scans: what draws the picture. */
const draws = (code: number): boolean => code >= 0xc0 && code <= 0xdf;
const standsAlone = (code: number): boolean => code >= 0xd0 && code <= 0xd9;

/** Parts of programs that change how the pixels look: the old format's own, the colours' meaning, how they were mixed. */
const looks: Readonly<Record<number, string>> = { 0xe0: 'JFIF\0', 0xe2: 'ICC_PROFILE\0', 0xee: 'Adobe' };
const exifHead = Buffer.from('Exif\0\0', 'latin1');

/** The parts of a JPEG that draw it, with a small EXIF of our own; undefined where it is not built as it should be. */
export function jpegPixelsOnly(bytes: Uint8Array): readonly Uint8Array[] | undefined {
  const parts: Uint8Array[] = [bytes.subarray(0, 2)];
  let kept: KeptExif = {};
  let exifAt = 1;
  for (let at = 2; ;) {
    if (byteAt(bytes, at) !== 0xff) return undefined;
    while (byteAt(bytes, at + 1) === 0xff) at += 1;
    const code = byteAt(bytes, at + 1);
    if (code === marker.end) {
      parts.push(bytes.subarray(at, at + 2));
      break;
    }
    if (standsAlone(code)) return undefined;
    const to = at + 2 + byteAt(bytes, at + 2) * 256 + byteAt(bytes, at + 3);
    if (to > bytes.length || to < at + 4) return undefined;
    const segment = bytes.subarray(at, to);
    const name = Buffer.from(segment.subarray(4, 18)).toString('latin1');
    if (code >= marker.app0 && code <= marker.app15) {
      if (looks[code] !== undefined && name.startsWith(looks[code])) {
        parts.push(segment);
        if (code === marker.app0 && parts.length === 2) exifAt = 2;
      } else if (name.startsWith('Exif\0\0')) kept = { ...readKeptExif(segment.subarray(10)), ...kept };
    } else if (draws(code)) parts.push(segment);
    else if (code !== marker.remark) return undefined;
    at = to;
    if (code === marker.scan) {
      at = endOfScan(bytes, to);
      parts.push(bytes.subarray(to, at));
    }
  }
  const block = keptExifBlock(kept);
  return block ? parts.toSpliced(exifAt, 0, exifSegment(block)) : parts;
}

/** Where the packed pixels end: at the next marker that is neither a stuffed byte nor a restart. */
function endOfScan(bytes: Uint8Array, from: number): number {
  for (let at = bytes.indexOf(0xff, from); at >= 0; at = bytes.indexOf(0xff, at + 1)) {
    const code = byteAt(bytes, at + 1);
    if (code !== 0 && code !== 0xff && !(code >= 0xd0 && code <= 0xd7)) return at;
  }
  throw new RangeError('the picture ends within its pixels');
}

function exifSegment(block: Uint8Array): Uint8Array {
  const head = Buffer.from([0xff, 0xe1, 0, 0]);
  head.writeUInt16BE(2 + exifHead.length + block.length, 2);
  return Buffer.concat([head, exifHead, block]);
}

function byteAt(bytes: Uint8Array, at: number): number {
  const byte = bytes[at];
  if (byte === undefined) throw new RangeError('the picture ends too early');
  return byte;
}
