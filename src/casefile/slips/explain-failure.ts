import type { YamlReading } from '../parse-yaml.js';
import {
  bracket,
  colonInText,
  equals,
  gluedColon,
  gluedHyphen,
  loneSign,
  noColon,
  oddSpace,
  smartQuote,
  specialStart,
  tab,
  lineAt,
  within,
  type LineSlip,
  type Slip,
  type YamlLine,
} from './line-slips.js';

/** A quote opens a value only where one may begin: after a colon and space, a hyphen and space, a bracket or a comma. */
const opening = /(?:^[ \t]*|:[ \t]+|-[ \t]+|[[{,][ \t]*)(["'])/gm;

/**
 * The first quotation that does not end as it should, up to the place where the parser gave up.
 *
 * A quote left open closes at the opening of a later one, so what follows that is no comma, bracket or line end.
 */
function quoteSlip(yaml: string, upTo: number): Slip | undefined {
  const text = yaml.replaceAll(/(^|[ \t])#[^\n]*/g, (comment) =>
    /["']/.test(comment) ? ' '.repeat(comment.length) : comment,
  );
  opening.lastIndex = 0;
  for (let found = opening.exec(text); found && found.index <= upTo; found = opening.exec(text)) {
    const quote = found[1] ?? '"';
    const start = found.index + found[0].length - 1;
    const end = closingQuote(text, start, quote);
    const rest = end === -1 ? '' : (/^[^\n]*/.exec(text.slice(end + 1))?.[0] ?? '');
    const sound = end !== -1 && /^[ \t\r]*(?:$|[,\]}:]|#)/.test(rest);
    if (!sound) {
      const sameLine = end !== -1 && !text.slice(start, end).includes('\n');
      return sameLine ? afterQuote(yaml, start, end, rest) : unclosed(yaml, start, quote);
    }
    opening.lastIndex = end + 1;
  }
  return undefined;
}

function closingQuote(text: string, start: number, quote: string): number {
  for (let at = start + 1; at < text.length; at += 1) {
    if (quote === '"' && text[at] === '\\') at += 1;
    else if (text[at] === quote) {
      if (quote !== "'" || text[at + 1] !== "'") return at;
      at += 1;
    }
  }
  return -1;
}

function unclosed(yaml: string, start: number, quote: string): Slip {
  const lineEnd = yaml.indexOf('\n', start);
  return {
    id: 'yaml/unclosed-quote',
    message: `the quotation that begins here with \`${quote}\` does not end, expected another \`${quote}\``,
    mend: `write \`${quote}\` at the end of the text; a \`${quote}\` inside it is better left out`,
    stretch: { start, end: lineEnd === -1 ? yaml.length : lineEnd },
  };
}

function afterQuote(yaml: string, start: number, end: number, rest: string): Slip {
  return {
    id: 'yaml/text-after-quote',
    message: `more text follows the closing quote of ${marked(yaml.slice(start, end + 1))}, expected the value to end there`,
    mend:
      yaml[start] === "'"
        ? 'put the whole text between `"` quotes: an apostrophe does no harm there'
        : "put the quotes round the whole text; inside it use `'` or none",
    stretch: { start: end + 1, end: end + 1 + Math.max(1, rest.trimEnd().length) },
  };
}

function marked(text: string): string {
  return text.length > 30 ? `\`${text.slice(0, 30)}…\`` : `\`${text}\``;
}

type Failure = Extract<YamlReading, { outcome: 'failure' }>;

/** How many written lines above the one where the parser gave up are looked at: it often notices late. */
const linesBack = 3;

/** In this order: what is certain first. */
const lineSlips: readonly LineSlip[] = [tab, oddSpace, smartQuote];
const laterSlips: readonly LineSlip[] = [bracket, equals, gluedColon, specialStart, colonInText];

/**
 * Why front matter could not be parsed, as the slip of the pen that most likely did it.
 *
 * The parser's own reason is the last resort: it names what confused it, seldom what the writer did.
 */
export function explainFailure(yaml: string, failure: Failure, keys: ReadonlySet<string>): Slip {
  const line = lineAt(yaml, Math.min(failure.at, yaml.length));
  return (
    byReason(yaml, failure, line) ??
    firstSlip(linesUpTo(yaml, line), lineSlips) ??
    firstSlip([line], [loneSign]) ??
    firstSlip(linesUpTo(yaml, line), [gluedHyphen(keys)]) ??
    quoteSlip(yaml, failure.at) ??
    firstSlip(linesUpTo(yaml, line), laterSlips) ??
    firstSlip(linesUpTo(yaml, line), [noColon(keys)]) ??
    byIndentation(failure, line) ??
    notUnderstood(failure, line)
  );
}

function byReason(yaml: string, { at, reason }: Failure, line: YamlLine): Slip | undefined {
  if (reason.includes('duplicated mapping key')) return sameKeyTwice(yaml, at);
  if (reason.includes('nesting exceeded')) {
    return {
      id: 'yaml/too-deep',
      message:
        'brackets or entries stand inside each other too many times over, expected a handful of levels',
      mend: 'write the record as the case format shows it',
      stretch: within(line, Math.max(0, Math.min(at - line.start, line.text.length - 1)), 1),
    };
  }
  if (/escape sequence|hexadecimal/.test(reason)) return backslash(yaml, at);
  return /non-printable|JSON character/.test(reason) ? controlCharacter(yaml) : undefined;
}

function sameKeyTwice(yaml: string, at: number): Slip {
  const key = /^["']?([^"':\s,}]+)/.exec(yaml.slice(at))?.[0] ?? '';
  return {
    id: 'yaml/same-key-twice',
    message: `\`${key}\` is written a second time in the same place, expected once`,
    mend: 'keep one of the two; a second visit, block or product begins with `- `',
    stretch: { start: at, end: at + Math.max(1, key.length) },
  };
}

function backslash(yaml: string, at: number): Slip {
  const start = Math.max(0, yaml.lastIndexOf('\\', at));
  return {
    id: 'yaml/backslash',
    message: `\`${yaml.slice(start, start + 2)}\` stands between \`"\` quotes, where a backslash means something of its own, expected \`/\` or none`,
    mend: "write `/` in the names of files; or put the text between `'` quotes",
    stretch: { start, end: start + 2 },
  };
}

function controlCharacter(yaml: string): Slip | undefined {
  const at = yaml.search(/(?![\t\n\r\u0085])\p{Cc}|[\ufffe\uffff]|\p{Cs}/u);
  if (at === -1) return undefined;
  return {
    id: 'yaml/control-character',
    message: 'a character that cannot be seen stands here, expected letters, digits and signs',
    mend: 'delete it; it often comes in when text is pasted',
    stretch: { start: at, end: at + 1 },
  };
}

function byIndentation({ reason }: Failure, line: YamlLine): Slip | undefined {
  if (!/indentation|indented/.test(reason) && !/^\s+\S/.test(line.text)) return undefined;
  if (!/indentation|mapping entry|mapping pair|separator is expected/.test(reason)) return undefined;
  const blanks = /^\s*/.exec(line.text)?.[0].length ?? 0;
  return {
    id: 'yaml/indentation',
    message: `this line is indented by ${blanks} ${blanks === 1 ? 'space' : 'spaces'}, expected the same as the keys beside it`,
    mend: 'let keys that belong together begin in the same column, and what belongs to a key stand two spaces further in',
    stretch: within(line, blanks, line.text.trim().length),
  };
}

function notUnderstood({ reason }: Failure, line: YamlLine): Slip {
  const blanks = /^\s*/.exec(line.text)?.[0].length ?? 0;
  return {
    id: 'yaml/not-understood',
    message: `the front matter cannot be followed here (${reason}), expected \`key: value\``,
    mend: 'look at this line and the one above: a colon and a space after each key, straight quotes round free text',
    stretch: within(line, blanks, line.text.trim().length),
  };
}

function firstSlip(lines: readonly YamlLine[], slips: readonly LineSlip[]): Slip | undefined {
  for (const slip of slips) {
    for (const line of lines) {
      const found = slip(line);
      if (found) return found;
    }
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
