import type { Problem } from '../../problem/problem.js';
import {
  archiveProblem,
  payload,
  type ManifestRead,
  type Trouble,
  isSlipOf,
  sha512Of,
  tagFiles,
  tagManifest,
  readManifest,
} from '../bag-form.js';
import type { BagFiles } from '../bag-files.js';
import { pathTrouble } from '../path-trouble.js';
import { inRow } from '../../problem/message.js';

const list = 'manifest-sha512.txt';

/**
 * Checks what is kept against its list: there, none besides, and as it was.
 *
 * A list that is itself changed proves nothing of the files: then what does not fit it is reported with the list, not as
 * trouble with each file.
 */
export function checkPayload(
  files: BagFiles,
  { entries, notOurForm }: ManifestRead,
  listChanged: boolean,
  shown: (path: string) => string,
): { readonly problems: readonly Problem[]; readonly sound: ReadonlySet<string> } {
  const ofFiles: Problem[] = [];
  const ofList: Trouble[] = notOurForm ? [notOurForm] : [];
  const sound = new Set<string>();
  for (const [path, listed] of entries) {
    const trouble = path.startsWith(payload) ? pathTrouble(path) : { way: 'path-elsewhere' };
    const found = !trouble && files.sizes.has(path) ? sha512Of(files.read(path)) : undefined;
    if (trouble) ofList.push({ way: trouble.way, values: { ...trouble.values, path } });
    else if (found === undefined)
      ofFiles.push(archiveProblem('archive/missing-file', shown(path), 'listed', { list }));
    else if (found === listed) sound.add(path);
    else if (isSlipOf(found, listed)) ofList.push({ way: 'checksum', values: { path } });
    else ofFiles.push(archiveProblem('archive/changed-file', shown(path), undefined, { list }));
  }
  for (const path of files.sizes.keys())
    if (path.startsWith(payload) && !entries.has(path))
      ofFiles.push(archiveProblem('archive/extra-file', shown(path), 'not-listed', { list }));

  if (!files.sizes.has(list)) return { problems: [], sound };
  const listBad = listChanged || notOurForm !== undefined;
  if (listBad && ofFiles.length > 0)
    ofList.push({ way: 'not-fit', values: { count: ofFiles.length, first: ofFiles[0]!.file } });
  // What a changed list already reports is not reported twice.
  const told = listChanged ? ofList.filter(({ way }) => way === 'not-fit') : ofList;
  return {
    problems: [
      ...told.map(({ way, values }) => archiveProblem('archive/changed-list', shown(list), way, values)),
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
  const isOurs = [...entries.keys()].join('\n') === tagFiles.join('\n');
  const otherFiles = { way: 'other-files', values: { line: 1, files: inRow('comma', tagFiles) } };
  const wrongList = notOurForm ?? (isOurs ? undefined : otherFiles);
  const all: readonly string[] = [...tagFiles, tagManifest];
  for (const path of all)
    if (!files.sizes.has(path))
      problems.push(archiveProblem('archive/missing-file', shown(path), 'in-every-archive'));
  for (const path of files.sizes.keys())
    if (!path.startsWith(payload) && !all.includes(path))
      problems.push(archiveProblem('archive/extra-file', shown(path), 'in-no-list'));
  const badList = ({ way, values }: Trouble): Problem =>
    archiveProblem('archive/changed-list', shown(tagManifest), way, values);
  if (files.sizes.has(tagManifest) && wrongList) problems.push(badList(wrongList));
  for (const path of tagFiles) {
    const listed = entries.get(path);
    if (listed === undefined || !files.sizes.has(path)) continue;
    const found = sha512Of(files.read(path));
    if (isSlipOf(found, listed)) problems.push(badList({ way: 'checksum', values: { path } }));
    else if (found !== listed) {
      changed.add(path);
      problems.push(archiveProblem('archive/changed-file', shown(path), undefined, { list: tagManifest }));
    }
  }
  return { problems, changed };
}
