import { readableText } from '../problem/format-problem.js';
import type { Change, FileChange } from './change.js';
import { terminal } from '../problem/message.js';

/** Unchanged lines shown before and after a change. */
const around = 2;

/** A change as lines taken out (`-`) and put in (`+`), with a few that stay, file by file. */
export function changeAsDiff({ files }: Change): string {
  return files.map(fileAsDiff).join('');
}

function fileAsDiff({ file, before, after }: FileChange): string {
  const [old, now] = [linesOf(before), linesOf(after)];
  if (old === undefined || now === undefined)
    return `${terminal(`keep.diff.no-text-${before === undefined ? 'new' : 'gone'}`, { file })}\n`;
  const became = before === undefined ? 'new' : after === undefined ? 'gone' : 'changed';
  const head = `${terminal(`keep.diff.${became}`, { file })}\n`;
  let start = 0;
  while (start < old.length && start < now.length && old[start] === now[start]) start += 1;
  let end = 0;
  while (end < old.length - start && end < now.length - start && old.at(-1 - end) === now.at(-1 - end))
    end += 1;
  const shown = (mark: string, lines: readonly string[]): string =>
    lines.map((line) => `${mark} ${readableText(line)}\n`).join('');
  return [
    head,
    shown(' ', old.slice(Math.max(0, start - around), start)),
    shown('-', old.slice(start, old.length - end)),
    shown('+', now.slice(start, now.length - end)),
    shown(' ', old.slice(old.length - end, old.length - end + around)),
  ].join('');
}

/** Without their ends; undefined for what is no text. */
function linesOf(bytes: Uint8Array | undefined): string[] | undefined {
  if (bytes === undefined) return [];
  if (bytes.includes(0)) return undefined;
  return new TextDecoder()
    .decode(bytes)
    .replace(/\r?\n$/, '')
    .split(/\r?\n/);
}
