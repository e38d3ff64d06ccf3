import type { Keeping } from '../../keep/change.js';
import type { Disk } from '../../keep/disk/disk.js';
import type { Words } from '../../words/words.js';

/** What answering a request needs. */
export interface YardSetting {
  readonly disk: Disk;
  /** As on the day of the request. */
  readonly keeping: () => Keeping;
  readonly words: Words;
  readonly formId: () => string;
  /** Tells the user at the laptop. */
  readonly tell: (line: string) => void;
}
