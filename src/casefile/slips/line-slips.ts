import { messageOf } from '../../problem/message.js';
import type { Finding, Message } from '../../problem/problem.js';
import { messageWords } from '../../reference/words.js';
import { commentInText, notKnown } from '../explain/said.js';
import type { YamlStretch } from '../parse-yaml.js';
import { runTogether } from '../explain/explain-key.js';
import { type InYaml, shown, slip } from '../finding.js';

/** One line of the front matter: its offset and its text. */
export interface YamlLine {
  readonly start: number;
  readonly text: string;
}

/** Looks at one line for one kind of slip of the pen. */
export type LineSlip = (line: YamlLine) => Finding<InYaml> | undefined;

/** The line an offset stands on. */
export function lineAt(yaml: string, offset: number): YamlLine {
  const start = offset === 0 ? 0 : yaml.lastIndexOf('\n', offset - 1) + 1;
  const end = yaml.indexOf('\n', start);
  return { start, text: yaml.slice(start, end === -1 ? yaml.length : end).replace(/\r$/, '') };
}

/** A stretch within a line. */
export function within(line: YamlLine, from: number, length: number): YamlStretch {
  return { start: line.start + from, end: line.start + from + Math.max(1, length) };
}

export const tab: LineSlip = (line) => {
  const [, blanks, tabs] =
    /^( *)(\t[ \t]*)\S/.exec(line.text) ?? /^( *- *)(\t[ \t]*)\S/.exec(line.text) ?? [];
  if (blanks === undefined || tabs === undefined) return undefined;
  return slip(messageOf('yaml/tab'), within(line, blanks.length, tabs.length));
};

export const oddSpace: LineSlip = (line) => {
  const found = /[\u00a0\u1680\u2000-\u200b\u202f\u205f\u3000\ufeff]/.exec(line.text);
  if (!found || !/^[\s-]*$|:\s*$/.test(line.text.slice(0, found.index))) return undefined;
  return slip(messageOf('yaml/odd-space'), within(line, found.index, 1));
};

export const smartQuote: LineSlip = (line) => {
  const found = /(?:[:,[{]|^\s*-)[ \t]*([“”„‟‘‚‛’«»])/.exec(line.text);
  if (!found) return undefined;
  const quote = found[1] ?? '';
  return slip(messageOf('yaml/smart-quotes', { quote }), within(line, found.index + found[0].length - 1, 1));
};

export const equals: LineSlip = (line) => {
  const [, before, name, value] =
    /^(.*?(?:^|[{,])\s*(?:- )?)([A-Za-z][\w-]*) *= *(\S[^,}]*)?/.exec(line.text) ?? [];
  if (before === undefined || name === undefined) return undefined;
  return slip(
    runTogether('yaml/equals-sign', name, (value ?? '…').trim()),
    within(line, before.length, line.text.slice(before.length).trimEnd().length),
  );
};

export const gluedColon: LineSlip = (line) => {
  const [, before, name, value] = /^(\s*(?:- )?)([A-Za-z][\w-]*):(?![\s/])(\S.*)$/.exec(line.text) ?? [];
  if (before === undefined || name === undefined || value === undefined) return undefined;
  return slip(
    runTogether('yaml/no-space-after-colon', name, value.trim()),
    within(line, before.length, name.length + 1),
  );
};

/** `-date: …`: without a space the hyphen is part of the key, and the list has lost an entry. */
export const gluedHyphen =
  (keys: ReadonlySet<string>): LineSlip =>
  (line) => {
    const [, blanks, name] = /^(\s*)-([a-z][a-z-]*):/i.exec(line.text) ?? [];
    if (blanks === undefined || name === undefined || !keys.has(name.toLowerCase())) return undefined;
    return slip(
      noSpaceAfterHyphen(`-${name}:`, `- ${name.toLowerCase()}: …`),
      within(line, blanks.length, name.length + 1),
    );
  };

export function noSpaceAfterHyphen(written: string, meant: string): Message {
  return messageOf('yaml/no-space-after-hyphen', { found: shown(written), meant: shown(meant) });
}

/** A lone `-` or `?` as a value, before a comma, a bracket, a comment or the line's end. */
export const loneSign: LineSlip = (line) => {
  const found = /(?:^\s*(?:- )?|[{,]\s*)([a-z][a-z-]*):[ \t]+([-?])(?=[ \t]*(?:[,}]|[ \t]#|$))/.exec(
    line.text,
  );
  const [all, name, sign] = found ?? [];
  if (!found || all === undefined || name === undefined || sign === undefined) return undefined;
  return slip(
    notKnown(name, sign, messageWords().say('expected.either')),
    within(line, found.index + all.length - 1, 1),
  );
};

/** A line that begins with a key of the format and has no colon. */
export const noColon =
  (keys: ReadonlySet<string>): LineSlip =>
  (line) => {
    const [, before, name, value] =
      /^(\s*(?:- )?)([a-z][a-z-]*)(?: +([^:=#]*))?$/.exec(line.text.trimEnd()) ?? [];
    if (before === undefined || name === undefined || !keys.has(name)) return undefined;
    const stretch = within(line, before.length, line.text.trim().length);
    return value
      ? slip(messageOf('yaml/no-colon', { name, meant: shown(`${name}: ${value}`) }, 'value'), stretch)
      : slip(messageOf('yaml/no-colon', { name }), stretch);
  };

export const specialStart: LineSlip = (line) => {
  const found = /(?:^\s*(?:- )?|[{,]\s*)[a-z][a-z-]*:[ \t]+([@`%*&!|>][^,}]*)/.exec(line.text);
  const text = found?.[1];
  if (!found || text === undefined || /^[|>][-+\d]*\s*(?:#.*)?$/.test(text)) return undefined;
  const stretch = within(line, found.index + found[0].length - text.length, text.trimEnd().length);
  if (text.startsWith('!'))
    return slip(messageOf('yaml/exclamation', { found: /^\S*/.exec(text)?.[0] ?? '!' }), stretch);
  const way = text.startsWith('`') ? 'backtick' : undefined;
  return slip(messageOf('yaml/special-start', { sign: text[0]! }, way), stretch);
};

export const colonInText: LineSlip = (line) => {
  const found = /^(\s*(?:- )?[a-z][a-z-]*:[ \t]+)([^"'{[>|#\s][^#]*?:(?:[ \t].*|$))/.exec(line.text);
  const [, before, text] = found ?? [];
  if (before === undefined || text === undefined) return undefined;
  return slip(
    messageOf('yaml/colon-in-text', { found: shown(text) }),
    within(line, before.length, text.trimEnd().length),
  );
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
    const [, name = messageWords().say('place.line')] = /([a-z][a-z-]*):[^:]*$/.exec(kept) ?? [];
    return slip(
      commentInText(name, line.text.slice(cut + 1)),
      within(line, cut + 1, line.text.length - cut - 1),
    );
  }
  const sign = bare[open] ?? '';
  const [partner, way] = partners[sign]!;
  return slip(messageOf('yaml/unclosed-bracket', { sign, partner }, way), within(line, open, 1));
};

/** The partner of a bracket, and where it belongs. */
const partners: Readonly<Record<string, readonly [string, string]>> = {
  '{': ['}', 'keys-end'],
  '[': [']', 'words-end'],
  '}': ['{', 'keys-begin'],
  ']': ['[', 'words-begin'],
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
