import type { ActionBox } from '../book/animal-page-data.js';
import type { DataTable, Fact } from '../book/page-parts.js';
import type { PageBasis } from '../book/printed-page.js';

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
  /** Her number and her farm. */
  readonly heading: string;
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
  readonly history?: { readonly heading: string; readonly table: DataTable };
  readonly state: { readonly heading: string; readonly facts: readonly Fact[] };
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
