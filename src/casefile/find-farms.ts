import type { Problem } from '../problem/problem.js';
import { slugTrouble } from './case-folder-names.js';
import { findCaseFiles } from './find-case-files.js';
import type { FoundFarm } from './find-case-files.js';
import { folderEntries } from './folder-entries.js';
import type { CasesRoot, FolderEntry } from './folder-entries.js';
import { looseFile } from './loose-file.js';

export interface FoundPractice {
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

export function misspelt(entry: FolderEntry, name: string): Problem {
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
