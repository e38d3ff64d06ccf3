import { messageOf } from '../../problem/message.js';
import type { Finding, Message } from '../../problem/problem.js';
import { messageWords } from '../../reference/words.js';
import { commentInText, notKnown } from '../explain/explain-value.js';
import { runTogether } from '../explain/explain-key.js';
import { type InYaml, shown, slip } from '../finding.js';
import type { YamlReading, YamlStretch } from '../parse-yaml.js';

/** One line of the front matter: its offset and its text. */
interface YamlLine {
  readonly start: number;
  readonly text: string;
}

/** The line of an offset. */
export function lineAt(yaml: string, offset: number): YamlLine {
  const start = offset === 0 ? 0 : yaml.lastIndexOf('\n', offset - 1) + 1;
  const end = yaml.indexOf('\n', start);
  return { start, text: yaml.slice(start, end === -1 ? yaml.length : end).replace(/\r$/, '') };
}

function within(line: YamlLine, from: number, length: number): YamlStretch {
  return { start: line.start + from, end: line.start + from + Math.max(1, length) };
}

/** Looks at one line for one kind of slip of the pen. */
type LineSlip = (line: YamlLine) => Finding<InYaml> | undefined;

/** A slip by how it looks: `at` in the pattern is what is pointed at, `say` what is said of it, if it is one. */
function like(
  pattern: RegExp,
  say: (groups: Readonly<Record<string, string>>, before: string) => Message | undefined,
): LineSlip {
  return (line) => {
    const found = pattern.exec(line.text.trimEnd());
    const [from, to] = found?.indices?.groups?.['at'] ?? [];
    if (from === undefined || to === undefined) return undefined;
    const groups = found?.groups ?? {};
    const said = say(groups, line.text.slice(0, from));
    return said && slip(said, within(line, from, (groups['at']!.trimEnd() || groups['at']!).length));
  };
}

const tab = like(/^ *(?:- *)?(?<at>\t[ \t]*)\S/d, () => messageOf('yaml/tab'));

const oddSpace: LineSlip = (line) => {
  const found = /[\u00a0\u1680\u2000-\u200b\u202f\u205f\u3000\ufeff]/.exec(line.text);
  if (!found || !/^[\s-]*$|:\s*$/.test(line.text.slice(0, found.index))) return undefined;
  return slip(messageOf('yaml/odd-space'), within(line, found.index, 1));
};

const smartQuote = like(/(?:[:,[{]|^\s*-)[ \t]*(?<at>[“”„‟‘‚‛’«»])/d, ({ at: quote = '' }) =>
  messageOf('yaml/smart-quotes', { quote }),
);

export const equals = like(
  /^.*?(?:^|[{,])\s*(?:- )?(?<at>(?<name>[A-Za-z][\w-]*) *= *(?<value>\S[^,}]*)?.*)/d,
  ({ name, value = '…' }) => runTogether('yaml/equals-sign', name!, value.trim()),
);

export const gluedColon = like(
  /^\s*(?:- )?(?<at>(?<name>[A-Za-z][\w-]*):)(?![\s/])(?<value>\S.*)$/d,
  ({ name, value }) => runTogether('yaml/no-space-after-colon', name!, value!.trim()),
);

/** `-date: …`: without a space the hyphen is part of the key, and the list has lost an entry. */
const gluedHyphen = (keys: ReadonlySet<string>): LineSlip =>
  like(/^\s*(?<at>-(?<name>[a-z][a-z-]*)):/di, ({ name }) => {
    const key = name!.toLowerCase();
    return keys.has(key) ? noSpaceAfterHyphen(`-${name}:`, `- ${key}: …`) : undefined;
  });

export function noSpaceAfterHyphen(written: string, meant: string): Message {
  return messageOf('yaml/no-space-after-hyphen', { found: shown(written), meant: shown(meant) });
}

/** A lone `-` or `?` as a value, before a comma, a bracket, a comment or the line's end. */
const loneSign = like(
  /(?:^\s*(?:- )?|[{,]\s*)(?<name>[a-z][a-z-]*):[ \t]+(?<at>[-?])(?=[ \t]*(?:[,}]|[ \t]#|$))/d,
  ({ name, at: sign }) => notKnown(name!, sign, messageWords().say('expected.either')),
);

/** A line that begins with a key of the format and has no colon. */
const noColon = (keys: ReadonlySet<string>): LineSlip =>
  like(/^\s*(?:- )?(?<at>(?<name>[a-z][a-z-]*)(?: +(?<value>[^:=#]*))?)$/d, ({ name, value }) => {
    if (!keys.has(name!)) return undefined;
    return value
      ? messageOf('yaml/no-colon', { name: name!, meant: shown(`${name}: ${value}`) }, 'value')
      : messageOf('yaml/no-colon', { name: name! });
  });

const specialStart = like(
  /(?:^\s*(?:- )?|[{,]\s*)[a-z][a-z-]*:[ \t]+(?<at>(?<sign>[@`%*&!|>])[^,}]*)/d,
  ({ at: text = '', sign = '' }) => {
    if (/^[|>][-+\d]*\s*(?:#.*)?$/.test(text)) return undefined;
    return sign === '!'
      ? messageOf('yaml/exclamation', { found: /^\S*/.exec(text)![0] })
      : messageOf('yaml/special-start', { sign }, sign === '`' ? 'backtick' : undefined);
  },
);

const colonInText = like(
  /^\s*(?:- )?[a-z][a-z-]*:[ \t]+(?<at>[^"'{[>|#\s][^#]*?:(?:[ \t].*|$))/d,
  ({ at: text }) => messageOf('yaml/colon-in-text', { found: shown(text) }),
);

/** The partner of a bracket, and where it belongs. */
const partners: Readonly<Record<string, readonly [string, string]>> = {
  '{': ['}', 'keys-end'],
  '[': [']', 'words-end'],
  '}': ['{', 'keys-begin'],
  ']': ['[', 'words-begin'],
};

/** Brackets of a line, quoted text and comments left out. */
const bracket: LineSlip = (line) => {
  const bare = line.text.replaceAll(/"(?:\\.|[^"\\])*"|'(?:[^']|'')*'/g, (quoted) =>
    '_'.repeat(quoted.length),
  );
  const cut = bare.search(/[ \t]#/);
  const kept = cut === -1 ? bare : bare.slice(0, cut);
  const open = firstUnbalanced(kept);
  if (open === undefined) return undefined;
  const sign = bare[open]!;
  if (cut !== -1 && firstUnbalanced(bare) === undefined && sign !== ']' && sign !== '}') {
    const [, name = messageWords().say('place.line')] = /([a-z][a-z-]*):[^:]*$/.exec(kept) ?? [];
    const comment = line.text.slice(cut + 1);
    return slip(commentInText(name, comment), within(line, cut + 1, comment.length));
  }
  const [partner, way] = partners[sign]!;
  return slip(messageOf('yaml/unclosed-bracket', { sign, partner }, way), within(line, open, 1));
};

function firstUnbalanced(text: string): number | undefined {
  const open: number[] = [];
  for (const [at, sign] of text.split('').entries()) {
    if (sign === '{' || sign === '[') open.push(at);
    if (sign !== '}' && sign !== ']') continue;
    if (text[open.at(-1) ?? -1] !== partners[sign]![0]) return open.at(-1) ?? at;
    open.pop();
  }
  return open[0];
}

/** A quote opens a value only where one may begin: after a colon and space, a hyphen and space, a bracket or a comma. */
const opening = /(?:^[ \t]*|:[ \t]+|-[ \t]+|[[{,][ \t]*)(["'])/gm;

/**
 * The first quotation that does not end as it should, up to the place where the parser gave up.
 *
 * A quote left open closes at the opening of a later one, so what follows that is no comma, bracket or line end.
 */
function quoteSlip(yaml: string, upTo: number): Finding<InYaml> | undefined {
  const text = yaml.replaceAll(/(^|[ \t])#[^\n]*/g, (comment) =>
    /["']/.test(comment) ? ' '.repeat(comment.length) : comment,
  );
  opening.lastIndex = 0;
  for (let found = opening.exec(text); found && found.index <= upTo; found = opening.exec(text)) {
    const quote = found[1]!;
    const start = found.index + found[0].length - 1;
    const end = closingQuote(text, start, quote);
    const rest = end === -1 ? '' : (/^[^\n]*/.exec(text.slice(end + 1))?.[0] ?? '');
    const sound = end !== -1 && /^[ \t\r]*(?:$|[,\]}:]|#)/.test(rest);
    opening.lastIndex = end + 1;
    if (sound) continue;
    const { start: lineStart, text: line } = lineAt(yaml, start);
    if (end === -1 || text.slice(start, end).includes('\n'))
      return slip(messageOf('yaml/unclosed-quote', { quote }), { start, end: lineStart + line.length });
    const quoted = yaml.slice(start, end + 1);
    const shownAs = quoted.length > 30 ? `\`${quoted.slice(0, 30)}…\`` : `\`${quoted}\``;
    const way = quote === "'" ? 'apostrophe' : undefined;
    const stretch = { start: end + 1, end: end + 1 + Math.max(1, rest.trimEnd().length) };
    return slip(messageOf('yaml/text-after-quote', { found: shownAs }, way), stretch);
  }
  return undefined;
}

function closingQuote(text: string, start: number, quote: string): number {
  for (let at = start + 1; at < text.length; at += 1) {
    const isEscape = text[at] === '\\' ? quote === '"' : text.startsWith("''", at) && quote === "'";
    if (isEscape) at += 1;
    else if (text[at] === quote) return at;
  }
  return -1;
}

type Failure = Extract<YamlReading, { outcome: 'failure' }>;

/** How many written lines above the one where the parser gave up are looked at: it often notices late. */
const linesBack = 3;

/**
 * Why front matter could not be parsed, as the slip of the pen that most likely did it; what is certain goes first.
 *
 * The parser's own reason is the last resort: it names what confused it, seldom what the writer did.
 */
export function explainFailure(yaml: string, failure: Failure, keys: ReadonlySet<string>): Finding<InYaml> {
  const line = lineAt(yaml, Math.min(failure.at, yaml.length));
  const near = linesUpTo(yaml, line);
  return (
    byReason(yaml, failure, line) ??
    firstSlip(near, [tab, oddSpace, smartQuote]) ??
    firstSlip([line], [loneSign]) ??
    firstSlip(near, [gluedHyphen(keys)]) ??
    quoteSlip(yaml, failure.at) ??
    firstSlip(near, [bracket, equals, gluedColon, specialStart, colonInText, noColon(keys)]) ??
    byIndentation(failure, line)
  );
}

function byReason(yaml: string, { at, reason }: Failure, line: YamlLine): Finding<InYaml> | undefined {
  const found = (id: string, start: number, length: number, values = {}): Finding<InYaml> =>
    slip(messageOf(id, values), { start, end: start + Math.max(1, length) });
  if (reason.includes('duplicated mapping key')) {
    const key = /^["']?([^"':\s,}]+)/.exec(yaml.slice(at))?.[0] ?? '';
    return found('yaml/same-key-twice', at, key.length, { key });
  }
  if (reason.includes('nesting exceeded'))
    return found('yaml/too-deep', Math.max(line.start, Math.min(at, line.start + line.text.length - 1)), 1);
  if (/escape sequence|hexadecimal/.test(reason)) {
    const start = Math.max(0, yaml.lastIndexOf('\\', at));
    return found('yaml/backslash', start, 2, { found: yaml.slice(start, start + 2) });
  }
  if (!/non-printable|JSON character/.test(reason)) return undefined;
  const start = yaml.search(/(?![\t\n\r\u0085])\p{Cc}|[\ufffe\uffff]|\p{Cs}/u);
  return start === -1 ? undefined : found('yaml/control-character', start, 1);
}

function byIndentation({ reason }: Failure, line: YamlLine): Finding<InYaml> {
  const count = /^\s*/.exec(line.text)![0].length;
  const isIndented = /indentation|indented/.test(reason) || /^\s+\S/.test(line.text);
  const said =
    isIndented && /indentation|mapping entry|mapping pair|separator is expected/.test(reason)
      ? messageOf('yaml/indentation', { count })
      : messageOf('yaml/not-understood', { reason });
  return slip(said, within(line, count, line.text.trim().length));
}

function firstSlip(lines: readonly YamlLine[], slips: readonly LineSlip[]): Finding<InYaml> | undefined {
  for (const look of slips)
    for (const line of lines) {
      const found = look(line);
      if (found) return found;
    }
  return undefined;
}

/** The line itself, then written lines above it, nearest first. */
function linesUpTo(yaml: string, line: YamlLine): YamlLine[] {
  const lines = [line];
  let above = line;
  while (lines.length <= linesBack && above.start > 0) {
    above = lineAt(yaml, above.start - 1);
    if (above.text.trim() !== '' && !/^\s*#/.test(above.text)) lines.push(above);
  }
  return lines;
}
