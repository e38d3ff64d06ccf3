import { type KeptExif, keptExifBlock, readKeptExif } from './kept-exif.js';

const headBytes = 12;
/** Bits of the extended header that say EXIF and XMP are there (RFC 9649, 2.7.1). */
const bit = { exif: 0x08, xmp: 0x04 } as const;

/** The parts of a WebP that draw it, with a small EXIF of our own; undefined where it is not built so that this is sure. */
export function webpPixelsOnly(bytes: Uint8Array): readonly Uint8Array[] | undefined {
  const view = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const end = 8 + view.readUInt32LE(4);
  if (end > bytes.length) return undefined;
  const parts: Uint8Array[] = [];
  let kept: KeptExif = {};
  let extended: Buffer | undefined;
  for (let at = headBytes; at < end;) {
    const name = view.toString('latin1', at, at + 4);
    const length = view.readUInt32LE(at + 4);
    const to = at + 8 + length + (length % 2);
    if (to > end) return undefined;
    if (name === 'VP8X') {
      if (length < 1) return undefined;
      extended = Buffer.from(bytes.subarray(at, to));
      parts.push(extended);
    } else if (['VP8 ', 'VP8L', 'ALPH', 'ICCP'].includes(name)) parts.push(bytes.subarray(at, to));
    else if (name === 'EXIF') kept = readKeptExif(withoutHead(bytes.subarray(at + 8, at + 8 + length)));
    // Frames of a film hold parts within parts: not looked into, so not sure.
    else if (name === 'ANIM' || name === 'ANMF') return undefined;
    at = to;
  }
  if (
    !parts.some((part) => Buffer.from(part.subarray(0, 3)).toString('latin1') === 'VP8' && part[3] !== 0x58)
  )
    return undefined;
  const block = extended && keptExifBlock(kept);
  if (extended) extended[8] = (extended[8]! & ~(bit.exif | bit.xmp)) | (block ? bit.exif : 0);
  if (block) parts.push(chunk('EXIF', block));
  const head = Buffer.from(bytes.subarray(0, headBytes));
  head.writeUInt32LE(4 + parts.reduce((sum, part) => sum + part.length, 0), 4);
  return [head, ...parts];
}

/** Some programs put the mark of a JPEG's EXIF before it. */
function withoutHead(block: Uint8Array): Uint8Array {
  return Buffer.from(block.subarray(0, 6)).toString('latin1') === 'Exif\0\0' ? block.subarray(6) : block;
}

function chunk(name: string, content: Uint8Array): Uint8Array {
  const head = Buffer.alloc(8);
  head.write(name, 'latin1');
  head.writeUInt32LE(content.length, 4);
  return Buffer.concat([head, content, Buffer.alloc(content.length % 2)]);
}
