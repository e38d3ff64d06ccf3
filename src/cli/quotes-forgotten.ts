import type { Command } from 'commander';
import { animal } from '../record/animal.js';
import { business } from '../record/business.js';
import { farm } from '../record/farm.js';

/** Places of a record that are one word. */
const places = new Set([animal, farm, business].flatMap(({ shape }) => Object.keys(shape)));

/** The last argument of these may be several words. */
const takesText = new Set(['note', 'value']);

/**
 * The command as it was meant, ready to paste, where text of several words was typed without quotes: words follow an
 * option that takes one, or behind the last argument where that is text. Undefined where no word is too many, or it cannot be determined.
 *
 * Shape:   the words behind the command's name; quotes as a shell of Windows takes them, or one of Linux or a Mac
 * Checked: tests/cli/quotes-forgotten.test.ts
 */
export function quotesForgotten(
  command: Command,
  words: readonly string[],
  onWindows: boolean,
): string | undefined {
  const pairs = command.registeredArguments.at(-1)?.variadic === true;
  const most = command.registeredArguments.length;
  const before: string[] = [];
  const parts: { option: string; texts: string[]; takes: boolean }[] = [];
  for (const word of words) {
    const [name = ''] = word.split('=');
    const option = command.options.find(({ long, short }) => name === long || name === short);
    const last = parts.at(-1);
    if (option) parts.push({ option: word, texts: [], takes: !option.isBoolean() && !word.includes('=') });
    else if (word.startsWith('--')) return undefined;
    else if (last) last.texts.push(word);
    else before.push(word);
  }
  if (pairs) return inPairs(command, words, before, onWindows);
  const isOver = parts.some(({ takes, texts }) => texts.length > (takes ? 1 : 0)) || before.length > most;
  const inAll = before.length + parts.reduce((sum, { takes, texts }) => sum + Math.max(0, texts.length - (takes ? 1 : 0)), 0); // prettier-ignore
  if (!isOver || inAll <= most || parts.some(({ takes, texts }) => !takes && texts.length > 0))
    return undefined;
  // The animal behind the text: `--note a bit lame 2041`.
  const end = parts.at(-1)?.texts;
  if (before.length < most && end && end.length > 1 && /\d|\//.test(end.at(-1)!)) before.push(end.pop()!);
  if (before.length < command.registeredArguments.filter(({ required }) => required).length) return undefined;
  if (before.length > most) {
    if (!takesText.has(command.registeredArguments.at(-1)?.name() ?? '')) return undefined;
    before.push(before.splice(most - 1).join(' '));
  }
  const quote = onWindows ? forWindows : forPosix;
  const said = parts.flatMap(({ option, texts }) => [option, ...(texts.length > 0 ? [texts.join(' ')] : [])]);
  return ['growdown', command.name(), ...[...before, ...said].map((one) => quote(one))].join(' ');
}

/** `correct 2041 2026-01-06.note still a bit lame`: places and values in turn, where a word that should be a place is none. */
function inPairs(command: Command, words: readonly string[], before: readonly string[], onWindows: boolean) {
  const [named = '', ...said] = before;
  const at = said.findIndex((word, n) => n > 0 && n % 2 === 0 && !word.includes('.') && !places.has(word));
  if (at < 0 || words.indexOf(said[0]!) !== 1) return undefined;
  const texts = [
    named,
    ...said.slice(0, at - 1),
    said.slice(at - 1).join(' '),
    ...words.slice(before.length),
  ];
  const quote = onWindows ? forWindows : forPosix;
  return ['growdown', command.name(), ...texts.map((one) => quote(one))].join(' ');
}

function forPosix(text: string): string {
  if (/^[\w./:=+@%,-]+$/.test(text)) return text;
  return /[$`"\\!]/.test(text) ? `'${text.replaceAll("'", String.raw`'\''`)}'` : `"${text}"`;
}

/** Only double quotes are taken by every shell there, and none within them. */
function forWindows(text: string): string {
  return /^[\w./\\:=+@-]+$/.test(text) ? text : `"${text.replaceAll('"', "'")}"`;
}
