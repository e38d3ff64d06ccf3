import { crc32 } from 'node:zlib';

/** A file in a zip made by hand, so that it can lie about anything. */
export interface RawEntry {
  readonly name: string | Buffer;
  readonly content?: string;
  readonly flags?: number;
  readonly method?: number;
  readonly mode?: number;
  readonly bytes?: number;
  readonly packedBytes?: number;
  readonly headerAt?: number;
  readonly extra?: Buffer;
  readonly comment?: Buffer;
}

export interface RawEnd {
  readonly before?: Buffer;
  readonly after?: Buffer;
  readonly count?: number;
  readonly comment?: Buffer;
  readonly disk?: number;
  /** Between the directory and its end. */
  readonly between?: Buffer;
}

export function rawZip(entries: readonly RawEntry[], end: RawEnd = {}): Buffer {
  const parts: Buffer[] = [end.before ?? Buffer.alloc(0)];
  const lines: Buffer[] = [];
  let at = 0;
  for (const entry of entries) {
    const name = Buffer.from(entry.name);
    const content = Buffer.from(entry.content ?? '');
    const {
      flags = 0x800,
      method = 0,
      mode = 0o100_644,
      extra = Buffer.alloc(0),
      comment = Buffer.alloc(0),
    } = entry;
    const bytes = entry.bytes ?? content.length;
    const packed = entry.packedBytes ?? bytes;
    const common = Buffer.alloc(26);
    common.writeUInt16LE(20, 0);
    common.writeUInt16LE(flags, 2);
    common.writeUInt16LE(method, 4);
    common.writeUInt16LE(0x21, 8);
    common.writeUInt32LE(crc32(content), 10);
    common.writeUInt32LE(packed, 14);
    common.writeUInt32LE(bytes, 18);
    common.writeUInt16LE(name.length, 22);
    const header = Buffer.concat([Buffer.from('PK\u0003\u0004'), common, name, content]);
    common.writeUInt16LE(extra.length, 24);
    const tail = Buffer.alloc(14);
    tail.writeUInt16LE(comment.length, 0);
    tail.writeUInt32LE((mode << 16) >>> 0, 6);
    tail.writeUInt32LE(entry.headerAt ?? at, 10);
    lines.push(
      Buffer.concat([
        Buffer.from('PK\u0001\u0002'),
        Buffer.from([63, 3]),
        common,
        tail,
        name,
        extra,
        comment,
      ]),
    );
    parts.push(header);
    at += header.length;
  }
  const directory = Buffer.concat(lines);
  const last = Buffer.alloc(22);
  last.write('PK\u0005\u0006', 'latin1');
  last.writeUInt16LE(end.disk ?? 0, 4);
  last.writeUInt16LE(end.count ?? entries.length, 8);
  last.writeUInt16LE(end.count ?? entries.length, 10);
  last.writeUInt32LE(directory.length, 12);
  last.writeUInt32LE(at, 16);
  last.writeUInt16LE(end.comment?.length ?? 0, 20);
  return Buffer.concat([
    ...parts,
    directory,
    end.between ?? Buffer.alloc(0),
    last,
    end.comment ?? Buffer.alloc(0),
    end.after ?? Buffer.alloc(0),
  ]);
}
