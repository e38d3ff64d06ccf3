import { inRow } from '../problem/message.js';
import type { Finding, InText, Message, Place, Problem, RecordPath } from '../problem/problem.js';
import { given } from '../record/given.js';
import { messageWords } from '../reference/words.js';
import type { SourceText } from './source-text.js';
import type { YamlStretch } from './parse-yaml.js';
import { PlainScalar } from './plain-scalar.js';

/** A stretch of a file's front matter. */
export interface InYaml {
  readonly stretch: YamlStretch;
  readonly path?: RecordPath;
}

/** What makes a text unreadable, at a place or as a whole. */
export function inText({ id, message, mend }: Message, place?: Place): Finding<InText> {
  return { id, severity: 'error', message, mend, ...given({ place }) };
}

/** What is wrong at a stretch of the front matter. */
export function slip({ id, message, mend }: Message, stretch: YamlStretch): Finding<InYaml> {
  return { id, severity: 'error', message, mend, stretch };
}

/** A finding with its file and its line. */
export function problemOf(finding: Finding<InText>, file: string, source?: SourceText): Problem {
  const { id, severity, message, mend, place, path } = finding;
  const about = { message, mend, ...given({ path }) };
  if (!place || !source) return { id, severity, file, ...about };
  return { id, severity, file, place, ...about, excerpt: source.line(place.line) };
}

const longest = 40;

/** A value out of a file as a message shows it: in code marks, on one line, cut where long. */
export function shown(value: unknown): string {
  if (Array.isArray(value)) return messageWords().say('value.list');
  if (value instanceof PlainScalar) return shown(value.source);
  if (typeof value === 'object' && value !== null) return messageWords().say('value.group');
  if (value === null || value === undefined) return messageWords().say('value.nothing');
  const plain = typeof value === 'string' || typeof value === 'number' || typeof value === 'boolean';
  const text = [...(plain ? String(value) : typeof value).replaceAll(/\s+/g, ' ').trim()];
  return text.length > longest ? `\`${text.slice(0, longest).join('')}…\`` : `\`${text.join('')}\``;
}

/** Words as they are written, in a row: `a`, `b` or `c`. */
export function wordsInRow(words: readonly string[]): string {
  return inRow(
    'or',
    words.map((word) => `\`${word}\``),
  );
}
