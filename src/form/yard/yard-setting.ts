import type { Keeping } from '../../keep/change.js';
import type { Disk } from '../../keep/disk/disk.js';
import type { Words } from '../../words/words.js';
import type { YardReading } from './remembered-reading.js';

/** What answering a request needs. */
export interface YardSetting {
  readonly disk: Disk;
  /** As on the day of the request. */
  readonly keeping: () => Keeping;
  /** The case files as they lie now. */
  readonly reading: () => YardReading;
  readonly words: Words;
  readonly formId: () => string;
  /** Tells the user at the laptop. */
  readonly tell: (line: string) => void;
}
