import type { Problem } from '../problem/problem.js';
import type { CaseFiles } from './source-text.js';
import type { CasesRoot } from './folder-entries.js';
import { reasonOf } from './read-text.js';

export type CasesFolder =
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
    const problem: Problem = {
      id: 'folder/unreadable',
      severity: 'error',
      file: shown,
      message: `the folder could not be read (${reasonOf(error)})`,
      mend: 'look whether you may open it, then run this again',
    };
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
  return {
    id: 'folder/no-cases-folder',
    severity: 'error',
    file: shown,
    message: 'there is no folder of this name, expected the folder that holds the farms',
    mend: 'look at the spelling and at the folder you are in; for a start, `growdown farm NAME` makes it with the first farm in it',
  };
}

/** An empty name would otherwise be taken for the folder the user happens to be in. */
function unnamed(): Problem {
  return {
    id: 'folder/no-cases-folder',
    severity: 'error',
    file: '""',
    message: 'the name of the cases folder is empty, expected the folder that holds the farms',
    mend: 'give its name, such as `cases`; where that comes from a setting of yours, look whether it holds anything',
  };
}

function notAFolder(shown: string): Problem {
  return {
    id: 'folder/not-a-folder',
    severity: 'error',
    file: shown,
    message: 'this is a file, expected the folder that holds the farms',
    mend: 'name the folder above the farms, not a file in it',
  };
}
