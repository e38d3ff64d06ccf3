import type { CalendarDay } from '../record/calendar-day.js';

/** What serving forms needs of the machine; a test hands in its own. */
export interface YardMachine {
  /** The word in the address nobody can guess. Remembered in a file for the day, so that a form drawn before the program was started again can still be sent. */
  readonly token: (file: string, day: CalendarDay) => string;
  /** A random id for a form. */
  readonly formId: () => string;
  /** Whether a file may be written in a folder. */
  readonly mayWrite: (folder: string) => boolean;
  /** This computer's addresses in its own network. */
  readonly addresses: () => readonly string[];
  /** Resolves when the user wants the program to end: the first SIGINT or SIGTERM. */
  readonly stopped: Promise<void>;
}
