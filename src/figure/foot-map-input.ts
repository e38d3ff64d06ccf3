import type { Claw, Foot, Site } from '../record/words.js';

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
  /** Drawn dashed and empty. */
  readonly healed: boolean;
}
