import { type Words, told, wordsOf } from '../reference/words.js';
import { dayInWords, planDay } from '../words/day-and-place.js';
import type { Level } from './handover-limits.js';
import type { Business } from '../record/business.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { FarmRecord } from '../record/practice.js';
import type { CaseWork } from '../schedule/case-work.js';

/** A picture made ready, in base64. */
export interface MadePicture {
  readonly base64: string;
  readonly widthPx: number;
  readonly heightPx: number;
}

/** Whose handover, for which day. */
export interface HandoverFor {
  readonly business: Business;
  readonly farm: FarmRecord;
  readonly work: CaseWork;
  readonly today: CalendarDay;
  /** A question given for this page alone. */
  readonly ask?: string | undefined;
  /** Pictures made ready, by the file's name as the record writes it. */
  readonly pictures: ReadonlyMap<string, MadePicture>;
}

/** Parts of a page that can have more than there is room for. */
type CountedPart = 'notices' | 'asks' | 'lesions' | 'marks' | 'visits' | 'treatments' | 'pictures';

/** A handover with so much of it as there is room for, and what its parts have told that had no room. */
export type HandoverOf = ReturnType<typeof handoverAt>;

/** What a page begins with, before any part has told what it had no room for. */
export function handoverAt(given: HandoverFor, level: Level) {
  const { business, farm, work, today } = given;
  const language = farm.farm.language ?? business.language ?? 'en-GB';
  const words = wordsOf(language);
  const leftOut = new Map<CountedPart | 'cut', number>();
  const cut = (text: string, most = level.characters): string => {
    const short = cutAtWord(text, most);
    if (short === undefined) return onOneLine(text);
    leftOut.set('cut', 1);
    return short;
  };
  return {
    ...given,
    level,
    language,
    words,
    leftOut,
    animal: work.record.animal,
    /** A text on one line, cut at a word where it is too long; that one was cut is remembered. */
    cut,
    /** A name, cut only where it is longer than any name. */
    cutName: (name: string): string => cut(name, level.names),
    name: <T extends string | undefined>(name: T) =>
      (name === undefined ? undefined : told(cut(name, level.names))) as T,
    /** The first so many; how many more there are is remembered. */
    firstOf: <T>(part: CountedPart, all: readonly T[], most: number): readonly T[] => {
      if (all.length > most) leftOut.set(part, all.length - most);
      return all.slice(0, most);
    },
    say: (key: string, values = {}): string => words.say(`handover.${key}`, values),
    /** A day as it is planned by, and with its year. */
    day: (of: CalendarDay): string => planDay(words, of, today),
    wholeDay: (of: CalendarDay): string => dayInWords(words, of),
  };
}

function onOneLine(text: string): string {
  return text.trim().replaceAll(/\s+/g, ' ');
}

/** Undefined where it is short enough. */
function cutAtWord(text: string, most: number): string | undefined {
  // Each with the marks beside it, which are not seen.
  const characters = onOneLine(text).match(/\u2068?[^\u2068\u2069]\u2069?/gu) ?? [];
  if (characters.length <= most) return undefined;
  const kept = characters.slice(0, most);
  const space = kept.lastIndexOf(' ');
  const short = kept.slice(0, space > most / 2 ? space : most).join('');
  return `${short.trimEnd()}…${short.lastIndexOf('\u2068') > short.lastIndexOf('\u2069') ? '\u2069' : ''}`;
}

/** What is left out and where it is, in a sentence. */
export function leftOutSentence(words: Words, leftOut: HandoverOf['leftOut']): string {
  // That a text was cut is said last.
  const parts = [...leftOut].sort(([a], [b]) => Number(a === 'cut') - Number(b === 'cut'));
  const items = parts.map(([part, count]) => words.say(`handover.left-out.${part}`, { count }));
  if (items.length === 0) return words.say('handover.left-out.nothing');
  return words.say('handover.left-out.lead', { items: words.semicolons(items) });
}
