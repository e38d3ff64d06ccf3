import { stepInto } from '../../casefile/explain/explain-key.js';
import { formFor, isGroup, type Wanted } from '../../casefile/wanted.js';

/** A group or list longer than this is written over several lines. */
const longestFlow = 150;
/** Free text longer than this is folded under `>-`. */
const longestQuoted = 110;
const foldAt = 100;

/** How a file is written: its line ends and how far one level stands inside another. */
export interface Hand {
  readonly eol: string;
  readonly step: number;
}

/**
 * A value as it stands between brackets, on one line.
 * Such as `{ top: 21, tool: ruler }`.
 */
export function inFlow(value: unknown, wanted: Wanted | undefined): string {
  if (Array.isArray(value)) return `[${value.map((one) => inFlow(one, stepInto(wanted, 0))).join(', ')}]`;
  if (!isGroup(value)) return scalar(value, wanted);
  const entries = entriesOf(value, wanted).map(([key, of, inner]) => `${keyText(key)}: ${inFlow(of, inner)}`);
  return entries.length === 0 ? '{}' : `{ ${entries.join(', ')} }`;
}

/** What follows `key:` in a block, from the space or the line end on, without a line end of its own; `indent` is the key's. */
export function afterKey(value: unknown, wanted: Wanted | undefined, indent: number, hand: Hand): string {
  const inner = indent + hand.step;
  if (Array.isArray(value) && value.some((one) => isGroup(one))) {
    const margin = hand.eol + ' '.repeat(inner);
    return value.map((one) => `${margin}- ${asEntry(one, stepInto(wanted, 0), inner + 2, hand)}`).join('');
  }
  if (isGroup(value) && Object.keys(value).length > 0 && !fitsOneLine(value, wanted)) {
    return hand.eol + ' '.repeat(inner) + inBlock(value, wanted, inner, hand);
  }
  const flow = inFlow(value, wanted);
  if (typeof value !== 'string') return ` ${flow}`;
  const block = value.trimEnd().includes('\n')
    ? inParagraphs(value, inner, hand)
    : flow.length > longestQuoted
      ? folded(value, inner, hand)
      : undefined;
  return ` ${block ?? flow}`;
}

/** A group line by line; the first key is where the writer is, the others `indent` further in. */
export function inBlock(
  value: Readonly<Record<string, unknown>>,
  wanted: Wanted | undefined,
  indent: number,
  hand: Hand,
): string {
  return entriesOf(value, wanted)
    .map(([key, of, inner]) => `${keyText(key)}:${afterKey(of, inner, indent, hand)}`)
    .join(hand.eol + ' '.repeat(indent));
}

/** What follows the dash of a list's entry; its further lines stand `indent` in. */
export function asEntry(value: unknown, wanted: Wanted | undefined, indent: number, hand: Hand): string {
  return !isGroup(value) || fitsOneLine(value, wanted)
    ? inFlow(value, wanted)
    : inBlock(value, wanted, indent, hand);
}

/** Keys in the order of the case format; one it does not know last, for the reader to explain. */
function entriesOf(
  value: Readonly<Record<string, unknown>>,
  wanted: Wanted | undefined,
): [string, unknown, Wanted | undefined][] {
  const order = wanted?.kind === 'group' ? [...wanted.keys.keys()] : [];
  const place = (key: string): number => (order.includes(key) ? order.indexOf(key) : order.length);
  return Object.entries(value)
    .filter(([, of]) => of !== undefined)
    .sort(([a], [b]) => place(a) - place(b))
    .map(([key, of]) => [key, of, stepInto(wanted, key)]);
}

/**
 * Names of the user's own choice (`found`, `lesions`) stand line by line, and so does what may hold groups, such as a
 * visit; a group of plain values is on one line.
 */
function fitsOneLine(value: Readonly<Record<string, unknown>>, wanted: Wanted | undefined): boolean {
  const inner = Object.values(value).filter((one) => one !== undefined);
  return !inner.some(isGroup) && !mayHoldGroups(wanted) && inFlow(value, wanted).length <= longestFlow;
}

function mayHoldGroups(wanted: Wanted | undefined): boolean {
  if (wanted?.kind !== 'group') return false;
  return [...wanted.keys.values()].some(
    ({ wanted: inner }) => inner.kind === 'group' || inner.kind === 'named',
  );
}

const closedKinds = new Set(['word', 'day', 'day-or-unknown', 'short-name', 'slug']);
const plainWord = /^[A-Za-z0-9](?:[A-Za-z0-9 .-]*[A-Za-z0-9])?$/;
const name = /^\p{Lu}[\p{L}’-]*(?: \p{Lu}[\p{L}’-]*)+$/u;

function scalar(value: unknown, either: Wanted | undefined): string {
  const wanted = either?.kind === 'either' ? formFor(either.forms, value) : either;
  if (typeof value === 'number') return inDigits(value);
  if (typeof value !== 'string') return String(value);
  const closed = closedKinds.has(wanted?.kind ?? '') && plainWord.test(value);
  return closed || (wanted?.kind === 'text' && name.test(value)) ? value : quoted(value);
}

function keyText(key: string): string {
  return /^[A-Za-z0-9][A-Za-z0-9-]*$/.test(key) ? key : quoted(key);
}

/** Signs nobody could see in a file, and those that end a line, are written as escapes. */
function quoted(text: string): string {
  return JSON.stringify(text).replaceAll(
    /[\u007f-\u00a0\u1680\u2000-\u200f\u2028-\u202f\u205f-\u206f\u3000\ufeff]/g,
    (sign) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );
}

/** Text that a line of a block holds as it stands: signs that can be seen, single spaces between them. */
const plainLine = /^[\x21-\x7e\u00a1-\u167f\u1681-\u1fff]+(?: [\x21-\x7e\u00a1-\u167f\u1681-\u1fff]+)*$/;

/** Long text of one paragraph, folded at its single spaces; undefined where folding could change a character of it. */
function folded(text: string, indent: number, { eol }: Hand): string | undefined {
  const body = text.replace(/\n$/, '');
  if (!plainLine.test(body)) return undefined;
  const lines = [''];
  for (const word of body.split(' ')) {
    const last = lines.at(-1) ?? '';
    if (last !== '' && last.length + word.length >= foldAt) lines.push(word);
    else lines[lines.length - 1] = last === '' ? word : `${last} ${word}`;
  }
  return `>${ending(text)}${lines.map((line) => eol + ' '.repeat(indent) + line).join('')}`;
}

/** Text of several lines, line by line; undefined where a block could change a character of it. */
function inParagraphs(text: string, indent: number, { eol }: Hand): string | undefined {
  const lines = text.replace(/\n$/, '').split('\n');
  const plain = lines.every((line, at) => plainLine.test(line) || (line === '' && at > 0));
  if (!plain || lines.at(-1) === '') return undefined;
  const margin = ' '.repeat(indent);
  return `|${ending(text)}${lines.map((line) => eol + (line === '' ? '' : margin + line)).join('')}`;
}

/** Whether a block ends with a line end of its own. */
function ending(text: string): string {
  return text.endsWith('\n') ? '' : '-';
}

/**
 * A number with every digit written out, as the case format has numbers; it knows no exponents.
 */
function inDigits(value: number): string {
  const written = String(value);
  const [, sign = '', whole = '', part = '', power] = /^(-?)(\d)(?:\.(\d+))?e([+-]\d+)$/.exec(written) ?? [];
  if (power === undefined) return written;
  const digits = whole + part;
  const before = 1 + Number(power);
  return before > 0 ? sign + digits.padEnd(before, '0') : `${sign}0.${'0'.repeat(-before)}${digits}`;
}
