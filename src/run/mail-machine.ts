import type { Mailer } from './mailer.js';

/** A file that holds a password, or why it is not read. */
export type PrivateFile =
  | { readonly outcome: 'not-there' }
  | { readonly outcome: 'not-readable'; readonly why: string }
  /** Others on this computer can read it, or it is another's. `mode` as `chmod` takes it. */
  | { readonly outcome: 'open-to-others'; readonly mode: string }
  | { readonly outcome: 'another-users' }
  /** `checked`: whether who can read it could be seen at all. */
  | { readonly outcome: 'read'; readonly text: string; readonly checked: boolean };

/** What sending mail needs of the machine; a test hands in its own. */
export interface MailMachine {
  readonly env: Readonly<Record<string, string | undefined>>;
  /** Where the private file lies unless it is named. */
  readonly usualFile: string;
  /** By an absolute path. */
  readonly readPrivate: (path: string) => PrivateFile;
  /** By an absolute path; undefined where none can be read. */
  readonly readText: (path: string) => string | undefined;
  readonly send: Mailer;
}
