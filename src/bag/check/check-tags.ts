import type { Problem } from '../../problem/problem.js';
import { archiveProblem } from '../archive-problem.js';
import { payload, tagFiles, tagManifest } from '../bag-form.js';
import type { BagFiles } from '../bag-files.js';
import { readManifest } from '../manifest.js';
import { isSlipOf, sha512Of } from '../sha512-of.js';

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
