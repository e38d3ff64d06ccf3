import type { PictureWanted } from '../picture/fit-pictures.js';
import type { BookFigure, DataTable, Fact, FactList, TableSection, TextList, Cell } from './page-parts.js';
import type { Words } from '../reference/words.js';
import type { CaseWork } from '../schedule/case-work.js';
import { isOpenStanding } from '../words/compose-standing.js';
import { lesionInWords, placeInWords } from '../words/day-and-place.js';

/** One of the two boxes that call for action. */
export interface ActionBox {
  readonly heading: string;
  /** `lead` is the day, or what the rest is about: set apart, so that the eye can run down it. */
  readonly items: readonly { readonly lead?: string; readonly text: string }[];
}

/** Half of what a visit recorded. */
export interface VisitEntries {
  /** A few words each: they run on in one line. */
  readonly brief: readonly Fact[];
  /** Each on lines of its own. */
  readonly whole: readonly Fact[];
}

/** One visit with all that was recorded at it. */
export interface VisitRow {
  readonly day: string;
  readonly about: string;
  /** Absent where nothing was recorded of that half. */
  readonly found?: VisitEntries;
  readonly done?: VisitEntries;
}

export interface VisitLog {
  readonly id: string;
  readonly heading: string;
  readonly caption: string;
  readonly heads: { readonly found: string; readonly done: string };
  readonly nothing: string;
  readonly visits: readonly VisitRow[];
}

/** One picture at its place, or what is said where it cannot stand. */
export interface PictureShown {
  /** Which picture belongs here; nothing of it is printed. */
  readonly of: PictureWanted;
  readonly image?: {
    readonly source: string;
    readonly width: number;
    readonly height: number;
    readonly alt: string;
  };
  readonly instead?: string;
  /** Before or after the trim, where several of one day stand together. */
  readonly moment?: string;
  /** As it was written. */
  readonly caption?: string;
  readonly file: string;
}

/** All pictures of one view on one day. */
export interface PictureDay {
  readonly day: string;
  /** First, previous, latest. */
  readonly place?: string;
  /** Days after the picture before it and after the first. */
  readonly since?: string;
  /** That day's findings at this place. */
  readonly measured: readonly string[];
  readonly shots: readonly PictureShown[];
}

export interface PicturesOfView {
  readonly heading: string;
  readonly columns: 1 | 2 | 3;
  readonly large: readonly PictureDay[];
  readonly more?: { readonly summary: string; readonly days: readonly PictureDay[] };
}

export interface PictureSection {
  readonly id: string;
  readonly heading: string;
  readonly lead: string;
  readonly strips: readonly PicturesOfView[];
}

/** The facts for a talk about her, with what the case has cost. */
export interface MoneyCard {
  readonly id: string;
  readonly heading: string;
  readonly lead: string;
  readonly facts: readonly Fact[];
  readonly table: DataTable;
  readonly notes: readonly string[];
}

export interface AnimalPage {
  readonly id: string;
  readonly kicker: string;
  readonly number: string;
  readonly identity: string;
  /** Each lesion with its full name and place, one line each. */
  readonly lesionLines: readonly string[];
  /** How she stands, in two or three words. */
  readonly chip: string;
  /** Number and standing, repeated at the head of each of her printed sheets. */
  readonly running: string;
  /** One paragraph that can be read aloud. */
  readonly statement: string;
  /** That she left under withdrawal. */
  readonly left?: ActionBox;
  readonly next?: ActionBox;
  readonly vet?: ActionBox;
  /** The line that unfolds a closed case. */
  readonly fold: string;
  readonly lesions?: DataTable;
  readonly lesionsHeading: string;
  readonly forecasts?: TableSection;
  /** When each ulcer should have closed. */
  readonly closings?: TableSection;
  readonly figures: readonly BookFigure[];
  readonly changes?: TableSection;
  readonly cautions?: TextList;
  readonly record: FactList;
  readonly log: VisitLog;
  readonly photos?: PictureSection;
  readonly missing?: TextList;
  /** Only where the business gives prices. */
  readonly money?: MoneyCard;
  /** What the farm does if her block comes off early; only while one is on. */
  readonly blockEarly?: ActionBox;
  /** The signs on which the farm rings the vet. */
  readonly callVet?: ActionBox;
  /** Rendered Markdown: the only HTML in the page data, and never the user's own. */
  readonly narrative?: { readonly heading: string; readonly html: string };
}

/** One animal's page in a file of its own: whose it is, the page, how to read it, and who signs. */
export interface CaseAlone {
  readonly skip: string;
  readonly kicker: string;
  readonly animal: AnimalPage;
  /** Over the page of a closed case. */
  readonly closedHeading?: string;
  readonly about: TextList;
}

/** A fact where there is something to say; absent is unknown and leaves no line. */
export function fact(words: Words, labelKey: string, value: string | undefined): Fact[] {
  return value === undefined || value === '' ? [] : [{ label: words.say(labelKey), value }];
}

/** A case's place in the book: worst first, closed after open, numbered through, since print has no page references. */
export interface PlacedCase extends CaseWork {
  readonly id: string;
  readonly place: number;
  readonly of: number;
}

/**
 * Her lesions by name and place, one line each, healed ones last: left hind, outer claw, white line disease (WL).
 *
 * Full name first, the code in brackets; the short name leads, since the readings below go by it.
 */
export function lesionLines(words: Words, { record, standing }: PlacedCase): string[] {
  return standing.lesions
    .toSorted((a, b) => Number(!isOpenStanding(a)) - Number(!isOpenStanding(b)))
    .flatMap((one) => {
      const { lesion, code } = one;
      const declared = record.animal.lesions[lesion];
      if (!declared) return [];
      return [
        words.say(`book.lesions.${isOpenStanding(one) ? 'line-of' : `line-${one.standing}`}`, {
          name: lesion,
          lesion: lesionInWords(words, code),
          place: placeInWords(words, declared.foot, declared.claw),
        }),
      ];
    });
}

/** An animal's number, linked, with her case's number beside it: paper has no links. */
export function animalCell(words: Words, one: PlacedCase): Cell {
  return {
    text: one.record.animal.animal,
    href: `#${one.id}`,
    after: words.say('jobs.case', { place: one.place }),
  };
}
