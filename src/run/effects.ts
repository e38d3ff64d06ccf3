import type { ArchiveDisk } from '../bag/archive-disk.js';
import type { CaseFiles } from '../casefile/case-files.js';
import type { Disk } from '../keep/disk/disk.js';
import type { BrowserFound } from '../pdf/find-browser.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { Dialogue } from './dialogue.js';
import type { MailMachine } from './mail-machine.js';
import type { WatchMachine } from './watch-machine.js';
import type { YardMachine } from './yard-machine.js';

/** Everything a command does to the world outside itself; a test hands in its own. */
export interface Effects {
  /** Folder that relative paths start from. */
  readonly folder: string;
  /** The day it is where the user sits. */
  readonly today: () => CalendarDay;
  readonly files: CaseFiles;
  /** Replaces a file whole or leaves it as it was; makes its folder. */
  readonly writeFile: (path: string, content: string | Uint8Array) => void;
  /** What changing case files needs of the machine. */
  readonly disk: Disk;
  /** What archives need of the machine: files read in pieces, folders written and moved. */
  readonly bags: ArchiveDisk;
  /** The browser that prints, or why there is none. */
  readonly browser: () => BrowserFound;
  /** All that comes in by standard input. */
  readonly readInput: () => Uint8Array;
  /** Somebody to ask; undefined where no terminal is there. */
  readonly dialogue: Dialogue | undefined;
  /** What serving forms to a phone needs; undefined where none are served. Begun when it is first asked for. */
  readonly yard?: YardMachine | undefined;
  /** What sending mail needs; undefined where none is sent. */
  readonly mail?: MailMachine | undefined;
  /** What watching for saved files needs; undefined where nothing is watched. Begun when it is first asked for. */
  readonly watch?: WatchMachine | undefined;
  /** Results. */
  readonly print: (text: string) => void;
  /** Problems and progress. */
  readonly warn: (text: string) => void;
  /** Width of the terminal problems go to; undefined when it is not one. */
  readonly terminalWidth: number | undefined;
}
