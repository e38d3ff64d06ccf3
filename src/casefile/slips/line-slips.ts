import { type Said, commentInText, notKnown } from '../explain/said.js';
import type { Stretch } from '../parse-yaml.js';
import { equalsSign, noSpaceAfterColon } from '../explain/explain-key.js';
import { shown } from '../finding.js';

/** A slip of the pen found in the front matter's text itself, with where it stands. */
export interface Slip extends Said {
  readonly stretch: Stretch;
}

/** One line of the front matter: its offset and its text. */
export interface YamlLine {
  readonly start: number;
  readonly text: string;
}

/** Looks at one line for one kind of slip. */
export type LineSlip = (line: YamlLine) => Slip | undefined;

/** The line an offset stands on. */
export function lineAt(yaml: string, offset: number): YamlLine {
  const start = offset === 0 ? 0 : yaml.lastIndexOf('\n', offset - 1) + 1;
  const end = yaml.indexOf('\n', start);
  return { start, text: yaml.slice(start, end === -1 ? yaml.length : end).replace(/\r$/, '') };
}

/** A stretch within a line. */
export function within(line: YamlLine, from: number, length: number): Stretch {
  return { start: line.start + from, end: line.start + from + Math.max(1, length) };
}

export const tab: LineSlip = (line) => {
  const [, blanks, tabs] =
    /^( *)(\t[ \t]*)\S/.exec(line.text) ?? /^( *- *)(\t[ \t]*)\S/.exec(line.text) ?? [];
  if (blanks === undefined || tabs === undefined) return undefined;
  return {
    id: 'yaml/tab',
    message: 'a tab is used for indentation, expected spaces',
    mend: 'replace each tab at the start of a line by two spaces',
    stretch: within(line, blanks.length, tabs.length),
  };
};

export const oddSpace: LineSlip = (line) => {
  const found = /[\u00a0\u1680\u2000-\u200b\u202f\u205f\u3000\ufeff]/.exec(line.text);
  if (!found || !/^[\s-]*$|:\s*$/.test(line.text.slice(0, found.index))) return undefined;
  return {
    id: 'yaml/odd-space',
    message: 'a space of a special kind stands here, expected an ordinary space',
    mend: 'delete it and type a space; word processors and web pages put such spaces in',
    stretch: within(line, found.index, 1),
  };
};

export const smartQuote: LineSlip = (line) => {
  const found = /(?:[:,[{]|^\s*-)[ \t]*([“”„‟‘‚‛’«»])/.exec(line.text);
  if (!found) return undefined;
  return { ...smartQuotes(found[1] ?? ''), stretch: within(line, found.index + found[0].length - 1, 1) };
};

export function smartQuotes(quote: string): { id: string; message: string; mend: string } {
  return {
    id: 'yaml/smart-quotes',
    message: `the text begins with the curly quote \`${quote}\`, expected a straight one`,
    mend: 'write `"` at both ends; switch smart quotes off in the editor',
  };
}

export const equals: LineSlip = (line) => {
  const [, before, name, value] =
    /^(.*?(?:^|[{,])\s*(?:- )?)([A-Za-z][\w-]*) *= *(\S[^,}]*)?/.exec(line.text) ?? [];
  if (before === undefined || name === undefined) return undefined;
  return {
    ...equalsSign(name, (value ?? '…').trim()),
    stretch: within(line, before.length, line.text.slice(before.length).trimEnd().length),
  };
};

export const gluedColon: LineSlip = (line) => {
  const [, before, name, value] = /^(\s*(?:- )?)([A-Za-z][\w-]*):(?![\s/])(\S.*)$/.exec(line.text) ?? [];
  if (before === undefined || name === undefined || value === undefined) return undefined;
  return { ...noSpaceAfterColon(name, value.trim()), stretch: within(line, before.length, name.length + 1) };
};

/** `-date: …`: without a space the hyphen is part of the key, and the list has lost an entry. */
export const gluedHyphen =
  (keys: ReadonlySet<string>): LineSlip =>
  (line) => {
    const [, blanks, name] = /^(\s*)-([a-z][a-z-]*):/i.exec(line.text) ?? [];
    if (blanks === undefined || name === undefined || !keys.has(name.toLowerCase())) return undefined;
    return {
      ...noSpaceAfterHyphen(`-${name}:`, `- ${name.toLowerCase()}: …`),
      stretch: within(line, blanks.length, name.length + 1),
    };
  };

export function noSpaceAfterHyphen(written: string, meant: string): Said {
  return {
    id: 'yaml/no-space-after-hyphen',
    message: `${shown(written)} has no space after the hyphen, expected a hyphen and a space before each entry of a list`,
    mend: `write ${shown(meant)}`,
  };
}

/** A lone `-` or `?` as a value, before a comma, a bracket, a comment or the line's end. */
export const loneSign: LineSlip = (line) => {
  const found = /(?:^\s*(?:- )?|[{,]\s*)([a-z][a-z-]*):[ \t]+([-?])(?=[ \t]*(?:[,}]|[ \t]#|$))/.exec(
    line.text,
  );
  const [all, name, sign] = found ?? [];
  if (!found || all === undefined || name === undefined || sign === undefined) return undefined;
  return { ...notKnown(name, sign), stretch: within(line, found.index + all.length - 1, 1) };
};

/** A line that begins with a key of the format and has no colon. */
export const noColon =
  (keys: ReadonlySet<string>): LineSlip =>
  (line) => {
    const [, before, name, value] =
      /^(\s*(?:- )?)([a-z][a-z-]*)(?: +([^:=#]*))?$/.exec(line.text.trimEnd()) ?? [];
    if (before === undefined || name === undefined || !keys.has(name)) return undefined;
    return {
      id: 'yaml/no-colon',
      message: `\`${name}\` has no colon, expected a colon and a space after a key`,
      mend: value
        ? `write ${shown(`${name}: ${value}`)}, or indent the line if it goes on from the one above`
        : `write \`${name}: …\``,
      stretch: within(line, before.length, line.text.trim().length),
    };
  };

export const specialStart: LineSlip = (line) => {
  const found = /(?:^\s*(?:- )?|[{,]\s*)[a-z][a-z-]*:[ \t]+([@`%*&!|>][^,}]*)/.exec(line.text);
  const text = found?.[1];
  if (!found || text === undefined || /^[|>][-+\d]*\s*(?:#.*)?$/.test(text)) return undefined;
  const stretch = within(line, found.index + found[0].length - text.length, text.trimEnd().length);
  if (text.startsWith('!')) return { ...exclamation(/^\S*/.exec(text)?.[0] ?? '!'), stretch };
  const sign = text.startsWith('`') ? 'a backtick' : `\`${text[0]}\``;
  return {
    id: 'yaml/special-start',
    message: `a value begins with ${sign}, which means something of its own here, expected text in quotes`,
    mend: 'put the whole text between straight quotes',
    stretch,
  };
};

export function exclamation(written: string): { id: string; message: string; mend: string } {
  return {
    id: 'yaml/exclamation',
    message: `\`${written}\` begins with an exclamation mark, which means something of its own here, expected text in quotes`,
    mend: 'put the whole text between straight quotes, or leave the exclamation mark out',
  };
}

export const colonInText: LineSlip = (line) => {
  const found = /^(\s*(?:- )?[a-z][a-z-]*:[ \t]+)([^"'{[>|#\s][^#]*?:(?:[ \t].*|$))/.exec(line.text);
  const [, before, text] = found ?? [];
  if (before === undefined || text === undefined) return undefined;
  return {
    id: 'yaml/colon-in-text',
    message: `a colon and a space stand inside the text ${shown(text)}, expected text in quotes`,
    mend: 'put the whole text between straight quotes, or write it on the next line under `>`',
    stretch: within(line, before.length, text.trimEnd().length),
  };
};

/** Brackets of a line, quoted text and comments left out. */
export const bracket: LineSlip = (line) => {
  const bare = line.text.replaceAll(/"(?:\\.|[^"\\])*"|'(?:[^']|'')*'/g, (quoted) =>
    '_'.repeat(quoted.length),
  );
  const cut = bare.search(/[ \t]#/);
  const kept = cut === -1 ? bare : bare.slice(0, cut);
  const open = firstUnbalanced(kept);
  if (open === undefined) return undefined;
  if (cut !== -1 && firstUnbalanced(bare) === undefined && bare[open] !== ']' && bare[open] !== '}') {
    const name = /([a-z][a-z-]*):[^:]*$/.exec(kept)?.[1] ?? 'this line';
    return {
      ...commentInText(name, line.text.slice(cut + 1)),
      stretch: within(line, cut + 1, line.text.length - cut - 1),
    };
  }
  const sign = bare[open] ?? '';
  const partner = { '{': '}', '[': ']', '}': '{', ']': '[' }[sign] ?? '';
  return {
    id: 'yaml/unclosed-bracket',
    message: `the bracket \`${sign}\` has no partner \`${partner}\` on this line`,
    mend: `write \`${partner}\` where the ${sign === '{' || sign === '}' ? 'keys' : 'words'} ${sign === '{' || sign === '[' ? 'end' : 'begin'}, or take the bracket out`,
    stretch: within(line, open, 1),
  };
};

function firstUnbalanced(text: string): number | undefined {
  const open: number[] = [];
  for (let at = 0; at < text.length; at += 1) {
    const sign = text[at] ?? '';
    if (sign === '{' || sign === '[') open.push(at);
    if (sign !== '}' && sign !== ']') continue;
    const partner = text[open.at(-1) ?? -1];
    if ((sign === '}' && partner === '{') || (sign === ']' && partner === '[')) open.pop();
    else return open.at(-1) ?? at;
  }
  return open[0];
}
