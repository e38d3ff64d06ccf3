import type { Claw, Foot, Site, WallLine } from '../record/words.js';

/** One foot and the lesions in it. */
export interface FootMapInput {
  /** Unique on the page. */
  readonly id: string;
  readonly foot: Foot;
  readonly lesions: readonly FootMapLesion[];
}

export interface FootMapLesion {
  readonly lesion: string;
  /** Its full name, as the page has it. */
  readonly name: string;
  readonly claw?: Claw;
  readonly site?: Site;
  /** Healed, or followed under another name: drawn dotted and hollow where it was. */
  readonly healed: boolean;
  /** A measured gap in the wall. */
  readonly gap?: FootMapGap;
}

/** How far down the wall the top of a gap stands, and where it stood first: horn carries it down. */
export interface FootMapGap {
  readonly line: WallLine;
  readonly wallMm: number;
  readonly topMm: number;
  /** Absent with one reading. */
  readonly firstMm?: number;
}
