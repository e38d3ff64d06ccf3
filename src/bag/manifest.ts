/** Checksum by path. */
export type Manifest = ReadonlyMap<string, string>;

/** What a manifest says, and the first line that is not as this program writes it. */
export interface ManifestRead {
  readonly entries: Manifest;
  readonly notOurForm?: { readonly line: number; readonly why: string };
}

/** A manifest as this program writes it: sorted, two spaces, a line feed after every line. `sha512sum -c` reads it. */
export function manifestText(manifest: Manifest): string {
  return [...manifest]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([path, sha512]) => `${sha512}  ${path}\n`)
    .join('');
}

/**
 * Reads a manifest line by line; lines it cannot take are left out of the entries and named.
 *
 * Checked: tests/bag/verify-archive.test.ts
 */
export function readManifest(text: string): ManifestRead {
  const entries = new Map<string, string>();
  let notOurForm: ManifestRead['notOurForm'];
  const say = (line: number, why: string): void => void (notOurForm ??= { line, why });
  let before = '';
  const lines = text.split('\n');
  for (const [index, line] of lines.entries()) {
    const last = index === lines.length - 1;
    if (last && line === '') break;
    const [, sha512, path] = /^([0-9a-f]{128}) {2}([^\r]+)$/.exec(line) ?? [];
    if (sha512 === undefined || path === undefined)
      say(index + 1, 'expected 128 digits 0-9 a-f, two spaces and a path');
    else {
      if (entries.has(path)) say(index + 1, `\`${path}\` is listed twice`);
      else if (path <= before) say(index + 1, 'the paths are not in order');
      if (!entries.has(path)) entries.set(path, sha512);
      before = path;
    }
    if (last) say(index + 1, 'the last line does not end');
  }
  return notOurForm ? { entries, notOurForm } : { entries };
}
