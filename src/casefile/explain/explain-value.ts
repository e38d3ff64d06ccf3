import { formFor, isGroup, type Wanted } from '../wanted.js';
import { saysNotKnown, otherWord, nearestWord } from '../nearest-word.js';
import { shown, wordsInRow } from '../finding.js';
import { explainNumber } from './explain-number.js';
import { newerFormat, notKnown, type Said } from './said.js';

const months = [
  'January', 'February', 'March', 'April', 'May', 'June', 'July', 'August', 'September', 'October', 'November', 'December',
] as const; // prettier-ignore

/** Why a value is not a day of the calendar. */
function explainDay(name: string, value: unknown, orUnknown: boolean): Said {
  const text = typeof value === 'string' ? value.trim() : '';
  const [, year, month, day] = /^(\d{4})-(\d\d)-(\d\d)$/.exec(text) ?? [];
  if (year !== undefined && month !== undefined && day !== undefined)
    return noSuchDay(name, text, year, month);
  return {
    id: 'value/day-form',
    message: `${name} is ${shown(value)}, expected a day as \`YYYY-MM-DD\`${orUnknown ? ' or `unknown`' : ''}`,
    mend: suggestion(text) ?? 'write year, month and day with hyphens, such as `2026-02-03`',
  };
}

function noSuchDay(name: string, text: string, year: string, month: string): Said {
  const monthName = months[Number(month) - 1];
  const far = Number(year) < 1900 || Number(year) > 2199;
  return {
    id: 'value/no-such-day',
    message: `${name} is \`${text}\`, expected a day ${far ? 'from 1900 to 2199' : 'that is in the calendar'}`,
    mend: far
      ? 'look at the year again'
      : monthName === undefined
        ? 'the month is a number from 01 to 12; the order is year, month, day'
        : `${monthName} ${year} has ${daysIn(Number(year), Number(month))} days; look at the day again`,
  };
}

function daysIn(year: number, month: number): number {
  return new Date(Date.UTC(year, month, 0)).getUTCDate();
}

/** The day that was most likely meant; both readings where day and month could be either. */
function suggestion(text: string): string | undefined {
  const [, year, month, day] = /^(\d{4})[-/. ]?(\d{1,2})[-/. ]?(\d{1,2})(?:$|[T ])/.exec(text) ?? [];
  if (year !== undefined) return `write \`${year}-${two(month)}-${two(day)}\``;
  const [, number, name, after] = /^(\d{1,2})[. ]*([a-z]{3,9})[. ]*(\d{4})$/i.exec(text) ?? [];
  const named =
    name === undefined ? -1 : months.findIndex((other) => other.toLowerCase().startsWith(name.toLowerCase()));
  if (named !== -1) return `write \`${after}-${two(String(named + 1))}-${two(number)}\``;
  const [, first, second, late] = /^(\d{1,2})[-/. ](\d{1,2})[-/. ](\d{4})$/.exec(text) ?? [];
  if (late === undefined) return undefined;
  const readings = [
    [second, first],
    [first, second],
  ].filter(([m]) => Number(m) >= 1 && Number(m) <= 12);
  const unlike = [...new Set(readings.map(([m, d]) => `${late}-${two(m)}-${two(d)}`))];
  const said = unlike.map(
    (iso) => `\`${iso}\` for ${Number(iso.slice(8))} ${months[Number(iso.slice(5, 7)) - 1]}`,
  );
  return said.length === 0 ? undefined : `write ${said.join(', or ')}`;
}

function two(number: string | undefined): string {
  return (number ?? '').padStart(2, '0');
}

/** Most words listed in the first line of a message; a longer list follows in `mend:`. */
const fewWords = 8;

/** Why a value is not one of a closed list of words, with the word most likely meant. */
function explainWord(name: string, words: readonly string[], value: unknown): Said {
  const meant = typeof value === 'string' ? wordMeant(value, words) : undefined;
  const few = words.length <= fewWords;
  const expected = few ? wordsInRow(words) : `one of its ${words.length} words`;
  const list = `the words are ${wordsInRow(words)}`;
  const mend =
    meant === undefined
      ? few
        ? 'write one of these words'
        : list
      : `write \`${meant}\`${few ? '' : `; ${list}`}`;
  return {
    id: 'value/unknown-word',
    message: `${name} is ${shown(value)}, expected ${expected}${meant === undefined ? '' : `: did you mean \`${meant}\`?`}`,
    mend,
  };
}

function wordMeant(value: string, words: readonly string[]): string | undefined {
  const other = otherWord('words', value);
  return other !== undefined && words.includes(other) ? other : nearestWord(value, words);
}

/**
 * Why a value is refused where `wanted` is wanted.
 *
 * `name` is the place in the words of the file, such as `found.a.top`.
 */
export function explainValue(name: string, wanted: Wanted, value: unknown): Said {
  if (value === null || value === undefined || value === '') return empty(name, wanted);
  if (isNotKnown(wanted, value)) return notKnown(name, value, `${expectedHere(wanted)}, or no such key`);
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
      return notText(name, value);
    case 'yes-no':
      return notYesNo(name, value);
    case 'time':
      return notTime(name, value);
    case 'version':
      return otherVersion(name, wanted.version, value);
    case 'slug':
    case 'short-name':
      return badName(name, wanted.kind, value);
    case 'list':
      return notList(name, wanted.of, value);
    case 'group':
    case 'named':
      return notGroup(name, wanted, value);
    case 'either':
      return explainValue(name, formFor(wanted.forms, value), value);
  }
}

const expectedOf: Readonly<Record<Exclude<Wanted['kind'], 'either' | 'word'>, string>> = {
  text: 'text',
  'free-text': 'text',
  day: 'a day',
  'day-or-unknown': 'a day or `unknown`',
  time: 'a time',
  slug: 'a short name',
  'short-name': 'the short name of a lesion',
  'yes-no': '`true` or `false`',
  version: 'the format version',
  number: 'a number',
  list: 'a list',
  group: 'keys under it',
  named: 'entries under it',
};

/** What is wanted, in few words. */
function expectedHere(wanted: Wanted): string {
  const form = wanted.kind === 'either' ? (wanted.forms[0] ?? wanted) : wanted;
  if (form.kind === 'either') return 'a value';
  if (form.kind !== 'word') return expectedOf[form.kind];
  return form.words.length > 8 ? 'one of its words' : wordsInRow(form.words);
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

function empty(name: string, wanted: Wanted): Said {
  const form = wanted.kind === 'either' ? (wanted.forms[0] ?? wanted) : wanted;
  const none =
    form.kind === 'list'
      ? '; `[]` says there are none'
      : form.kind === 'named'
        ? '; `{}` says there are none'
        : '';
  return {
    id: 'value/empty',
    message: `${name} holds nothing, expected ${expectedHere(wanted)}`,
    mend: `write the value after the colon, or take the key out if it is not known${none}`,
  };
}

function notText(name: string, value: unknown): Said {
  return {
    id: 'value/not-text',
    message: `${name} is ${shown(value)}, expected text`,
    mend: 'text that begins with `[`, `{` or `- `, or holds a colon and a space, stands in straight quotes',
  };
}

function notYesNo(name: string, value: unknown): Said {
  const word = String(value).toLowerCase();
  const meant = ['true', 'yes', 'y'].includes(word)
    ? 'true'
    : ['false', 'no', 'n'].includes(word)
      ? 'false'
      : undefined;
  return {
    id: 'value/not-true-or-false',
    message: `${name} is ${shown(value)}, expected \`true\` or \`false\``,
    mend: meant ? `write \`${meant}\`` : 'write `true` or `false`; `yes` and `no` will do',
  };
}

function notTime(name: string, value: unknown): Said {
  const [, hour, minute] = /^(\d{1,2})[.:h](\d\d)$/.exec(String(value)) ?? [];
  const meant = Number(hour) < 24 && Number(minute) < 60 ? `${hour?.padStart(2, '0')}:${minute}` : undefined;
  return {
    id: 'value/not-a-time',
    message: `${name} is ${shown(value)}, expected a time as \`HH:MM\``,
    mend: meant ? `write \`"${meant}"\`` : 'write hours and minutes of the 24-hour clock, such as `"09:30"`',
  };
}

function otherVersion(name: string, version: number, value: unknown): Said {
  if (value === String(version)) {
    return {
      id: 'value/quoted-number',
      message: `${name} is the text "${value}", expected a number`,
      mend: `write \`${value}\` without quotes`,
    };
  }
  if (Number.isInteger(value) && Number(value) > version) return newerFormat(name, Number(value));
  return {
    id: 'value/format-version',
    message: `${name} is ${shown(value)}, expected ${version}`,
    mend: `write the version of the case format that the file is of: \`${version}\` is the newest this program reads`,
  };
}

function badName(name: string, kind: 'slug' | 'short-name', value: unknown): Said {
  return {
    id: 'value/name-form',
    message: `${name} is ${shown(value)}, expected ${kind === 'slug' ? "a folder's name" : 'the short name of a lesion'}`,
    mend:
      kind === 'slug'
        ? 'small letters, digits and hyphens only, at most 64 of them, such as `quernholt`'
        : 'a small letter first, then small letters, digits or hyphens, at most 16 of them, such as `a` or `heel-2`',
  };
}

function notList(name: string, of: Wanted, value: unknown): Said {
  const grouped = of.kind === 'group' || of.kind === 'named';
  const single = !isGroup(value) && !grouped;
  return {
    id: 'value/not-a-list',
    message: `${name} is ${shown(value)}, expected a list`,
    mend: grouped
      ? 'begin each entry on a line of its own with `- `, or write `[ { … }, { … } ]`'
      : `write it between square brackets${single ? `: \`[${String(value).replaceAll(/[[\]]/g, '').trim()}]\`` : ', with commas between'}`,
  };
}

/** A group with more keys than this is shown by its first few. */
const mostKeysListed = 25;
const fewKeys = 4;

function notGroup(name: string, wanted: Extract<Wanted, { kind: 'group' | 'named' }>, value: unknown): Said {
  const keys = wanted.kind === 'group' ? [...wanted.keys.keys()] : [];
  const listed =
    keys.length > mostKeysListed
      ? `${keys
          .slice(0, fewKeys)
          .map((key) => `\`${key}\``)
          .join(', ')} and others`
      : wordsInRow(keys);
  const example = keys.length > 0 ? ` Its keys are ${listed}.` : '';
  return {
    id: 'value/not-a-group',
    message: `${name} is ${shown(value)}, expected keys of its own`,
    mend: `write them indented below it, or between \`{\` and \`}\` with a space after each colon.${example}`,
  };
}
