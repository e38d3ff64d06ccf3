/** What a picture's EXIF may say in an archive: which way up it is, and when it was taken by the camera's clock. */
export interface KeptExif {
  /** 2 to 8: how the pixels must be turned (EXIF 2.32, 0x0112); undefined where they are upright. */
  readonly orientation?: number;
  /** `YYYY:MM:DD HH:MM:SS`. */
  readonly taken?: string;
}

const tag = { orientation: 0x01_12, exif: 0x87_69, taken: 0x90_03 } as const;
const type = { ascii: 2, short: 3, long: 4 } as const;
const entryBytes = 12;

/**
 * Reads the two things an archive keeps out of a TIFF block as EXIF has it. A block that cannot be read says nothing:
 * no other program reads it either.
 */
export function readKeptExif(block: Uint8Array): KeptExif {
  const view = new DataView(block.buffer, block.byteOffset, block.byteLength);
  try {
    const little = view.getUint16(0) === 0x49_49;
    if ((!little && view.getUint16(0) !== 0x4d_4d) || view.getUint16(2, little) !== 42) return {};
    const find = (directory: number, wanted: number): number | undefined => {
      for (let n = view.getUint16(directory, little), at = directory + 2; n > 0; n -= 1, at += entryBytes)
        if (view.getUint16(at, little) === wanted) return at;
      return undefined;
    };
    const first = view.getUint32(4, little);
    const turned = find(first, tag.orientation);
    const orientation = turned === undefined ? 1 : view.getUint16(turned + 8, little);
    const pointer = find(first, tag.exif);
    const when = pointer === undefined ? undefined : find(view.getUint32(pointer + 8, little), tag.taken);
    const from = when === undefined ? 0 : view.getUint32(when + 8, little);
    const taken = when === undefined ? '' : Buffer.from(block.subarray(from, from + 19)).toString('latin1');
    return {
      ...(orientation >= 2 && orientation <= 8 ? { orientation } : {}),
      ...(/^\d{4}:\d\d:\d\d \d\d:\d\d:\d\d$/.test(taken) ? { taken } : {}),
    };
  } catch (error) {
    if (error instanceof RangeError) return {};
    throw error;
  }
}

/** A TIFF block that says these two things and no more; undefined where there is nothing to say. */
export function keptExifBlock({ orientation, taken }: KeptExif): Uint8Array | undefined {
  if (orientation === undefined && taken === undefined) return undefined;
  const first = 8;
  const entries = Number(orientation !== undefined) + Number(taken !== undefined);
  const second = first + 2 + entries * entryBytes + 4;
  const text = second + 2 + entryBytes + 4;
  const block = Buffer.alloc(taken === undefined ? second : text + 20);
  block.write('MM');
  block.writeUInt16BE(42, 2);
  block.writeUInt32BE(first, 4);
  let at = block.writeUInt16BE(entries, first);
  if (orientation !== undefined) {
    at = head(block, at, tag.orientation, type.short, 1);
    block.writeUInt16BE(orientation, at);
    at += 4;
  }
  if (taken !== undefined) {
    at = block.writeUInt32BE(second, head(block, at, tag.exif, type.long, 1));
    at = block.writeUInt16BE(1, second);
    block.writeUInt32BE(text, head(block, at, tag.taken, type.ascii, 20));
    block.write(taken, text, 'latin1');
  }
  return block;
}

function head(block: Buffer, at: number, what: number, kind: number, count: number): number {
  return block.writeUInt32BE(count, block.writeUInt16BE(kind, block.writeUInt16BE(what, at)));
}
