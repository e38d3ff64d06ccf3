import { problemIn } from '../problem/message.js';
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
