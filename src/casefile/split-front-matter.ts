import matter from 'gray-matter';
import type { SourceText } from './source-text.js';
import { inText } from './finding.js';
import { messageOf } from '../problem/message.js';
import type { Finding, InText, Message } from '../problem/problem.js';

/** Longest line of front matter, and longest blank stretch in it, in characters. */
const longestLine = 10_000;
const longestBlank = 1_000;

/**
 * A line or a blank stretch of the front matter that no record needs.
 *
 * Splitting, parsing and explaining take time with the square of such a stretch: without this limit a file of a few
 * megabytes of blank lines would stand still. Front matter shorter than twice the longest line cannot be slow.
 */
function longStretch(source: SourceText): Finding<InText> | undefined {
  const end = source.text.indexOf('\n---');
  if (end <= longestLine) return undefined;
  const yaml = source.text.slice(0, end + 1);
  for (const [way, most, stretches] of [
    ['line', longestLine, /[^\n]+(?=\n)/g],
    ['blank', longestBlank, /\s+/g],
  ] as const)
    for (const { index, 0: run } of yaml.matchAll(stretches))
      if (run.length > most)
        return inText(messageOf('file/long-stretch', { most }, way), source.placeAt(index, index + 1));
  return undefined;
}

export type FrontMatter =
  | {
      readonly outcome: 'split';
      /** What is between the two `---` lines, from the end of the first line on. */
      readonly yaml: string;
      /** Offset in the file of its first character. */
      readonly offset: number;
      readonly narrative: string;
    }
  | { readonly outcome: 'trouble'; readonly trouble: Finding<InText> };

/** Dashes as an editor may have changed them, or too few or too many of them. */
const nearlyDashes = /^\s*(?:[-–—‒―_]{1,}|\*{3,}|={3,})\s*$/;

/**
 * Parts the front matter from the narrative.
 *
 * Only a bare `---` opens and closes: `---js` and its like would ask the splitter for another language, and one of
 * them runs code. Every language but YAML throws here, and YAML itself is not parsed here.
 *
 * Checked: tests/casefile/bad-cases.test.ts, tests/casefile/any-bytes.test.ts
 */
export function splitFrontMatter(source: SourceText): FrontMatter {
  const trouble =
    openingTrouble(source) ?? closingTrouble(source) ?? lineEndTrouble(source) ?? longStretch(source);
  if (trouble) return { outcome: 'trouble', trouble };
  const split = matter(source.text, { engines: { yaml: () => ({}), json: refuse, javascript: refuse } });
  return { outcome: 'split', yaml: split.matter, offset: 3, narrative: split.content };
}

function refuse(): never {
  throw new Error('front matter is YAML and nothing else');
}

function openingTrouble(source: SourceText): Finding<InText> | undefined {
  const isBlank = source.text.trim() === '';
  // The whole file is one line then; no word of it is shown.
  if (/^\s*[-–—]*[ \t]*\r(?!\n)/.test(source.text) && !isBlank)
    return inText(messageOf('file/line-ends', {}, 'first-line'));
  const first = source.line(1).trimEnd();
  if (first === '---') return undefined;
  if (isBlank) return inText(messageOf('file/empty'));
  const nearly = first.startsWith('---') || nearlyDashes.test(first);
  if (first === '') return atLine(source, 1, messageOf('file/first-line', {}, 'blank'));
  return atLine(
    source,
    1,
    nearly ? messageOf('file/first-line', { found: asWritten(first) }) : messageOf('file/no-front-matter'),
  );
}

function closingTrouble(source: SourceText): Finding<InText> | undefined {
  const at = source.text.indexOf('\n---');
  if (at !== -1) {
    const { line } = source.placeAt(at + 1, at + 4);
    const closing = source.line(line).trimEnd();
    if (closing === '---') return undefined;
    return atLine(source, line, messageOf('file/closing-line', { found: asWritten(closing) }));
  }
  const lines = source.text.split('\n');
  const nearly = lines.findIndex((line, index) => index > 0 && nearlyDashes.test(line));
  if (nearly === -1) return atLine(source, 1, messageOf('file/front-matter-not-closed'));
  const found = asWritten(source.line(nearly + 1).trim());
  return atLine(source, nearly + 1, messageOf('file/front-matter-not-closed', { found }, 'nearly'));
}

/** A line with its blanks, which may be what is wrong with it; cut where long. */
function asWritten(line: string): string {
  return line.length > 40 ? `\`${line.slice(0, 40)}…\`` : `\`${line}\``;
}

/** Line ends of the kind used before 2001: one reader takes them for line ends, another does not. */
function lineEndTrouble(source: SourceText): Finding<InText> | undefined {
  const at = source.text.search(/\r(?!\n)/);
  if (at === -1 || at > source.text.indexOf('\n---')) return undefined;
  return inText(messageOf('file/line-ends', {}, 'later-line'), source.placeAt(at, at + 1));
}

function atLine(source: SourceText, line: number, message: Message): Finding<InText> {
  const start = source.startOf(line);
  return inText(message, source.placeAt(start, start + Math.max(1, source.line(line).length)));
}
