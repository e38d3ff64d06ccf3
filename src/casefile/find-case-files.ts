import type { Problem } from '../problem/problem.js';
import { slugTrouble } from './case-folder-names.js';
import { folderEntries } from './folder-entries.js';
import type { CasesRoot, FolderEntry } from './folder-entries.js';
import { looseFile } from './loose-file.js';

export interface FoundAnimal {
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

export function findCaseFiles(root: CasesRoot, farm: FolderEntry): FoundFarm {
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
