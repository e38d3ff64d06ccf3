import { createHash } from 'node:crypto';
import {
  type ArchiveDisk,
  type BagInfo,
  bagInfoText,
  bagitText,
  type Oxum,
  payload,
  tagManifest,
  manifestText,
} from './bag-form.js';
import { meetingPaths, pathTrouble } from './path-trouble.js';

/** Writes one bag, file by file; nothing is kept in memory but names and checksums. */
export interface BagWriter {
  /** Puts a file under `data/` and says its checksum. A path that is not safe everywhere is our own slip, and throws. */
  readonly add: (path: string, content: string | Uint8Array | Iterable<Uint8Array>) => string;
  /** Writes what is no payload. The bag is whole when this returns. */
  readonly finish: (info: BagInfo, readme: string) => Oxum;
}

/**
 * A writer into a folder that is not there yet.
 *
 * Checked: tests/bag/on-a-real-disk.test.ts
 */
export function bagWriter(disk: ArchiveDisk, folder: string): BagWriter {
  const payloadSums = new Map<string, string>();
  let bytes = 0;
  const put = (path: string, content: string | Uint8Array | Iterable<Uint8Array>): string => {
    const file = disk.create(`${folder}/${path}`);
    const hash = createHash('sha512');
    try {
      for (const piece of piecesFrom(content)) {
        file.write(piece);
        hash.update(piece);
        if (path.startsWith(payload)) bytes += piece.length;
      }
    } finally {
      file.close();
    }
    return hash.digest('hex');
  };
  return {
    add: (path, content) => {
      const full = payload + path;
      const trouble = pathTrouble(full);
      if (trouble) throw new RangeError(`the path ${full} may not be: ${trouble.way}`);
      const sha512 = put(full, content);
      payloadSums.set(full, sha512);
      return sha512;
    },
    finish: (info, readme) => {
      const [met] = meetingPaths(payloadSums.keys());
      if (met) throw new RangeError(`the paths ${met[0]} and ${met[1]} would meet on some disks`);
      const oxum = { bytes, files: payloadSums.size };
      const tags = new Map(
        [
          ['README.txt', readme],
          ['bag-info.txt', bagInfoText(info, oxum)],
          ['bagit.txt', bagitText],
          ['manifest-sha512.txt', manifestText(payloadSums)],
        ].map(([path, text]) => [path!, put(path!, text!)]),
      );
      put(tagManifest, manifestText(tags));
      return oxum;
    },
  };
}

function piecesFrom(content: string | Uint8Array | Iterable<Uint8Array>): Iterable<Uint8Array> {
  if (typeof content === 'string') return [Buffer.from(content, 'utf8')];
  return content instanceof Uint8Array ? [content] : content;
}
