import type { ActionBox } from '../book/animal-page-data.js';
import type { BookFigure, DataTable, Fact } from '../book/page-parts.js';
import type { PageBasis } from '../book/layout-css.js';
import type { Words } from '../reference/words.js';
import type { Level } from './handover-limits.js';
import type { Business } from '../record/business.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { FarmRecord } from '../record/practice.js';
import type { CaseWork } from '../schedule/case-work.js';

/** A picture made ready, of one lesion. */
export interface HandoverPicture {
  readonly lesion: string;
  readonly source: string;
  readonly width: number;
  readonly height: number;
  readonly alt: string;
  readonly caption: string;
}

/** A handover to the veterinary surgeon as finished page data: every string worded, nothing left to work out. */
export interface HandoverPage extends PageBasis {
  readonly kicker: string;
  /** Her number. */
  readonly heading: string;
  /** The lesion that leads, with its place. */
  readonly what: string;
  /** Four feet with hers marked: an SVG of our own. */
  readonly feet: string;
  /** How she stands, in two or three words. */
  readonly chip: string;
  /** Who she is, in a line, and how she is to handle. */
  readonly identity: string;
  readonly handling?: string;
  /** For whom the page is, from whom, and whose cow she is. */
  readonly parties: readonly Fact[];
  readonly why: ActionBox;
  /** Whether anything in her record calls for the vet. */
  readonly calls: boolean;
  readonly asks: ActionBox;
  readonly lesions: ActionBox;
  /** Her wall, ulcer or stages on true time, where a side has room for it. */
  readonly figure?: BookFigure;
  readonly history?: { readonly heading: string; readonly table: DataTable };
  readonly state: {
    readonly heading: string;
    /** On the page only where no drawing shows them. */
    readonly walks: readonly Fact[];
    readonly facts: readonly Fact[];
  };
  readonly pictures?: { readonly heading: string; readonly shots: readonly HandoverPicture[] };
  readonly treatments: { readonly heading: string; readonly table?: DataTable; readonly nothing?: string };
  readonly reply: {
    readonly heading: string;
    readonly lead: string;
    readonly blanks: readonly string[];
    /** The same lead for a mail, where there is nothing to write on. */
    readonly mail: string;
    readonly how: string;
  };
  /** What is left out for room, and where it stands. */
  readonly leftOut: string;
  readonly foot: string;
}

/** Parts of a page that can have more than there is room for. */
type CountedPart = 'notices' | 'asks' | 'lesions' | 'marks' | 'visits' | 'treatments' | 'pictures';

/** What had no room on a page, told by its parts as they are composed. */
interface LeftOut {
  /** Names longer than this are cut. */
  readonly nameCharacters: number;
  readonly counts: Map<CountedPart, number>;
  cutTexts: boolean;
}

/** What a page begins with, before any part has told what it had no room for. */
export function nothingLeftOut({ names }: Pick<Level, 'names'>): LeftOut {
  return { nameCharacters: names, counts: new Map(), cutTexts: false };
}

/** The first so many; how many more there are is remembered. */
export function firstOf<T>(
  leftOut: LeftOut,
  part: CountedPart,
  all: readonly T[],
  most: number,
): readonly T[] {
  if (all.length > most) leftOut.counts.set(part, all.length - most);
  return all.slice(0, most);
}

/** A text on one line, cut at a word where it is too long; that one was cut is remembered. */
export function cut(leftOut: LeftOut, text: string, most: number): string {
  const line = text.trim().replaceAll(/\s+/g, ' ');
  // Each with the marks beside it, which are not seen.
  const characters = line.match(/\u2068?[^\u2068\u2069]\u2069?/gu) ?? [];
  if (characters.length <= most) return line;
  leftOut.cutTexts = true;
  const kept = characters.slice(0, most);
  const space = kept.lastIndexOf(' ');
  const short = kept
    .slice(0, space > most / 2 ? space : most)
    .join('')
    .trimEnd();
  return `${short}…${short.lastIndexOf('\u2068') > short.lastIndexOf('\u2069') ? '\u2069' : ''}`;
}

/** A name, cut only where it is longer than any name. */
export function cutName(leftOut: LeftOut, name: string): string {
  return cut(leftOut, name, leftOut.nameCharacters);
}

/** What is left out and where it stands, in a sentence. */
export function leftOutSentence(words: Words, { counts, cutTexts }: LeftOut): string {
  const items = [
    ...[...counts].map(([part, count]) => words.say(`handover.left-out.${part}`, { count })),
    ...(cutTexts ? [words.say('handover.left-out.cut')] : []),
  ];
  if (items.length === 0) return words.say('handover.left-out.nothing');
  return words.say('handover.left-out.lead', { items: words.semicolons(items) });
}

/** Whose handover it is, for which day, and how much of it there is room for. */
export interface HandoverOf {
  readonly words: Words;
  readonly business: Business;
  readonly farm: FarmRecord;
  readonly work: CaseWork;
  readonly today: CalendarDay;
  /** A question given for this page alone. */
  readonly ask?: string | undefined;
  readonly level: Level;
  /** Told of each part what had no room. */
  readonly leftOut: LeftOut;
}
