import type { Problem } from '../../problem/problem.js';
import {
  archiveProblem,
  payload,
  type ManifestRead,
  isSlipOf,
  sha512Of,
  tagFiles,
  tagManifest,
  readManifest,
} from '../bag-form.js';
import type { BagFiles } from '../bag-files.js';
import { pathTrouble } from '../path-trouble.js';

const list = 'manifest-sha512.txt';

/**
 * Checks what is kept against its list: there, none besides, and as it was.
 *
 * A list that is itself changed proves nothing of the files: then what does not fit it is told with the list, not as
 * trouble with each file.
 */
export function checkPayload(
  files: BagFiles,
  { entries, notOurForm }: ManifestRead,
  listChanged: boolean,
  shown: (path: string) => string,
): { readonly problems: readonly Problem[]; readonly sound: ReadonlySet<string> } {
  const ofFiles: Problem[] = [];
  const ofList: string[] = notOurForm
    ? [`line ${notOurForm.line} is not as growdown archive writes it: ${notOurForm.why}`]
    : [];
  const sound = new Set<string>();
  for (const [path, listed] of entries) {
    const trouble = path.startsWith(payload) ? pathTrouble(path) : 'does not lie under data/';
    if (trouble) {
      ofList.push(`the path \`${path}\` ${trouble}`);
      continue;
    }
    if (!files.sizes.has(path)) {
      ofFiles.push(
        archiveProblem('archive/missing-file', shown(path), `the file is missing; ${list} names it`),
      );
      continue;
    }
    const found = sha512Of(files.read(path));
    if (found === listed) sound.add(path);
    else if (isSlipOf(found, listed))
      ofList.push(`the checksum of \`${path}\` was changed in this list; the file itself is as it was`);
    else
      ofFiles.push(
        archiveProblem(
          'archive/changed-file',
          shown(path),
          `the file is not the one that was archived: its checksum differs from ${list}`,
        ),
      );
  }
  for (const path of files.sizes.keys())
    if (path.startsWith(payload) && !entries.has(path))
      ofFiles.push(
        archiveProblem(
          'archive/extra-file',
          shown(path),
          `the file is no part of the archive: ${list} does not name it`,
        ),
      );

  if (!files.sizes.has(list)) return { problems: [], sound };
  const listBad = listChanged || notOurForm !== undefined;
  if (listBad && ofFiles.length > 0)
    ofList.push(
      `${ofFiles.length} ${ofFiles.length === 1 ? 'file does' : 'files do'} not fit it (the first: ${ofFiles[0]!.file}), which may be the list's fault or theirs`,
    );
  // What is told of a changed list already is not told twice.
  const told = listChanged ? ofList.filter((text) => text.includes('not fit it')) : ofList;
  return {
    problems: [
      ...told.map((text) => archiveProblem('archive/changed-list', shown(list), text)),
      ...(listBad ? [] : ofFiles),
    ],
    sound,
  };
}

/** Checks the files that are no payload: there, none besides, and as the list of them says. */
export function checkTags(
  files: BagFiles,
  texts: ReadonlyMap<string, string>,
  shown: (path: string) => string,
): { readonly problems: readonly Problem[]; readonly changed: ReadonlySet<string> } {
  const problems: Problem[] = [];
  const changed = new Set<string>();
  const { entries, notOurForm } = readManifest(texts.get(tagManifest) ?? '');
  const wrongList =
    notOurForm ??
    ([...entries.keys()].join('\n') === tagFiles.join('\n')
      ? undefined
      : { line: 1, why: `expected exactly ${tagFiles.join(', ')}` });

  for (const path of [...tagFiles, tagManifest]) {
    if (files.sizes.has(path)) continue;
    problems.push(
      archiveProblem('archive/missing-file', shown(path), 'the file is missing; every archive has one'),
    );
  }
  for (const path of files.sizes.keys()) {
    if (path.startsWith(payload) || path === tagManifest || (tagFiles as readonly string[]).includes(path))
      continue;
    problems.push(
      archiveProblem(
        'archive/extra-file',
        shown(path),
        'the file is no part of the archive: no list names it',
      ),
    );
  }
  if (files.sizes.has(tagManifest) && wrongList)
    problems.push(
      archiveProblem(
        'archive/changed-list',
        shown(tagManifest),
        `line ${wrongList.line} is not as growdown archive writes it: ${wrongList.why}`,
      ),
    );
  for (const path of tagFiles) {
    const listed = entries.get(path);
    if (listed === undefined || !files.sizes.has(path)) continue;
    const found = sha512Of(files.read(path));
    if (found === listed) continue;
    if (isSlipOf(found, listed)) {
      problems.push(
        archiveProblem(
          'archive/changed-list',
          shown(tagManifest),
          `the checksum of \`${path}\` was changed in this list; the file itself is as it was`,
        ),
      );
      continue;
    }
    changed.add(path);
    problems.push(
      archiveProblem(
        'archive/changed-file',
        shown(path),
        `the file is not the one that was archived: its checksum differs from ${tagManifest}`,
      ),
    );
  }
  return { problems, changed };
}
