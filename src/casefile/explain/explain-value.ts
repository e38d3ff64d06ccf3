import { messageOf } from '../../problem/message.js';
import type { Message } from '../../problem/problem.js';
import { decimalDigits } from '../plain-scalar.js';
import { shown, wordsInRow } from '../finding.js';
import { type Wanted, formFor, isGroup } from '../wanted.js';
import { messageWords, wordsOf } from '../../reference/words.js';
import { saysNotKnown, otherWord, nearestWord } from '../nearest-word.js';
import { caseFormat } from '../../record/animal.js';

/** Why leaving a key out will not do: the value is an entry of a list, or the key must be there. */
export type MustStand = 'entry' | 'required';

/** A sign or a word for "not known" as a value: absent is the way to say so, unless it must be there. */
export function notKnown(name: string, value: unknown, expected: string, must?: MustStand): Message {
  return messageOf('value/not-known', { name, found: shown(value), expected }, must);
}

/** A file from a later Growdown: nothing is wrong with it, and writing an older number into it would make it wrong. */
export function newerFormat(name: string, version: number): Message {
  return messageOf('value/format-newer', { name, version, most: caseFormat });
}

/** ` #` in text without quotes: YAML would take the rest for a comment, and it would be lost. */
export function commentInText(name: string, comment: string): Message {
  return messageOf('yaml/comment-in-text', { name, found: shown(comment.trim()) });
}

/** Why a value is not the number wanted. */
function explainNumber(name: string, { whole, most }: Wanted & { kind: 'number' }, value: unknown): Message {
  const found = shown(value);
  if (typeof value === 'string') {
    const said = explainWriting(name, value.trim());
    if (said) return said;
  }
  if (typeof value !== 'number') return messageOf('value/not-a-number', { name, found });
  if (value >= 0 && whole && !Number.isSafeInteger(value))
    return messageOf('value/not-whole', { name, found });
  const way = value < 0 ? 'negative' : undefined;
  return most === undefined
    ? messageOf('value/out-of-range', { name, found }, way)
    : messageOf('value/out-of-range', { name, found, most }, way ? 'negative-to-most' : 'to-most');
}

const withUnit = /^([-+]?\d+(?:[.,]\d+)?)\s*([a-zµ%°£$€"][^\d]*)$/i;
const otherForms =
  /^[-+]?(?:0[xob][\da-f_]+|\d+(?:\.\d*)?e[-+]?\d+|\.inf|\.\d+|\d+\.|\d[\d_]*(?:\.\d+)?|\+?\d+(?:\.\d+)?)$|^\.nan$/i;

function explainWriting(name: string, value: string): Message | undefined {
  const found = shown(value);
  if (/^-?\d+,\d+$/.test(value))
    return messageOf('value/decimal-comma', { name, found, meant: value.replace(',', '.') });
  const [, digits, unit] = withUnit.exec(value) ?? [];
  if (digits !== undefined && unit !== undefined && !/^e[-+]?$/i.test(unit)) {
    const isMillimetres = /^mm?$|^milli/i.test(unit);
    const meant = digits.replace(',', '.');
    return messageOf('value/unit', { name, found, meant }, isMillimetres ? 'millimetres' : undefined);
  }
  if (decimalDigits.test(value)) return messageOf('value/quoted-number', { name, value });
  return otherForms.test(value) ? messageOf('value/number-form', { name, found }) : undefined;
}

function monthNames(): string[] {
  return Array.from({ length: 12 }, (_, at) => wordsOf('en-GB').say(`calendar.month.${two(String(at + 1))}`));
}

/** Why a value is not a day of the calendar. */
function explainDay(name: string, value: unknown, orUnknown: boolean): Message {
  const text = typeof value === 'string' ? value.trim() : '';
  const [, year, month] = /^(\d{4})-(\d\d)-\d\d$/.exec(text) ?? [];
  if (year !== undefined && month !== undefined) return noSuchDay(name, text, Number(year), Number(month));
  const form = wordsInRow(orUnknown ? ['YYYY-MM-DD', 'unknown'] : ['YYYY-MM-DD']);
  const [first, second] = daysMeant(text);
  const { day = '', said = '' } = first ?? {};
  const values = { name, found: shown(value), form, day, said };
  if (!first?.said) return messageOf('value/day-form', values, first && 'meant');
  return second?.said === undefined
    ? messageOf('value/day-form', values, 'read')
    : messageOf('value/day-form', { ...values, otherDay: second.day, otherSaid: second.said }, 'two-ways');
}

function noSuchDay(name: string, day: string, year: number, number: number): Message {
  const month = monthNames()[number - 1] ?? '';
  const days = new Date(Date.UTC(year, number, 0)).getUTCDate();
  const way = year < 1900 || year > 2199 ? 'far' : month === '' ? 'no-month' : undefined;
  return messageOf('value/no-such-day', { name, day, month, year: String(year), days }, way);
}

/** A day that was likely meant, and where day and month could be either, how it is then read. */
interface DayMeant {
  readonly day: string;
  readonly said?: string;
}

/** The day that was most likely meant; both readings where day and month could be either. */
function daysMeant(text: string): DayMeant[] {
  const [, year, month, day] = /^(\d{4})[-/. ]?(\d{1,2})[-/. ]?(\d{1,2})(?:$|[T ])/.exec(text) ?? [];
  if (year !== undefined) return [{ day: `${year}-${two(month)}-${two(day)}` }];
  const [, number, name, after] = /^(\d{1,2})[. ]*([a-z]{3,9})[. ]*(\d{4})$/i.exec(text) ?? [];
  const named = name?.toLowerCase();
  const at = named === undefined ? -1 : monthNames().findIndex((one) => one.toLowerCase().startsWith(named));
  if (at !== -1) return [{ day: `${after}-${two(String(at + 1))}-${two(number)}` }];
  const [, first, second, late] = /^(\d{1,2})[-/. ](\d{1,2})[-/. ](\d{4})$/.exec(text) ?? [];
  if (late === undefined) return [];
  const readings = [
    [second, first],
    [first, second],
  ].filter(([m]) => Number(m) >= 1 && Number(m) <= 12);
  const unlike = [...new Set(readings.map(([m, d]) => `${late}-${two(m)}-${two(d)}`))];
  return unlike.map((iso) => {
    const values = { day: Number(iso.slice(8)), month: monthNames()[Number(iso.slice(5, 7)) - 1]! };
    return { day: iso, said: wordsOf('en-GB').say('calendar.short-day', values) };
  });
}

function two(number: string | undefined): string {
  return (number ?? '').padStart(2, '0');
}

/** Most words listed in the first line of a message; a longer list follows below it. */
export const fewWords = 8;

/** Why a value is not one of a closed list of words, with the word most likely meant. */
function explainWord(name: string, words: readonly string[], value: unknown): Message {
  const written = typeof value === 'string' ? value : '';
  const other = otherWord('words', written);
  const meant = other !== undefined && words.includes(other) ? other : nearestWord(written, words);
  const way = [words.length > fewWords ? 'many' : '', meant === undefined ? '' : 'meant'].filter(Boolean);
  const values = { name, found: shown(value), words: wordsInRow(words), count: words.length };
  return messageOf('value/unknown-word', { ...values, meant: meant ?? '' }, way.join('-') || undefined);
}

/**
 * Why a value is refused where `wanted` is wanted.
 *
 * `name` is the place in the words of the file, such as `found.a.top`; `must` where its key cannot be left out.
 */
export function explainValue(name: string, wanted: Wanted, value: unknown, must?: MustStand): Message {
  if (value === null || value === undefined || value === '') {
    const form = wanted.kind === 'either' ? (wanted.forms[0] ?? wanted) : wanted;
    return messageOf('value/empty', { name, expected: expectedHere(wanted) }, form.kind);
  }
  if (isNotKnown(wanted, value)) return notKnown(name, value, expectedHere(wanted), must);
  const found = shown(value);
  switch (wanted.kind) {
    case 'number':
      return explainNumber(name, wanted, value);
    case 'day':
    case 'day-or-unknown':
      return explainDay(name, value, wanted.kind === 'day-or-unknown');
    case 'word':
      return explainWord(name, wanted.words, value);
    case 'text':
    case 'free-text':
      return messageOf('value/not-text', { name, found });
    case 'yes-no':
      return notYesNo(name, value);
    case 'time':
      return notTime(name, value);
    case 'version':
      return otherVersion(name, wanted.version, value);
    case 'slug':
    case 'short-name':
      return messageOf('value/name-form', { name, found }, wanted.kind);
    case 'list':
      return notList(name, wanted.of, value);
    case 'group':
    case 'named':
      return notGroup(name, wanted, value);
    case 'either':
      return explainValue(name, formFor(wanted.forms, value), value, must);
  }
}

/** What is wanted, in few words. */
function expectedHere(wanted: Wanted): string {
  const form = wanted.kind === 'either' ? (wanted.forms[0] ?? wanted) : wanted;
  if (form.kind === 'word' && form.words.length <= fewWords) return wordsInRow(form.words);
  return messageWords().say(`expected.${form.kind}`);
}

/** Among closed words only what is no word at all: `none` may be meant for one of them. */
function isNotKnown(wanted: Wanted, value: unknown): boolean {
  if (typeof value !== 'string' || !saysNotKnown(value)) return false;
  switch (wanted.kind) {
    case 'number':
    case 'day':
    case 'day-or-unknown':
    case 'time':
      return true;
    case 'word':
    case 'yes-no':
      return !/^[a-z]/i.test(value.trim()) || value.trim().toLowerCase() === 'n/a';
    default:
      return false;
  }
}

function notYesNo(name: string, value: unknown): Message {
  const word = String(value).toLowerCase();
  const isYes = ['true', 'yes', 'y'].includes(word);
  const way = isYes || ['false', 'no', 'n'].includes(word) ? 'meant' : undefined;
  return messageOf('value/not-true-or-false', { name, found: shown(value), meant: String(isYes) }, way);
}

function notTime(name: string, value: unknown): Message {
  const [, hour = '', minute = ''] = /^(\d{1,2})[.:h](\d\d)$/.exec(String(value)) ?? [];
  const isMeant = hour !== '' && Number(hour) < 24 && Number(minute) < 60;
  const values = { name, found: shown(value), meant: `${two(hour)}:${minute}` };
  return messageOf('value/not-a-time', values, isMeant ? 'meant' : undefined);
}

function otherVersion(name: string, version: number, value: unknown): Message {
  if (value === String(version)) return messageOf('value/quoted-number', { name, value });
  if (Number.isInteger(value) && Number(value) > version) return newerFormat(name, Number(value));
  return messageOf('value/format-version', { name, found: shown(value), version });
}

function notList(name: string, of: Wanted, value: unknown): Message {
  const meant = String(value).replaceAll(/[[\]]/g, '').trim();
  const isOfGroups = of.kind === 'group' || of.kind === 'named';
  const way = isOfGroups ? 'of-groups' : isGroup(value) ? undefined : 'meant';
  return messageOf('value/not-a-list', { name, found: shown(value), meant }, way);
}

/** A group with more keys than this is shown by its first few. */
const mostKeysListed = 25;
const fewKeys = 4;

function notGroup(name: string, wanted: Wanted, value: unknown): Message {
  const all = wanted.kind === 'group' ? [...wanted.keys.keys()] : [];
  const isMany = all.length > mostKeysListed;
  const few = all.slice(0, fewKeys).map((key) => `\`${key}\``);
  const values = { name, found: shown(value), keys: isMany ? few.join(', ') : wordsInRow(all) };
  const way = all.length === 0 ? undefined : isMany ? 'many-keys' : 'keys';
  return messageOf('value/not-a-group', values, way);
}
