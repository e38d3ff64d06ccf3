import { z } from 'zod';
import { sha256Of } from '../ledger/canonical.js';
import { problemIn } from '../problem/message.js';
import type { Problem } from '../problem/problem.js';
import { asIf } from './as-if.js';
import type { FolderItem, CaseFiles } from './source-text.js';
import { openCasesFolder } from './find-farms.js';

/** Where the journal of a change lies while it is written, seen from the first of the folders it writes in. */
export const journalFile = '.growdown/journal.json';

const hash = z.string().regex(/^[0-9a-f]{64}$/);
/** From the cases folder on, so that the folder may be moved; never out of it. */
const inside = z
  .string()
  .refine((path) => path.split('/').every((part) => part !== '' && part !== '..' && !part.includes('\\')));

/** A change as it is written down before any of its files is. */
export const journal = z.strictObject({
  journal: z.literal(1),
  /** In a few words, such as `visit of 2026-03-03`. */
  what: z.string(),
  /** It takes an earlier entry back. */
  undo: z.literal(true).optional(),
  files: z.array(
    z.strictObject({
      file: inside,
      /** What it was: base64; a number where it was so many first bytes of what it becomes; null: not there. */
      before: z.union([z.base64(), z.int().min(0), z.null()]),
      /** SHA-256 of what it becomes; null: not there. */
      after: hash.nullable(),
    }),
  ),
  /** Folders that were not there, the outer one first. */
  folders: z.array(inside),
});
export type Journal = z.infer<typeof journal>;

/** A change that was begun and not finished. */
export interface Unfinished {
  /** The folder its journal lies in: a farm's slug, or `` for the cases folder. */
  readonly home: string;
  readonly path: string;
  /** Undefined where the journal cannot be read. */
  readonly journal: Journal | undefined;
}

/** The journals that lie in the cases folder and in its farms. */
export function unfinishedIn(files: CaseFiles, folder: string): Unfinished[] {
  const isFarm = ({ name, kind }: FolderItem): boolean =>
    !name.startsWith('.') && (kind === 'folder' || kind === 'link');
  const homes = files.list(folder).flatMap((entry) => (isFarm(entry) ? entry.name : []));
  return ['', ...homes].flatMap((home): Unfinished[] => {
    const path = home === '' ? `${folder}/${journalFile}` : `${folder}/${home}/${journalFile}`;
    try {
      if (!files.look(path)) return [];
      const read = journal.safeParse(JSON.parse(new TextDecoder().decode(files.read(path))));
      return [{ home, path, journal: read.data }];
    } catch {
      return [{ home, path, journal: undefined }];
    }
  });
}

/** Whether a change writes in a farm's folder, or its journal lies there. */
export function concerns({ home, journal: read }: Unfinished, farm: string): boolean {
  return home === farm || read?.files.some(({ file }) => file.startsWith(`${farm}/`)) === true;
}

/**
 * The files of an unfinished change as they lie now, and what each was. `saved`: neither what it was nor what it was to
 * become: somebody has saved it since.
 */
export function filesLeft(files: CaseFiles, folder: string, { files: all }: Journal) {
  return all.map(({ file, before, after }) => {
    const path = `${folder}/${file}`;
    const now = files.look(path)?.kind === 'file' ? files.read(path) : undefined;
    const was =
      typeof before === 'number'
        ? now?.subarray(0, before)
        : before === null
          ? undefined
          : Buffer.from(before, 'base64');
    const isBefore =
      typeof before === 'number'
        ? now?.length === before
        : was && now
          ? Buffer.compare(was, now) === 0
          : was === now;
    const isAfter = (now === undefined ? null : sha256Of(now)) === after;
    const lies = isBefore ? ('as it was' as const) : isAfter ? ('changed' as const) : ('saved' as const);
    return { path, was, lies };
  });
}

/**
 * The case files as they were before whatever was begun and not finished, and a line on each.
 *
 * A file somebody has saved since is read as it lies. Nothing is written: the next command that writes there takes the
 * change back (`keep/disk/commit-change`).
 *
 * Checked: tests/keep/every-step.test.ts
 */
export function asItWas(
  files: CaseFiles,
  casesFolder: string,
): { readonly files: CaseFiles; readonly problems: ReadonlyMap<string, Problem> } {
  const opened = openCasesFolder(files, casesFolder);
  const all = opened.outcome === 'open' ? unfinishedOrNone(files, opened.folder) : [];
  if (opened.outcome !== 'open' || all.length === 0) return { files, problems: new Map() };
  const { folder, shown } = opened;
  const journals = all.flatMap(({ journal: read }) => read ?? []);
  const left = journals.flatMap((read) => filesLeft(files, folder, read));
  const hidden = new Set(journals.flatMap(({ folders }) => folders.map((one) => `${folder}/${one}`)));
  const before = asIf(
    files,
    left.filter(({ lies }) => lies === 'changed').map(({ path, was }) => ({ path, after: was })),
  );
  const list: CaseFiles['list'] = (at) => before.list(at).filter(({ name }) => !hidden.has(`${at}/${name}`));
  return {
    files: { ...before, list },
    problems: new Map(all.map((one) => [one.home, unfinishedProblem(one, shown)])),
  };
}

/** A cases folder that cannot be listed is reported by its reader. */
function unfinishedOrNone(files: CaseFiles, folder: string): Unfinished[] {
  try {
    return unfinishedIn(files, folder);
  } catch {
    return [];
  }
}

function unfinishedProblem({ home, journal: read }: Unfinished, shown: string): Problem {
  const file = [shown, home, journalFile].filter((part) => part !== '').join('/');
  const way = !read ? 'unreadable' : home === '' ? 'in-all' : 'in-farm';
  const values = { what: read?.what ?? '', farm: home };
  return problemIn(file, 'folder/unfinished', values, { way, severity: 'warning' });
}
