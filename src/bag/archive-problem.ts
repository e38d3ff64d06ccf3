import type { Problem } from '../problem/problem.js';

/** How each kind of trouble with an archive is put right. None can be mended by hand: there is another copy, or there is not. */
const mends = {
  'archive/no-archive': 'name the folder or the zip that `growdown archive` wrote',
  'archive/unsafe-path': 'do not unpack this; ask whoever it came from for the archive as it was written',
  'archive/link': 'do not unpack this; ask whoever it came from for the archive as it was written',
  'archive/too-much': 'do not unpack this; ask whoever it came from for the archive as it was written',
  'archive/zip-form':
    'take another copy of the zip; one packed again by another program can be unpacked by that program, and its folder verified',
  'archive/missing-file': 'take the file from another copy of the archive',
  'archive/extra-file':
    'if the computer put it there (a list of thumbnails), delete it; else ask who did: it is no part of what was archived',
  'archive/changed-file': 'take the file from another copy of the archive, and verify again',
  'archive/changed-list': 'take this list from another copy of the archive, and verify again',
  'archive/not-our-form': 'take this file from another copy of the archive, and verify again',
  'archive/head':
    'hold it against another copy of the archive, and against the heads printed in the books and mails of the time',
  'archive/wrong-count': 'take another copy of the archive: the counts in this one contradict its lists',
} as const;
export type ArchiveProblemId = keyof typeof mends;

/** One thing wrong with an archive. */
export function archiveProblem(id: ArchiveProblemId, file: string, message: string): Problem {
  return { id, severity: 'error', file, message, mend: mends[id] };
}
