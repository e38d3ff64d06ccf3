import type { Problem } from '../problem/problem.js';
import { slugTrouble, folderEntries, type CasesRoot, type FolderEntry, looseFile } from './folder-entries.js';

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
  const said =
    good || !trouble || trouble.id === 'folder/letter-case'
      ? { id: 'folder/letter-case', expected: 'small letters', mend: `rename it to \`${lower}\`` }
      : {
          ...trouble,
          mend: `${trouble.mend.replace(/`$/, '.md`')}; if it is a copy of another file, delete one of the two`,
        };
  const message = `the file is called \`${entry.name}\`, expected ${said.expected}`;
  return { id: said.id, severity: 'error', file: entry.shown, message, mend: said.mend };
}

function strayIn(root: CasesRoot, folder: FolderEntry, depth: number): Problem[] {
  const { entries } = folderEntries(root, folder.path, folder.shown);
  return entries.flatMap((entry) => {
    if (entry.kind === 'folder') return depth < deepest ? strayIn(root, entry, depth + 1) : [];
    return looseFile(root, entry, 'sub-folder');
  });
}

function notAFile(entry: FolderEntry): Problem {
  return {
    id: 'file/not-a-file',
    severity: 'error',
    file: entry.shown,
    message: `this is ${entry.kind === 'folder' ? 'a folder' : 'no ordinary file'}, expected a text file with this name`,
    mend: 'give it a name that does not end in `.md`',
  };
}

function misplacedBusiness(entry: FolderEntry): Problem {
  return {
    id: 'folder/business-in-farm',
    severity: 'error',
    file: entry.shown,
    message: "`business.md` stands in a farm's folder, expected it in the cases folder above",
    mend: 'move it one folder up, beside the farms',
  };
}

function noFarmFile(farm: FolderEntry): Problem {
  return {
    id: 'folder/no-farm-file',
    severity: 'error',
    file: farm.shown,
    message: "the folder has no `farm.md`, expected one in each farm's folder",
    mend: 'write a file `farm.md` with three lines: `---`, `farm:` with a space and the name of the farm, `---`',
  };
}

function noAnimals(farm: FolderEntry): Problem {
  return {
    id: 'folder/no-animals',
    severity: 'warning',
    file: farm.shown,
    message: 'the farm has no animal, expected a file for each animal',
    mend: `open a case with \`growdown start ${farm.shown.replace(/^.*\//, '')}/NUMBER\`, or write a file such as \`2086.md\` beside \`farm.md\`; if it had some, look where they went and that their names end in \`.md\``,
  };
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
    else if (entry.name.toLowerCase() === 'business.md') problems.push(misspelt(entry, 'business.md'));
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
    problems.push({
      id: 'folder/not-a-farm',
      severity: 'note',
      file: entry.shown,
      message: 'this folder holds no case files and is not read, expected a folder for each farm',
      mend: 'nothing to do, unless it should be a farm: then name it in small letters and write a `farm.md` into it',
    });
    return undefined;
  }
  const { id, expected, mend } = trouble;
  const message = `the farm's folder is called \`${entry.name}\`, expected ${expected}`;
  return {
    ...farm,
    problems: [{ id, severity: 'error', file: entry.shown, message, mend }, ...farm.problems],
  };
}

function misspelt(entry: FolderEntry, name: string): Problem {
  return {
    id: 'folder/letter-case',
    severity: 'error',
    file: entry.shown,
    message: `the file is called \`${entry.name}\`, expected small letters`,
    mend: `rename it to \`${name}\``,
  };
}

function pointedAtFarm(entry: FolderEntry): Problem {
  return {
    id: 'folder/pointed-at-farm',
    severity: 'error',
    file: entry.shown,
    message:
      "a farm's file stands in the cases folder itself, expected it in a folder of its own for each farm",
    mend: 'point to the folder above, the one that holds the farms; or make a folder for the farm and move its files into it',
  };
}

function noFarms(shown: string): Problem {
  return {
    id: 'folder/no-farms',
    severity: 'error',
    file: shown,
    message: 'the cases folder holds no farm, expected a folder for each farm',
    mend: 'make a folder such as `quernholt` in it, and in that a file `farm.md` with three lines: `---`, `farm: Quernholt`, `---`',
  };
}
