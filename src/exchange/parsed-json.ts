import { parseDocument } from 'yaml';
import { sourceText } from '../casefile/source-text.js';

export type JsonParsed =
  | { readonly outcome: 'json'; readonly value: unknown }
  /** With its place where that can be told; the message is whole. */
  | { readonly outcome: 'not-json'; readonly message: string };

/**
 * JSON text → what it holds. A member written twice is refused: the parser would keep the last one in silence.
 *
 * Shape: `file` is the name it goes by in messages
 */
export function parsedJson(text: string, file: string): JsonParsed {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch (error) {
    const place = brokenAt(text, String(error));
    return {
      outcome: 'not-json',
      message: `${file}${place}: the text is no JSON from here on, expected the file as \`growdown export --to json\` wrote it; write it anew, or copy it whole`,
    };
  }
  if (membersWritten(text) === membersIn(value)) return { outcome: 'json', value };
  const place = brokenAt(text, '');
  return {
    outcome: 'not-json',
    message: `${file}${place}: a name stands twice in one group, expected each once; take one of the two out`,
  };
}

/** Where a second, slower parser that knows lines meets the first trouble; else where the first one says. */
function brokenAt(text: string, said: string): string {
  const [first] = parseDocument(text, { schema: 'json', logLevel: 'silent', prettyErrors: false }).errors;
  const [, position] = /position (\d+)/.exec(said) ?? [];
  const offset = position === undefined ? first?.pos[0] : Number(position);
  if (offset === undefined) return '';
  const { line, column } = sourceText(text).placeAt(offset, offset + 1);
  return `:${line}:${column}`;
}

/** Texts that a colon follows, counted; a text inside another is passed over with it. */
function membersWritten(text: string): number {
  let count = 0;
  for (const [, colon] of text.matchAll(/"[^"\\]*(?:\\.[^"\\]*)*"\s*(:)?/g))
    if (colon !== undefined) count += 1;
  return count;
}

function membersIn(value: unknown): number {
  if (typeof value !== 'object' || value === null) return 0;
  const own = Array.isArray(value) ? 0 : Object.keys(value).length;
  return Object.values(value).reduce<number>((sum, inner) => sum + membersIn(inner), own);
}
