import type { SourceText } from './source-text.js';
import type { Trouble } from './trouble.js';

/** Longest line of front matter, and longest blank stretch in it, in characters. */
const longestLine = 10_000;
const longestBlank = 1_000;

/**
 * A line or a blank stretch of the front matter that no record needs.
 *
 * Splitting, parsing and explaining take time with the square of such a stretch: without this limit a file of a few
 * megabytes of blank lines would stand still. Front matter shorter than twice the longest line cannot be slow.
 *
 * @param end offset where the front matter ends
 */
export function longStretch(source: SourceText, end: number): Trouble | undefined {
  if (end <= longestLine) return undefined;
  const yaml = source.text.slice(0, end + 1);
  const line = longLineStart(yaml);
  if (line !== undefined) {
    return {
      id: 'file/long-stretch',
      severity: 'error',
      message: `a line of more than ${longestLine} characters begins here, expected shorter lines`,
      mend: 'write long text under `>` on lines of ordinary length, or below the front matter',
      place: source.placeAt(line, line + 1),
    };
  }
  const blank = longBlankStart(yaml);
  if (blank === undefined) return undefined;
  return {
    id: 'file/long-stretch',
    severity: 'error',
    message: `more than ${longestBlank} blank characters begin here, expected keys and values`,
    mend: 'delete them',
    place: source.placeAt(blank, blank + 1),
  };
}

function longLineStart(yaml: string): number | undefined {
  for (let start = 0; start < yaml.length;) {
    const end = yaml.indexOf('\n', start);
    if (end === -1 || end - start > longestLine) return end === -1 ? undefined : start;
    start = end + 1;
  }
  return undefined;
}

function longBlankStart(yaml: string): number | undefined {
  for (const { index, 0: run } of yaml.matchAll(/\s+/g)) if (run.length > longestBlank) return index;
  return undefined;
}
