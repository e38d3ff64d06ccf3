import { messageOf } from '../../problem/message.js';
import type { Finding } from '../../problem/problem.js';
import { type InYaml, slip } from '../finding.js';
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
  type YamlLine,
} from './line-slips.js';

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

function unclosed(yaml: string, start: number, quote: string): Finding<InYaml> {
  const lineEnd = yaml.indexOf('\n', start);
  return slip(messageOf('yaml/unclosed-quote', { quote }), {
    start,
    end: lineEnd === -1 ? yaml.length : lineEnd,
  });
}

function afterQuote(yaml: string, start: number, end: number, rest: string): Finding<InYaml> {
  const quoted = yaml.slice(start, end + 1);
  const found = quoted.length > 30 ? `\`${quoted.slice(0, 30)}…\`` : `\`${quoted}\``;
  const way = yaml[start] === "'" ? 'apostrophe' : undefined;
  return slip(messageOf('yaml/text-after-quote', { found }, way), {
    start: end + 1,
    end: end + 1 + Math.max(1, rest.trimEnd().length),
  });
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
export function explainFailure(yaml: string, failure: Failure, keys: ReadonlySet<string>): Finding<InYaml> {
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

function byReason(yaml: string, { at, reason }: Failure, line: YamlLine): Finding<InYaml> | undefined {
  if (reason.includes('duplicated mapping key')) return sameKeyTwice(yaml, at);
  if (reason.includes('nesting exceeded')) {
    return slip(
      messageOf('yaml/too-deep'),
      within(line, Math.max(0, Math.min(at - line.start, line.text.length - 1)), 1),
    );
  }
  if (/escape sequence|hexadecimal/.test(reason)) return backslash(yaml, at);
  return /non-printable|JSON character/.test(reason) ? controlCharacter(yaml) : undefined;
}

function sameKeyTwice(yaml: string, at: number): Finding<InYaml> {
  const key = /^["']?([^"':\s,}]+)/.exec(yaml.slice(at))?.[0] ?? '';
  return slip(messageOf('yaml/same-key-twice', { key }), { start: at, end: at + Math.max(1, key.length) });
}

function backslash(yaml: string, at: number): Finding<InYaml> {
  const start = Math.max(0, yaml.lastIndexOf('\\', at));
  const end = start + 2;
  return slip(messageOf('yaml/backslash', { found: yaml.slice(start, end) }), { start, end });
}

function controlCharacter(yaml: string): Finding<InYaml> | undefined {
  const at = yaml.search(/(?![\t\n\r\u0085])\p{Cc}|[\ufffe\uffff]|\p{Cs}/u);
  if (at === -1) return undefined;
  return slip(messageOf('yaml/control-character'), { start: at, end: at + 1 });
}

function byIndentation({ reason }: Failure, line: YamlLine): Finding<InYaml> | undefined {
  if (!/indentation|indented/.test(reason) && !/^\s+\S/.test(line.text)) return undefined;
  if (!/indentation|mapping entry|mapping pair|separator is expected/.test(reason)) return undefined;
  const blanks = /^\s*/.exec(line.text)?.[0].length ?? 0;
  return slip(
    messageOf('yaml/indentation', { count: blanks }),
    within(line, blanks, line.text.trim().length),
  );
}

function notUnderstood({ reason }: Failure, line: YamlLine): Finding<InYaml> {
  const blanks = /^\s*/.exec(line.text)?.[0].length ?? 0;
  return slip(messageOf('yaml/not-understood', { reason }), within(line, blanks, line.text.trim().length));
}

function firstSlip(lines: readonly YamlLine[], slips: readonly LineSlip[]): Finding<InYaml> | undefined {
  for (const look of slips) {
    for (const line of lines) {
      const found = look(line);
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
