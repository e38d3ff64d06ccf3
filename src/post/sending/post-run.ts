import type { Archive } from '../../herd/archive-on.js';
import type { Printer } from '../../pdf/open-printer.js';
import type { Mailbox } from '../mailbox.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import type { Practice } from '../../record/practice.js';
import type { SendForm } from '../../record/words.js';
import type { Effects } from '../../run/effects.js';
import type { MailSetting } from './mail-setting.js';

/** What the user asked `post` for. */
export interface PostOptions {
  readonly cases: string;
  readonly today?: CalendarDay;
  readonly json?: true;
  readonly out: string;
  readonly allDue?: true;
  readonly send?: true;
  readonly again?: true;
  /** A letter that may have gone did come: noted as sent. */
  readonly came?: true;
  readonly dryRun?: true;
  readonly openOnly?: true;
  readonly maxMb?: number;
  /** In the place of the farm's own `send`. */
  readonly attach?: SendForm;
}

/** What is the same for every farm of one run. */
export interface PostRun {
  readonly options: PostOptions;
  readonly effects: Effects;
  readonly practice: Practice;
  readonly today: CalendarDay;
  readonly archive: Archive;
  /** Whose letters they are; absent where nothing is sent and the business has no address. */
  readonly from?: Mailbox;
  readonly replyTo?: Mailbox;
  /** Where something is to be sent. */
  readonly setting?: MailSetting;
  /** A browser to print with, begun when the first farm wants a PDF. */
  readonly printer: () => Promise<Printer>;
}

/** Why a farm got no letter; what is said of it is whole, with the way out. */
export class NoLetter extends Error {
  constructor(
    readonly why: NoLetterWhy,
    message: string,
  ) {
    super(message);
  }
}

export type NoLetterWhy =
  | 'no-address'
  | 'bad-address'
  | 'no-browser'
  | 'calendar-damaged'
  | 'too-large'
  | 'none-in-doubt'
  | 'same-again'
  | 'perhaps-gone'
  | 'not-sealed'
  | 'locked'
  | 'cannot-remember'
  | 'failed'
  | 'unknown'
  | 'not-noted';
