import type { PictureWanted } from '../picture/fit-pictures.js';
import type { Language, Paper } from '../record/words.js';

/** A farm's book as finished page data: every string worded, every number formatted, nothing left to work out. */
export interface BookPage {
  readonly slug: string;
  readonly language: Language;
  readonly paper: Paper;
  /** The document's title. */
  readonly title: string;
  /** Farm and date, repeated in the margin of every printed page. */
  readonly running: string;
  /** Before the page number, where a browser prints one. */
  readonly pageWord: string;
  readonly skip: string;
  readonly back: string;
  readonly cover: Cover;
  /** Who needs what, by when, by whom; who is the vet's; who is withheld. */
  readonly next: JobList;
  readonly vetList: TableSection;
  readonly withheld: TableSection;
  readonly herd: HerdStrips;
  readonly contents: Contents;
  /** Worst first, each on a new page in print. */
  readonly animals: readonly AnimalPage[];
  readonly closed: readonly AnimalPage[];
  readonly closedHeading: string;
  readonly farm: FarmPage;
  /** Where a footbath is recorded. */
  readonly footbath?: FootbathPage;
  readonly last: LastPage;
  /** With it the file holds this one animal's page and nothing else of the book. */
  readonly alone?: CaseAlone;
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

/** A label and what stands beside it. */
export interface Fact {
  readonly label: string;
  readonly value: string;
  /** Further lines under the value. */
  readonly lines?: readonly string[];
}

export interface Cell {
  readonly text: string;
  /** A place in this book, `#…`. */
  readonly href?: string;
  /** Beside the link: the number of the case, since paper has no links. */
  readonly after?: string;
  /** A second, smaller line. */
  readonly note?: string;
  /** Further lines of the same weight, each its own. */
  readonly lines?: readonly string[];
  /** Instead of the text: several things, each with who or what it belongs to, and a smaller line under it. */
  readonly items?: readonly CellItem[];
  /** Set in bold: the words carry the meaning, the weight only helps the eye. */
  readonly strong?: boolean;
  /** The note is what matters here, as "overdue" is: as strong as the text. */
  readonly noteStrong?: boolean;
}

export interface CellItem {
  readonly lead: string;
  readonly text: string;
  readonly note?: string;
}

export interface Column {
  readonly head: string;
  readonly number?: boolean;
}

/** First cell of a row is its heading. */
export interface DataTable {
  readonly id: string;
  readonly caption: string;
  readonly columns: readonly Column[];
  readonly rows: readonly { readonly cells: readonly Cell[] }[];
}

/** A heading, sentences, and a table where there is something to list. */
export interface TableSection {
  readonly id: string;
  readonly heading: string;
  readonly lead: readonly string[];
  readonly table?: DataTable;
}

/** Who does what, to which animals, by when. */
export interface JobList {
  readonly id: string;
  readonly heading: string;
  readonly lead: string;
  readonly table?: {
    readonly id: string;
    readonly caption: string;
    readonly heads: Readonly<Record<'who' | 'by' | 'what' | 'animals', string>>;
    readonly groups: readonly JobGroup[];
  };
}

/** What is overdue, or one person's jobs. */
export interface JobGroup {
  readonly heading: string;
  readonly late: boolean;
  readonly rows: readonly JobRow[];
}

export interface JobRow {
  readonly by: string;
  readonly note?: string;
  readonly what: string;
  /** `marks`: what is hers alone, as the foot or a calving near; empty where nothing is. */
  readonly animals: readonly (Cell & { readonly marks: string })[];
}

export interface Cover {
  readonly kicker: string;
  readonly farm: string;
  readonly by: string;
  readonly facts: readonly Fact[];
}

/** A drawing with its words; `svg` is ours, never a user's. */
export interface BookFigure {
  readonly id: string;
  readonly heading: string;
  readonly svg: string;
  readonly notes: readonly string[];
  readonly tableSummary: string;
  /** On paper the table is left out: every number of it stands in the drawing, the visits or the list of lesions of the same page. */
  readonly tableOnScreenOnly: boolean;
  readonly table: DataTable;
}

export interface HerdStrips {
  readonly heading: string;
  readonly lead: string;
  readonly strips: readonly {
    readonly href: string;
    readonly number: string;
    readonly place: string;
    readonly standing: string;
    readonly svg: string;
  }[];
  readonly othersLead?: string;
  /** Open cases without a measured wall gap. */
  readonly others: readonly (Cell & { readonly standing: string })[];
}

export interface ContentsLine {
  readonly href: string;
  readonly place: string;
  readonly number: string;
  readonly lesions: string;
  readonly sentence: string;
}

export interface Contents {
  readonly heading: string;
  /** Of a short book: how many closed cases are not in it. */
  readonly leftOut?: string;
  /** Where no case is open, or none is there at all. */
  readonly empty?: string;
  readonly openHeading?: string;
  readonly open: readonly ContentsLine[];
  readonly closedHeading?: string;
  readonly closed: readonly ContentsLine[];
  readonly others: readonly { readonly href: string; readonly text: string }[];
}

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

export interface FactList {
  readonly heading: string;
  readonly facts: readonly Fact[];
}

export interface TextList {
  readonly heading: string;
  readonly items: readonly string[];
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

export interface AnimalPage {
  readonly id: string;
  readonly kicker: string;
  readonly number: string;
  readonly identity: string;
  /** Each lesion with its full name and place, one line each. */
  readonly lesionLines: readonly string[];
  /** How she stands, in two or three words. */
  readonly chip: string;
  /** One paragraph that can be read aloud. */
  readonly statement: string;
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
  readonly gaps?: TextList;
  /** What the farm does if her block comes off early; only while one is on. */
  readonly blockEarly?: ActionBox;
  /** The signs on which the farm rings the vet. */
  readonly callVet?: ActionBox;
  /** Rendered Markdown: the only HTML in the page data, and never the user's own. */
  readonly narrative?: { readonly heading: string; readonly html: string };
}

export interface FarmPage {
  readonly id: string;
  readonly heading: string;
  readonly facts: readonly FactList[];
  readonly tables: readonly FarmSection[];
  readonly narrative?: { readonly heading: string; readonly html: string };
}

/** A section with drawings, each with the table of its numbers; its own table holds what is in no drawing. */
export interface FarmSection extends TableSection {
  readonly figures?: readonly BookFigure[];
}

export interface FootbathPage {
  readonly id: string;
  readonly heading: string;
  readonly lead: string;
  readonly sections: readonly FarmSection[];
}

export interface LastPage {
  readonly id: string;
  readonly heading: string;
  readonly sections: readonly TextList[];
  readonly gaps?: TableSection;
  readonly glossary?: FactList;
  /** Folded on screen: every number the sums use. */
  readonly numbers: TableSection;
  readonly numbersFold: string;
  readonly sources?: TextList;
  readonly business: FactList;
  readonly narrative?: { readonly heading: string; readonly html: string };
  readonly sign: { readonly heading: string; readonly lead: string; readonly lines: readonly string[] };
}
