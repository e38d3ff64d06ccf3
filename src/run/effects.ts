import type { CalendarDay } from '../record/calendar-day.js';
import type { ArchiveDisk } from '../bag/bag-form.js';
import type { CaseFiles } from '../casefile/source-text.js';
import type { FarmMemory } from '../casefile/remembered-farm.js';
import type { Disk } from '../keep/disk/disk.js';
import type { BrowserFound } from '../pdf/find-browser.js';
import type { Dialogue } from './dialogue.js';

/** A mail server as the user set it, with what it takes to log in. Never printed whole. */
export interface MailServer {
  readonly host: string;
  readonly port: number;
  /** TLS from the first byte, or begun by STARTTLS; there is no third. */
  readonly tls: 'implicit' | 'starttls';
  readonly login?: { readonly user: string; readonly password: string };
  /** A certificate to trust besides those every program trusts, PEM. */
  readonly trust?: string;
}

/** What is handed to a server. */
export interface Envelope {
  readonly from: string;
  readonly to: readonly string[];
  readonly bytes: Buffer;
}

export type MailTroubleKind =
  | 'unknown-host'
  | 'nothing-listens'
  | 'no-answer'
  | 'no-tls'
  | 'certificate'
  | 'login'
  | 'login-wanted'
  | 'too-large'
  | 'sender-refused'
  | 'address-refused'
  | 'message-refused'
  | 'later'
  | 'cut-off';

/** Why a message did not go. */
export interface MailTrouble {
  readonly kind: MailTroubleKind;
  /** What the server, or the machine, said: one line, without a word of the login. */
  readonly said: string;
}

export type Delivery =
  /** The server has answered 250 to the whole message: it is its to deliver, to these. */
  | {
      readonly outcome: 'taken';
      readonly to: readonly string[];
      readonly refused: readonly { readonly address: string; readonly said: string }[];
    }
  /** It went to nobody. */
  | { readonly outcome: 'failed'; readonly trouble: MailTrouble }
  /** All of it was handed over and no answer came: nobody here can know. */
  | { readonly outcome: 'unknown'; readonly trouble: MailTrouble };

/** Hands a message to a server. Never throws for what a network or a server does. */
export type Mailer = (server: MailServer, envelope: Envelope) => Promise<Delivery>;

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

/** What watching for saved files needs of the machine; a test hands in its own. */
export interface WatchMachine {
  /**
   * Tells of every file under a folder that was saved, is new or is gone, by its path from there with `/`; resolves once
   * nothing saved from then on is missed. The function it gives ends it.
   */
  readonly watch: (folder: string, onSaved: (path: string) => void) => Promise<() => Promise<void>>;
  /** Resolves when the user wants the program to end. */
  readonly stopped: Promise<void>;
  /** A clock for how long something took, and for nothing else. */
  readonly milliseconds: () => number;
}

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

/** Everything a command does to the world outside itself; a test hands in its own. */
export interface Effects {
  /** Folder that relative paths start from. */
  readonly folder: string;
  /** The day it is where the user sits. */
  readonly today: () => CalendarDay;
  readonly files: CaseFiles;
  /** What was made earlier of the farms in a cases folder; undefined where nothing is kept. */
  readonly cache?: (cases: string) => FarmMemory;
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
  /** Whether a command is typed at a shell of Windows. */
  readonly onWindows?: boolean;
  /** Width of the terminal problems go to; undefined when it is not one. */
  readonly terminalWidth: number | undefined;
}
