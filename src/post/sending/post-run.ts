import type { Pooled } from '../../herd/pooled-on.js';
import type { Printer } from '../../pdf/open-printer.js';
import { type Mailbox, mailboxesOf } from '../mailbox.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import type { Practice, FarmRecord } from '../../record/practice.js';
import type { SendForm } from '../../record/words.js';
import type { Effects } from '../../run/effects.js';
import type { MailSetting } from './mail-setting.js';
import {
  type MailedHead,
  mailedHeads,
  type Posted,
  type PostedLine,
  postedLine,
  readPosted,
} from '../posted.js';
import { readFarm } from '../../casefile/read-farm.js';
import { sealFarms } from '../../keep/disk/seal-farm.js';
import { findFarm } from '../../keep/kept-file.js';
import { keepingOf } from '../../run/write-change.js';
import { terminal } from '../../problem/message.js';

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
  readonly pooled: Pooled;
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

/** Where a farm's mail goes. Error: NoLetter where its record names nobody, or something that is no address. */
export function addressOfFarm({ farm, source }: FarmRecord): readonly [Mailbox, ...Mailbox[]] {
  const { email, name } = farm.contact ?? {};
  const { line, column } = source.placeOf(['contact', 'email']);
  if (email === undefined)
    throw new NoLetter('no-address', terminal('mail.no-address', { file: source.file }));
  const to = mailboxesOf(email, name ?? farm.farm);
  if (to === undefined)
    throw new NoLetter(
      'bad-address',
      terminal('mail.bad-address', { file: source.file, line, column, found: email }),
    );
  return to;
}

/**
 * A farm's `posted.jsonl` and its lock, which is not that of its case files: sending takes longer than those may be held.
 *
 * Error: `NoLetter` where another program holds the lock; what the file system throws
 */
export function postedOnDisk({ disk }: Effects, casesFolder: string, slug: string) {
  const folder = `${casesFolder}/${slug}/.growdown`;
  const path = `${folder}/posted.jsonl`;
  return {
    path,
    read: (): Posted =>
      readPosted(disk.files.look(path) === undefined ? '' : new TextDecoder().decode(disk.files.read(path))),
    /** Adds a line and returns when it is on the disk. Error: what the file system throws */
    add: (line: PostedLine) => disk.append(path, postedLine(line)),
    /** Takes the lock of this farm's mail, does the work, lets go. */
    alone: async <T>(work: () => Promise<T>): Promise<T> => {
      const { takeLock } = await import('../../keep/disk/lock.js');
      const lock = await takeLock(disk, `${folder}/post.lock`).catch((error: unknown) => {
        throw cannotRemember(path, error);
      });
      if (lock.outcome === 'busy') throw new NoLetter('locked', lock.message);
      try {
        return await work();
      } finally {
        lock.release();
      }
    },
  };
}

/** What the program remembers of one farm's mail. */
export type PostedOnDisk = ReturnType<typeof postedOnDisk>;

/** Mail that went to a farm and named the head of its ledger, as far as is remembered; what cannot be read counts for none. */
export function mailedHeadsOf(effects: Effects, casesFolder: string, slug: string): MailedHead[] {
  return mailedHeads(postedOnDisk(effects, casesFolder, slug).read());
}

/** A place where nothing can be remembered: then nothing is sent, since it could go twice. Any other error stays what it is. */
function cannotRemember(path: string, error: unknown): unknown {
  const { code } = error as NodeJS.ErrnoException;
  return code === undefined
    ? error
    : new NoLetter('cannot-remember', terminal('mail.cannot-remember', { path, code }));
}

/** Adds a line before anything else is done. Error: NoLetter where it cannot be written */
export function note(posted: PostedOnDisk, line: PostedLine): void {
  try {
    posted.add(line);
  } catch (error) {
    throw cannotRemember(posted.path, error);
  }
}

/**
 * Seals what is unsealed on a farm before it is written to, and reads it again, so that the head in the letter stands for
 * all the letter tells. With `--dry-run` nothing is sealed.
 *
 * Error: NoLetter where the ledger cannot be written, is broken, or another program holds the farm; or where a file was
 *        saved with an error meanwhile
 */
export async function sealForMail({ options, effects }: PostRun, slug: string) {
  const keeping = keepingOf(options, effects);
  if (!options.dryRun) {
    const [done] = await sealFarms(effects.disk, keeping, [slug]);
    for (const line of done?.told ?? []) effects.warn(`${slug}: ${line}\n`);
    if (done?.why !== undefined)
      throw new NoLetter('not-sealed', terminal('mail.not-sealed', { why: done.why }));
  }
  const found = findFarm(keeping, slug);
  const reading =
    found.outcome === 'found' ? readFarm(effects.files, found.farm, keeping.today, 'hashed') : undefined;
  if (reading?.record === undefined) throw new NoLetter('not-sealed', terminal('mail.changed'));
  return { farm: reading.record, seals: reading.seals() };
}

/** A farm as a letter describes it: its records as they lie, each beside its seal. */
export type FarmToTell = Awaited<ReturnType<typeof sealForMail>>;
