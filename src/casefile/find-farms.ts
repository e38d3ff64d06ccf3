import { problemIn } from '../problem/message.js';
import type { Problem } from '../problem/problem.js';
import { slugTrouble, folderEntries, type CasesRoot, type FolderEntry, looseFile } from './folder-entries.js';
import type { CaseFiles } from './source-text.js';
import { reasonOf } from './read-text.js';

interface FoundAnimal {
  readonly slug: string;
  readonly entry: FolderEntry;
}

/** A farm's folder and the files in it that are to be read. */
export interface FoundFarm {
  readonly slug: string;
  readonly entry: FolderEntry;
  readonly farmFile: FolderEntry | undefined;
  readonly animals: readonly FoundAnimal[];
  readonly problems: readonly Problem[];
}

/** Sub-folders are looked through for stray case files this deep. */
const deepest = 4;

function findCaseFiles(root: CasesRoot, farm: FolderEntry): FoundFarm {
  const { entries, problems } = folderEntries(root, farm.path, farm.shown);
  const animals: FoundAnimal[] = [];
  let farmFile: FolderEntry | undefined;
  for (const entry of entries) {
    const lower = entry.name.toLowerCase();
    if (!lower.endsWith('.md')) {
      if (entry.kind === 'folder') for (const each of strayIn(root, entry, 1)) problems.push(each);
      else for (const each of looseFile(root, entry, 'farm')) problems.push(each);
    } else if (entry.kind !== 'file') problems.push(notAFile(entry));
    else if (lower === 'readme.md') for (const each of looseFile(root, entry, 'farm')) problems.push(each);
    else if (lower === 'business.md') problems.push(misplacedBusiness(entry));
    else if (entry.name === 'farm.md') farmFile = entry;
    else {
      const trouble = nameTrouble(entry);
      if (trouble) problems.push(trouble);
      else animals.push({ slug: entry.name.slice(0, -'.md'.length), entry });
    }
  }
  const misnamed = problems.some(
    ({ id, file }) =>
      id === 'folder/unreadable' || file.toLowerCase() === `${farm.shown}/farm.md`.toLowerCase(),
  );
  if (!farmFile && !misnamed) problems.push(noFarmFile(farm));
  else if (animals.length === 0 && problems.every(({ severity }) => severity !== 'error'))
    problems.push(noAnimals(farm));
  animals.sort((a, b) => (a.slug < b.slug ? -1 : 1));
  return { slug: farm.name, entry: farm, farmFile, animals, problems };
}

function nameTrouble(entry: FolderEntry): Problem | undefined {
  const stem = entry.name.slice(0, -'.md'.length);
  const trouble = slugTrouble(stem);
  const lower = entry.name.toLowerCase();
  const good = lower === 'farm.md' || (!trouble && entry.name.endsWith('.md'));
  if (good && entry.name === lower) return undefined;
  if (good || !trouble || trouble.id === 'folder/letter-case') return inCapitals(entry, lower);
  const { id, expected, meant } = trouble;
  const values = { name: entry.name, expected, meant };
  return problemIn(entry.shown, id, values, { way: meant === '' ? 'file-none-near' : 'file' });
}

function strayIn(root: CasesRoot, folder: FolderEntry, depth: number): Problem[] {
  const { entries } = folderEntries(root, folder.path, folder.shown);
  return entries.flatMap((entry) => {
    if (entry.kind === 'folder') return depth < deepest ? strayIn(root, entry, depth + 1) : [];
    return looseFile(root, entry, 'sub-folder');
  });
}

function notAFile({ kind, shown }: FolderEntry): Problem {
  return problemIn(shown, 'file/not-a-file', {}, kind === 'folder' ? { way: 'folder' } : {});
}

function misplacedBusiness(entry: FolderEntry): Problem {
  return problemIn(entry.shown, 'folder/business-in-farm');
}

function noFarmFile(farm: FolderEntry): Problem {
  return problemIn(farm.shown, 'folder/no-farm-file');
}

function noAnimals({ name, shown }: FolderEntry): Problem {
  return problemIn(shown, 'folder/no-animals', { farm: name }, { severity: 'warning' });
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
    if (entry.kind === 'folder') {
      const farm = farmIn(root, entry, problems);
      if (farm) farms.push(farm);
    } else if (entry.name === 'business.md') business = entry;
    else if (entry.name.toLowerCase() === 'business.md') problems.push(inCapitals(entry, 'business.md'));
    else if (entry.name.toLowerCase() === 'farm.md') problems.push(pointedAtFarm(entry));
    else for (const each of looseFile(root, entry, 'root')) problems.push(each);
  }
  if (problems.some(({ id }) => id === 'folder/pointed-at-farm'))
    return withoutSubFolders(business, farms, problems);
  if (farms.length === 0 && problems.every(({ severity }) => severity !== 'error'))
    problems.push(noFarms(shown));
  return { business, farms, problems };
}

/** Somebody pointed at one farm: its sub-folders are no farms, and its animals need no word each. */
function withoutSubFolders(
  business: FolderEntry | undefined,
  farms: readonly FoundFarm[],
  problems: readonly Problem[],
): FoundPractice {
  return {
    business,
    farms: farms.filter(({ farmFile, animals }) => farmFile || animals.length > 0),
    problems: problems.filter(({ id }) => id !== 'folder/stray-file'),
  };
}

/** A folder of another name that holds no case file is none of our business; one that does is a farm misnamed. */
function farmIn(root: CasesRoot, entry: FolderEntry, problems: Problem[]): FoundFarm | undefined {
  const farm = findCaseFiles(root, entry);
  const trouble = slugTrouble(entry.name);
  if (!trouble) return farm;
  if (!farm.farmFile && farm.animals.length === 0) {
    const unread = farm.problems.filter(({ id }) => id === 'folder/other-ending');
    for (const each of unread) problems.push(each);
    problems.push(problemIn(entry.shown, 'folder/not-a-farm', {}, { severity: 'note' }));
    return undefined;
  }
  const { id, expected, meant } = trouble;
  const way = meant === '' ? 'folder-none-near' : 'folder';
  const misnamed = problemIn(entry.shown, id, { name: entry.name, expected, meant }, { way });
  return { ...farm, problems: [misnamed, ...farm.problems] };
}

function inCapitals({ name, shown }: FolderEntry, meant: string): Problem {
  return problemIn(shown, 'folder/letter-case', { name, meant });
}

function pointedAtFarm(entry: FolderEntry): Problem {
  return problemIn(entry.shown, 'folder/pointed-at-farm');
}

function noFarms(shown: string): Problem {
  return problemIn(shown, 'folder/no-farms');
}

type CasesFolder =
  | { readonly outcome: 'open'; readonly root: CasesRoot; readonly folder: string; readonly shown: string }
  | { readonly outcome: 'problem'; readonly problem: Problem };

/** Finds the cases folder as typed. A path written with `\` is taken with `/` where it does not stand as it is. */
export function openCasesFolder(files: CaseFiles, typed: string): CasesFolder {
  if (typed.trim() === '') return { outcome: 'problem', problem: unnamed() };
  const shown = tidy(typed);
  try {
    const folder = files.look(typed) ? typed.replace(/(?<=.)[/\\]+$/, '') || typed : shown;
    const look = files.look(folder);
    const real = files.realPath(folder);
    if (!look || real === undefined) return { outcome: 'problem', problem: missing(shown) };
    if (look.kind !== 'folder') return { outcome: 'problem', problem: notAFolder(shown) };
    return { outcome: 'open', root: { files, real: real.replace(/\/$/, '') }, folder, shown };
  } catch (error) {
    const problem: Problem = problemIn(shown, 'folder/unreadable', { reason: reasonOf(error) });
    return { outcome: 'problem', problem };
  }
}

/** As the user would type it, with `/`, without `./` before and `/` behind. */
function tidy(typed: string): string {
  const slashed = typed
    .replaceAll('\\', '/')
    .replace(/^(?:\.\/+)+/, '')
    .replace(/(?<=.)\/+$/, '');
  return slashed === '' ? '.' : slashed;
}

function missing(shown: string): Problem {
  return problemIn(shown, 'folder/no-cases-folder', {}, { way: 'missing' });
}

/** An empty name would otherwise be taken for the folder the user happens to be in. */
function unnamed(): Problem {
  return problemIn('""', 'folder/no-cases-folder', {}, { way: 'unnamed' });
}

function notAFolder(shown: string): Problem {
  return problemIn(shown, 'folder/not-a-folder');
}
