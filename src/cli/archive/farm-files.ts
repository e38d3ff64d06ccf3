import type { CaseFiles } from '../../casefile/case-files.js';
import { lookAtPicture } from '../../casefile/look-at-picture.js';
import { archiveText } from '../../reference/archive-text.js';

/** A file in a farm's folder that is no case file; `path` from that folder, with `/`. */
export interface FarmFile {
  readonly path: string;
  readonly kind: 'picture' | 'clip' | 'other';
}

/** What an archive leaves out, and why, for its text. */
export interface LeftOut {
  readonly file: string;
  readonly why: string;
}

const deepest = 8;

/** All that lies in a farm's folder besides its case files, sorted; folders and files whose name begins with a full stop are the computer's own. */
export function farmFiles(
  files: CaseFiles,
  folder: string,
): { readonly found: readonly FarmFile[]; readonly leftOut: readonly LeftOut[] } {
  const found: FarmFile[] = [];
  const leftOut: LeftOut[] = [];
  const walk = (below: string, depth: number): void => {
    for (const { name, kind } of files.list(below === '' ? folder : `${folder}/${below}`)) {
      const path = below === '' ? name : `${below}/${name}`;
      if (name.startsWith('.') || (below === '' && name.endsWith('.md') && name !== 'README.md')) continue;
      if (kind === 'folder' && depth < deepest) walk(path, depth + 1);
      else if (kind === 'file') found.push({ path, kind: kindOf(files, folder, path) });
      else if (
        kind === 'link' &&
        !['missing', 'outside', 'not-a-picture'].includes(look(files, folder, path))
      )
        found.push({ path, kind: kindOf(files, folder, path) });
      else leftOut.push({ file: path, why: 'a link or a folder that was not followed' });
    }
  };
  walk('', 0);
  return { found: found.toSorted((a, b) => (a.path < b.path ? -1 : 1)), leftOut };
}

function kindOf(files: CaseFiles, folder: string, path: string): FarmFile['kind'] {
  if (['jpeg', 'png', 'webp'].includes(look(files, folder, path))) return 'picture';
  return archiveText.clips.some((ending) => path.toLowerCase().endsWith(ending)) ? 'clip' : 'other';
}

function look(files: CaseFiles, folder: string, path: string): string {
  return lookAtPicture(files, folder, path).kind;
}
