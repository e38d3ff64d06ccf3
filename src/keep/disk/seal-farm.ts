import type { FoundFarm } from '../../casefile/find-case-files.js';
import { readFarm } from '../../casefile/read-farm.js';
import { ledgerFile, readLedgerFile } from '../../casefile/read-ledger-file.js';
import { entryLine } from '../../ledger/entry-line.js';
import { type Head, headOf } from '../../ledger/head-of.js';
import type { Content, LedgerEntry } from '../../ledger/ledger-entry.js';
import { newEntries } from '../../ledger/new-entries.js';
import type { FarmSeals } from '../../ledger/seals-of-farm.js';
import { type BrokenSeal, brokenSeals, withdrawals } from '../../ledger/withdrawals.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import type { CaseFiles } from '../../casefile/case-files.js';
import type { Disk } from './disk.js';

/** What is to be sealed on a farm. */
export interface SealAsked {
  /** Names of animals' files without `.md`; undefined: all. */
  readonly animals: ReadonlySet<string> | undefined;
  readonly farmFile: boolean;
  /** Take broken seals back in the open: these, with who and why. */
  readonly withdraw?: {
    readonly content: Content;
    readonly which: (one: BrokenSeal, seals: FarmSeals) => boolean;
  };
}

/** What sealing a farm came to; nothing is written by working it out. */
export type Sealing =
  | {
      readonly outcome: 'sealed';
      /** Files left unsealed, because something else is wrong with them. */
      readonly leftOut: readonly string[];
      readonly added: readonly LedgerEntry[];
      readonly head: Head | undefined;
      readonly text: string;
    }
  | { readonly outcome: 'not sealed'; readonly why: string };

/**
 * Works out which entries go behind a farm's ledger.
 *
 * A file with an error is left unsealed, so that mending it needs no correction in the open; a record whose seal is
 * broken is left as it is, and the others of its file are sealed.
 *
 * Shape: the folder as it lies; `today` is the day the records are checked on, `day` the machine's, which the seals bear
 *        → new entries and the ledger's text with them
 */
export function workOutSealing(
  files: CaseFiles,
  farm: FoundFarm,
  { today, day }: { readonly today: CalendarDay; readonly day: CalendarDay },
  { animals, farmFile, withdraw }: SealAsked,
): Sealing {
  const file = readLedgerFile(files, farm.entry);
  const shown = `${farm.entry.shown}/${ledgerFile}`;
  if (file.outcome === 'unreadable')
    return { outcome: 'not sealed', why: `${shown} could not be read (${file.reason})` };
  if (file.ledger.faults.length > 0)
    return {
      outcome: 'not sealed',
      why: `${shown} is broken, and nothing is sealed behind a broken chain; \`growdown check\` says where`,
    };
  const reading = readFarm(files, farm, today, animals ?? 'hashed');
  const faulty = new Set(
    reading.problems
      .filter(({ id, severity }) => severity === 'error' && !id.startsWith('seal/'))
      .map(({ file: where }) => where),
  );
  const isSound = (name: string): boolean => !faulty.has(`${farm.entry.shown}/${name}.md`);
  const sound = new Set(
    [...reading.seals().animals.keys()].filter((slug) => isSound(slug) && (animals?.has(slug) ?? true)),
  );
  const standing = reading.seals();
  // Whose file does not read is not gone; which of those without a file that is cannot be told then.
  const unread = standing.animals.size < farm.animals.length ? standing.missingAnimals : [];
  const isUnread = ({ sealed: { first } }: BrokenSeal): boolean =>
    unread.some(({ name }) => name === first.animal);
  const taken = withdraw
    ? withdrawals(
        standing,
        brokenSeals(standing).filter((one) => !isUnread(one) && withdraw.which(one, standing)),
        { sealed: day, content: withdraw.content },
      )
    : [];
  const seals =
    taken.length === 0
      ? standing
      : reading.sealsWith({ entries: [...file.ledger.entries, ...taken], faults: [] });
  const added = [
    ...taken,
    ...newEntries(seals, { sealed: day, farmFile: farmFile && isSound('farm'), animals: sound }),
  ];
  const whole = file.text === '' || file.text.endsWith('\n') ? file.text : `${file.text}\n`;
  const text = whole + added.map((entry) => `${entryLine(entry)}\n`).join('');
  return {
    outcome: 'sealed',
    leftOut: [...faulty].toSorted(),
    added,
    head: headOf({ entries: [...file.ledger.entries, ...added], faults: [] }),
    text,
  };
}

/** Puts the ledger in its place, whole and synced; nothing is touched where nothing is new. */
export function writeSealing(
  disk: Disk,
  farm: FoundFarm,
  sealing: Extract<Sealing, { outcome: 'sealed' }>,
): void {
  const path = `${farm.entry.path}/${ledgerFile}`;
  if (sealing.added.length > 0) disk.replace(disk.files.realPath(path) ?? path, sealing.text);
}
