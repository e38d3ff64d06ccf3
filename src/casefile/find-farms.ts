import { problemIn } from '../problem/message.js';
import type { Problem } from '../problem/problem.js';
import { slugTrouble, folderEntries, type CasesRoot, type FolderEntry, looseFile } from './folder-entries.js';
import type { CaseFiles } from './source-text.js';
import { reasonOf } from './read-text.js';

/** A farm's folder and the files in it that are to be read. */
export interface FoundFarm {
  readonly slug: string;
  readonly entry: FolderEntry;
  readonly farmFile: FolderEntry | undefined;
  readonly animals: readonly { readonly slug: string; readonly entry: FolderEntry }[];
  readonly problems: readonly Problem[];
}

/** Sub-folders are looked through for stray case files this deep. */
const deepest = 4;

function findCaseFiles(root: CasesRoot, farm: FolderEntry): FoundFarm {
  const { entries, problems } = folderEntries(root, farm.path, farm.shown);
  const read: FolderEntry[] = [];
  for (const entry of entries) {
    const copied = copyOf(entry, entries);
    const wrong = copied === undefined ? wrongInFarm(root, entry) : [passedOver(entry, copied)];
    if (wrong.length === 0 && entry.name.endsWith('.md')) read.push(entry);
    for (const one of wrong) problems.push(one);
  }
  const farmFile = read.find(({ name }) => name === 'farm.md');
  const animals = read
    .filter((entry) => entry !== farmFile)
    .map((entry) => ({ slug: entry.name.slice(0, -'.md'.length), entry }))
    .sort((a, b) => (a.slug < b.slug ? -1 : 1));
  const misnamed = problems.some(
    ({ id, file }) =>
      id === 'folder/unreadable' || file.toLowerCase() === `${farm.shown}/farm.md`.toLowerCase(),
  );
  if (!farmFile && !misnamed) problems.push(problemIn(farm.shown, 'folder/no-farm-file'));
  else if (animals.length === 0 && problems.every(({ severity }) => severity !== 'error'))
    problems.push(problemIn(farm.shown, 'folder/no-animals', { farm: farm.name }, { severity: 'warning' }));
  return { slug: farm.name, entry: farm, farmFile, animals, problems };
}

/** What a sync program, an editor or a person puts behind a file's name, or before it, when it makes a second one of it. */
const ofCopy = /^(?: ?\(.+\)|[ ._-].*(?:conflict|copy).*|(?:-[A-Z\d]+){2,})$/i;

/** The file beside it that a file is a copy of, by its name; undefined where it is none, or nothing of that name is read. */
function copyOf({ name, kind }: FolderEntry, beside: readonly FolderEntry[]): string | undefined {
  if (kind !== 'file' || !/\.md$/i.test(name) || !slugTrouble(name.slice(0, -'.md'.length))) return undefined;
  return beside.find((other) => {
    const stem = other.name.slice(0, -'.md'.length);
    if (other.name !== `${stem}.md` || slugTrouble(stem)) return false;
    return (
      name === `~$${other.name}` ||
      (name.startsWith(stem) && ofCopy.test(name.slice(stem.length, -'.md'.length)))
    );
  })?.name;
}

function passedOver({ shown }: FolderEntry, original: string): Problem {
  return problemIn(shown, 'folder/copy', { original }, { severity: 'warning' });
}

function wrongInFarm(root: CasesRoot, entry: FolderEntry): Problem[] {
  const { name, kind, shown } = entry;
  const lower = name.toLowerCase();
  if (!lower.endsWith('.md') && kind === 'folder') return strayIn(root, entry, 1);
  if (!lower.endsWith('.md') || (kind === 'file' && lower === 'readme.md'))
    return looseFile(root, entry, 'farm');
  if (kind !== 'file')
    return [problemIn(shown, 'file/not-a-file', {}, kind === 'folder' ? { way: 'folder' } : {})];
  if (lower === 'business.md') return [problemIn(shown, 'folder/business-in-farm')];
  const trouble = slugTrouble(name.slice(0, -'.md'.length));
  const good = lower === 'farm.md' || (!trouble && name.endsWith('.md'));
  if (good && name === lower) return [];
  if (good || !trouble || trouble.id === 'folder/letter-case') return [inCapitals(entry, lower)];
  const { id, expected, meant } = trouble;
  return [problemIn(shown, id, { name, expected, meant }, { way: meant === '' ? 'file-none-near' : 'file' })];
}

function strayIn(root: CasesRoot, folder: FolderEntry, depth: number): Problem[] {
  return folderEntries(root, folder.path, folder.shown).entries.flatMap((entry) => {
    if (entry.kind !== 'folder') return looseFile(root, entry, 'sub-folder');
    return depth < deepest ? strayIn(root, entry, depth + 1) : [];
  });
}

interface FoundPractice {
  readonly business: FolderEntry | undefined;
  readonly farms: readonly FoundFarm[];
  readonly problems: readonly Problem[];
}

/** Looks through the cases folder: which farms it holds, which files each has, and what does not belong there. */
export function findFarms(root: CasesRoot, folder: string, shown: string): FoundPractice {
  const { entries, problems } = folderEntries(root, folder, shown);
  const farms: FoundFarm[] = [];
  let business: FolderEntry | undefined;
  for (const entry of entries) {
    const lower = entry.name.toLowerCase();
    if (entry.kind === 'folder') {
      const farm = farmIn(root, entry);
      if ('entry' in farm) farms.push(farm);
      else for (const one of farm.problems) problems.push(one);
    } else if (entry.name === 'business.md') business = entry;
    else if (lower === 'business.md') problems.push(inCapitals(entry, lower));
    else if (lower === 'farm.md') problems.push(problemIn(entry.shown, 'folder/pointed-at-farm'));
    else for (const one of looseFile(root, entry, 'root')) problems.push(one);
  }
  // Somebody pointed at one farm: its sub-folders are no farms, and its animals need no word each.
  if (problems.some(({ id }) => id === 'folder/pointed-at-farm'))
    return {
      business,
      farms: farms.filter(({ farmFile, animals }) => farmFile || animals.length > 0),
      problems: problems.filter(({ id }) => id !== 'folder/stray-file'),
    };
  if (farms.length === 0 && problems.every(({ severity }) => severity !== 'error'))
    problems.push(problemIn(shown, 'folder/no-farms'));
  return { business, farms, problems };
}

/** A folder of another name that holds no case file is none of our business; one that does is a farm misnamed. */
function farmIn(root: CasesRoot, entry: FolderEntry): FoundFarm | Pick<FoundFarm, 'problems'> {
  const { name, shown } = entry;
  const farm = findCaseFiles(root, entry);
  const trouble = slugTrouble(name);
  if (!trouble) return farm;
  if (!farm.farmFile && farm.animals.length === 0) {
    const unread = farm.problems.filter(({ id }) => id === 'folder/other-ending');
    return { problems: [...unread, problemIn(shown, 'folder/not-a-farm', {}, { severity: 'note' })] };
  }
  const { id, expected, meant } = trouble;
  const way = meant === '' ? 'folder-none-near' : 'folder';
  return { ...farm, problems: [problemIn(shown, id, { name, expected, meant }, { way }), ...farm.problems] };
}

function inCapitals({ name, shown }: FolderEntry, meant: string): Problem {
  return problemIn(shown, 'folder/letter-case', { name, meant });
}

type CasesFolder =
  | { readonly outcome: 'open'; readonly root: CasesRoot; readonly folder: string; readonly shown: string }
  | { readonly outcome: 'problem'; readonly problem: Problem };

/** Finds the cases folder as typed. A path written with `\` is taken with `/` where it does not stand as it is. */
export function openCasesFolder(files: CaseFiles, typed: string): CasesFolder {
  const wrong = (at: string, id: string, way?: string, reason = ''): CasesFolder => ({
    outcome: 'problem',
    problem: problemIn(at, `folder/${id}`, { reason }, way === undefined ? {} : { way }),
  });
  // An empty name would otherwise be taken for the folder the user happens to be in.
  if (typed.trim() === '') return wrong('""', 'no-cases-folder', 'unnamed');
  const shown = tidy(typed);
  try {
    const folder = files.look(typed) ? typed.replace(/(?<=.)[/\\]+$/, '') || typed : shown;
    const look = files.look(folder);
    const real = files.realPath(folder);
    if (!look || real === undefined) return wrong(shown, 'no-cases-folder', 'missing');
    if (look.kind !== 'folder') return wrong(shown, 'not-a-folder');
    return { outcome: 'open', root: { files, real: real.replace(/\/$/, '') }, folder, shown };
  } catch (error) {
    return wrong(shown, 'unreadable', undefined, reasonOf(error));
  }
}

/** As the user would type it, with `/`, without `./` before and `/` behind. */
function tidy(typed: string): string {
  const slashed = typed.replaceAll('\\', '/').replace(/^(?:\.\/+)+/, '');
  return slashed.replace(/(?<=.)\/+$/, '') || '.';
}
