import { allSeals, type FarmSeals } from '../ledger/seals-of-farm.js';
import type { ArchiveVerified } from '../bag/check/verify-archive.js';
import { smallFile, type BagFiles } from '../bag/bag-files.js';
import { archiveProblem } from '../bag/bag-form.js';
import { readPractice } from '../casefile/read-practice.js';
import { type Head, headOf, holdsHead } from '../ledger/read-ledger.js';
import type { Problem } from '../problem/problem.js';
import {
  type ArchiveFacts,
  archiveFacts,
  factsPath,
  type PictureListed,
  picturesPath,
  readPictureList,
} from './archive-facts.js';
import type { FolderItem, CaseFiles } from '../casefile/source-text.js';
import { terminal } from '../problem/message.js';

/** How many records a farm has that can be sealed, and how many of them are, as they stand now. */
export function sealsCounted(seals: FarmSeals): { readonly records: number; readonly sealed: number } {
  const all = allSeals(seals);
  return { records: all.length, sealed: all.filter(({ state }) => state === 'sealed').length };
}

const data = 'data/';

/** What the records in an archive came to. */
export interface RecordsChecked {
  readonly problems: readonly Problem[];
  /** How far the chain in it goes; undefined where nothing is sealed or the chain could not be read. */
  readonly head: Head | undefined;
  /** Records that can be sealed, and those that are, as they are here. */
  readonly counted?: { readonly records: number; readonly sealed: number };
}

/**
 * Reads the records in an archive as the program reads any: the chain of seals, each record against its seal, and the
 * head somebody was given. Only files that are as they were archived are read; of the others that is already reported.
 *
 * Checked: tests/cli/verify.test.ts
 */
export function checkRecords(archive: ArchiveVerified, head: string | undefined): RecordsChecked {
  const { files, sound, shown } = archive;
  const facts = sound.has(data + factsPath) ? factsIn(archive) : undefined;
  const listed = sound.has(data + picturesPath) ? picturesIn(archive) : [];
  if (!facts || !listed) {
    // Where something is wrong with the files, that is reported; why the records were not looked at follows from it.
    const wrong = shown(data + (facts ? picturesPath : factsPath));
    const notOurs = archiveProblem('archive/not-our-form', wrong, 'records');
    return { problems: archive.problems.length > 0 ? [] : [notOurs], head: undefined };
  }
  const root = shown('data');
  const caseFiles = bagCaseFiles(files, root, { paths: sound, names: ownNames(facts, listed, sound) });
  const byName = new Map(listed.map(({ file, bytes, sha512 }) => [file, { bytes, sha512 }]));
  const { practice, problems, sealsOf } = readPractice(caseFiles, `${root}/cases`, {
    today: facts.day,
    pictures: { told: (_farm, file) => byName.get(file) },
  });
  const seals = sealsOf(facts.farm);
  const ledger = seals?.ledger;
  const reached = ledger && ledger.faults.length === 0 ? headOf(ledger) : undefined;
  const has = (printed: string): boolean => ledger !== undefined && holdsHead(ledger, printed) !== undefined;
  const wrong = problems.filter(({ severity }) => severity === 'error').filter(isNews(archive, facts));
  // A farm's archive holds that farm and no other.
  const others = practice.farms.map(({ slug }) => slug).filter((slug) => slug !== facts.farm);
  const found = [
    ...wrong.map((problem) => ({ ...problem, mend: terminal('archive.fix') })),
    ...others.map((slug) =>
      archiveProblem('archive/not-our-form', shown(`data/cases/${slug}`), 'other-farm', { farm: facts.farm }),
    ),
    ...headTroubles(archive, facts, { reached, given: head, has }),
  ];
  return { problems: found, head: reached, ...(seals ? { counted: sealsCounted(seals) } : {}) };
}

export function factsIn({ files }: Pick<ArchiveVerified, 'files'>): ArchiveFacts | undefined {
  try {
    return archiveFacts.parse(JSON.parse(smallFile(files, data + factsPath)?.toString('utf8') ?? ''));
  } catch {
    return undefined;
  }
}

export function picturesIn({ files }: Pick<ArchiveVerified, 'files'>): readonly PictureListed[] | undefined {
  const bytes = smallFile(files, data + picturesPath);
  return bytes && readPictureList(bytes.toString('utf8'));
}

/** Pictures by the names the records give them, where each lies in the archive. */
function ownNames(
  { farm }: ArchiveFacts,
  pictures: readonly PictureListed[],
  sound: ReadonlySet<string>,
): ReadonlyMap<string, string> {
  return new Map(
    pictures
      .filter(({ archivedAs }) => sound.has(data + archivedAs))
      .map(({ file, archivedAs }) => [`cases/${farm}/${file}`, data + archivedAs]),
  );
}

/** An animal that was not chosen is no loss, and neither is what follows from a file that is reported to be damaged. */
function isNews(
  { problems: told, sound }: ArchiveVerified,
  facts: ArchiveFacts,
): (problem: Problem) => boolean {
  return ({ id, file }) => {
    if (id === 'seal/animal-missing' && (told.length > 0 || facts['other-animals'].length > 0)) return false;
    if (id.startsWith('seal/picture') && told.length > 0 && !sound.has(data + picturesPath)) return false;
    if (id === 'folder/no-farm-file' && told.length > 0) return false;
    return told.every((one) => one.file !== file);
  };
}

function headTroubles(
  { shown, problems }: ArchiveVerified,
  { farm, head: said }: ArchiveFacts,
  chain: { reached: Head | undefined; given: string | undefined; has: (head: string) => boolean },
): Problem[] {
  if (problems.length > 0 && !chain.reached) return [];
  const ledger = shown(`data/cases/${farm}/.growdown/ledger.jsonl`);
  const troubles: Problem[] = [];
  if (said?.hash !== chain.reached?.hash) {
    const values = { found: inWords(chain.reached), expected: inWords(said) };
    troubles.push(archiveProblem('archive/head', ledger, 'other-end', values));
  }
  if (chain.given !== undefined && !chain.has(chain.given))
    troubles.push(archiveProblem('archive/head', ledger, 'not-in-it', { head: chain.given }));
  return troubles;
}

function inWords(head: Head | undefined): string {
  return head
    ? terminal('archive.entry', { number: head.entries, hash: head.hash.slice(0, 16) })
    : terminal('archive.nothing');
}

/**
 * The case files in an archive as the reader of case files takes them, wherever the archive lies. Pictures are under
 * their own names; `names` says where each lies in the archive.
 */
function bagCaseFiles(
  files: BagFiles,
  root: string,
  { paths, names }: { readonly paths: Iterable<string>; readonly names: ReadonlyMap<string, string> },
): CaseFiles {
  const at = new Map<string, string>();
  for (const path of paths) if (path.startsWith('data/')) at.set(`${root}${path.slice('data'.length)}`, path);
  for (const [own, path] of names) at.set(`${root}/${own}`, path);
  const folders = new Set<string>([root]);
  for (const path of at.keys())
    for (let end = path.lastIndexOf('/'); end > root.length; end = path.lastIndexOf('/', end - 1))
      folders.add(path.slice(0, end));
  const look: CaseFiles['look'] = (path) => {
    const place = at.get(path);
    if (place !== undefined) return { kind: 'file', bytes: files.sizes.get(place) ?? 0 };
    return folders.has(path) ? { kind: 'folder', bytes: 0 } : undefined;
  };
  const placeOf = (path: string): string => {
    const place = at.get(path);
    if (place === undefined) throw Object.assign(new Error(`no file ${path}`), { code: 'ENOENT' });
    return place;
  };
  return {
    look,
    list: (folder) => {
      const entries = new Map<string, FolderItem>();
      for (const path of [...folders, ...at.keys()])
        if (path.startsWith(`${folder}/`)) {
          const [name = '', ...more] = path.slice(folder.length + 1).split('/');
          const kind = more.length > 0 || folders.has(path) ? 'folder' : 'file';
          entries.set(name, { name, kind });
        }
      return [...entries.values()].toSorted((a, b) => (a.name < b.name ? -1 : 1));
    },
    read: (path) => {
      const bytes = smallFile(files, placeOf(path));
      if (!bytes) throw Object.assign(new Error(`${path} is too large`), { code: 'EFBIG' });
      return bytes;
    },
    readStart: (path, bytes) => {
      const [first = new Uint8Array()] = files.read(placeOf(path));
      return first.subarray(0, bytes);
    },
    realPath: (path) => (look(path) ? path : undefined),
  };
}
