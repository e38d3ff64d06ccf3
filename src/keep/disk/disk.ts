import type { CaseFiles } from '../../casefile/source-text.js';
import type { CalendarDay } from '../../record/calendar-day.js';

/** All that keeping case files needs of the machine; the command line hands in the real one, a test its own. */
export interface Disk {
  readonly files: CaseFiles;
  /** Replaces a file whole and synced, or leaves it as it was; makes its folder. */
  readonly replace: (path: string, content: string | Uint8Array) => void;
  /** Writes a file that is not there yet; throws with the code `EEXIST` where something exists. Makes its folder. */
  readonly create: (path: string, content: string) => void;
  /** Adds lines to the end of a file and returns when they and the file's name are synced; makes its folder. A line left half written there is ended first. */
  readonly append: (path: string, lines: string) => void;
  /** Makes a folder and those above it; one that is there is no trouble. */
  readonly makeFolder: (path: string) => void;
  /** Takes a file away, synced; one that is not there is no trouble. */
  readonly remove: (path: string) => void;
  /** Takes a folder away where it is empty. */
  readonly removeFolder: (path: string) => void;
  readonly rename: (from: string, to: string) => void;
  /** Takes away what programs that were ended in the middle of their work left in a folder. */
  readonly sweep: (folder: string) => void;
  /** This program as others may see it, and whether another on this machine still runs. */
  readonly process: {
    readonly pid: number;
    readonly host: string;
    readonly isRunning: (pid: number) => boolean;
  };
  /** Milliseconds since 1970, for the age of a lock alone. */
  readonly now: () => number;
  /** The day it is by the machine's clock, for seals alone; never the day a command works as on. */
  readonly today: () => CalendarDay;
  readonly wait: (milliseconds: number) => Promise<void>;
  /** A word nobody else has. */
  readonly token: () => string;
}
