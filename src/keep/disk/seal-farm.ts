import type { CaseFiles } from '../../casefile/source-text.js';
import { recordInWords } from '../../casefile/check/check-seals.js';
import {
  ledgerProblem,
  ledgerUnreadable,
  ledgerFile,
  readLedgerFile,
} from '../../casefile/read-ledger-file.js';
import type { FoundFarm } from '../../casefile/find-farms.js';
import { readFarm } from '../../casefile/read-farm.js';
import { entryLine, type Content, type LedgerEntry } from '../../ledger/ledger-entry.js';
import { type Head, headOf } from '../../ledger/read-ledger.js';
import { newEntries, type BrokenSeal, brokenSeals, withdrawals } from '../../ledger/new-entries.js';
import type { FarmSeals } from '../../ledger/seals-of-farm.js';
import type { Problem } from '../../problem/problem.js';
import { type CalendarDay, calendarDay } from '../../record/calendar-day.js';
import { given } from '../../record/given.js';
import { cannot, type Change, fileChange, type FileChange, type Keeping, type Not } from '../change.js';
import { findFarm, findFolder, bytesOf, laidOver } from '../kept-file.js';
import type { Disk } from './disk.js';
import { alone, writeWhole } from './journal.js';
import { terminal } from '../../problem/message.js';

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
  | (Pick<SealedFarm, 'added' | 'head' | 'leftOut'> & {
      readonly outcome: 'sealed';
      /** The ledger with them. */
      readonly text: string;
    })
  | Not;

/**
 * Works out which entries go behind a farm's ledger.
 *
 * A file with an error is left unsealed, so that fixing it needs no correction in the open; a record whose seal is
 * broken is left as it is, and the others of its file are sealed. Nothing goes behind a chain that is broken, nor on a
 * day the ledger's own reader would refuse.
 *
 * Shape: the folder as it lies; `today` is the day the records are checked on, `day` the machine's, which the seals bear
 */
export function workOutSealing(
  files: CaseFiles,
  farm: FoundFarm,
  { today, day }: { readonly today: CalendarDay; readonly day: CalendarDay },
  { animals, farmFile, withdraw }: SealAsked,
): Sealing {
  if (!calendarDay.safeParse(day).success) return cannot('keep.seal.clock', { day });
  const file = readLedgerFile(files, farm.entry);
  const shown = `${farm.entry.shown}/${ledgerFile}`;
  if (file.outcome === 'unreadable')
    return { outcome: 'refused', problems: [ledgerUnreadable(shown, file.reason)] };
  const [fault] = file.ledger.faults;
  if (fault) return { outcome: 'refused', problems: [ledgerProblem(fault, shown)] };
  const reading = readFarm(files, farm, today, animals ?? 'hashed');
  const wrong = reading.problems.filter(
    ({ id, severity }) => severity === 'error' && !id.startsWith('seal/'),
  );
  const faulty = new Set(wrong.map((problem) => problem.file));
  const isSound = (name: string): boolean => !faulty.has(`${farm.entry.shown}/${name}.md`);
  const standing = reading.seals();
  const sound = [...standing.animals.keys()].filter((slug) => isSound(slug) && (animals?.has(slug) ?? true));
  // Whose file does not read is not gone; which of those without a file that is cannot be determined then.
  const unread = standing.animals.size < farm.animals.length ? standing.missingAnimals : [];
  const isUnread = ({ sealed: { first } }: BrokenSeal): boolean =>
    unread.some(({ name }) => name === first.animal);
  const { entries } = file.ledger;
  const broken = withdraw
    ? brokenSeals(standing).filter((one) => !isUnread(one) && withdraw.which(one, standing))
    : [];
  const taken = withdrawals(standing, broken, { sealed: day, content: withdraw?.content ?? {} });
  const seals =
    taken.length === 0 ? standing : reading.sealsWith({ entries: [...entries, ...taken], faults: [] });
  const asked = { sealed: day, farmFile: farmFile && isSound('farm'), animals: new Set(sound) };
  const added = [...taken, ...newEntries(seals, asked)];
  return {
    outcome: 'sealed',
    leftOut: [...faulty].toSorted(),
    added,
    head: headOf({ entries: added.length > 0 ? added : entries, faults: [] }),
    text: wholeLines(file.text) + added.map((entry) => `${entryLine(entry)}\n`).join(''),
  };
}

/** Text of whole lines: behind one cut short a line end is put. */
export function wholeLines(text: string): string {
  return text === '' || text.endsWith('\n') ? text : `${text}\n`;
}

/** The farm's ledger as it is to be written; none where nothing is new. */
function ledgerChange(
  files: CaseFiles,
  { entry }: FoundFarm,
  { added, text }: Extract<Sealing, { outcome: 'sealed' }>,
): FileChange[] {
  const before = bytesOf(files, `${entry.path}/${ledgerFile}`);
  return added.length === 0 ? [] : [fileChange(entry, ledgerFile, before, Buffer.from(text))];
}

/** What was sealed on one farm. */
export interface FarmSealed {
  readonly farm: string;
  readonly entries: number;
  readonly head: Head | undefined;
}

/**
 * The seals of a change, worked out of the files as they will be: all that is unsealed in those it writes, and the
 * scales a visit is based on. Other files of the farm may be half written by hand and are left to `growdown seal`.
 *
 * Error: refused where a chain is broken or the machine's day is none, so that nothing is written that cannot be sealed
 */
export function sealsOfChange(
  keeping: Keeping,
  change: Change,
  day: CalendarDay,
):
  | {
      readonly outcome: 'sealed';
      readonly sealed: readonly FarmSealed[];
      readonly ledgers: readonly FileChange[];
    }
  | Not {
  const { undoes, withdraws, what } = change;
  const sealed: FarmSealed[] = [];
  const ledgers: FileChange[] = [];
  const now = laidOver(keeping, change.files);
  for (const [farm, names] of touched(now, change)) {
    const broken = withdraws && brokenAlready(keeping, farm.slug);
    // What says otherwise is never excused but where it says again what it said.
    const withdraw = withdraws && {
      content: { ...withdraws, what },
      which: (one: BrokenSeal) =>
        (undoes !== undefined || !one.now) && broken?.has(one.sealed.first.number) !== true,
    };
    const farmFile = names.delete('farm');
    const asked = { animals: names, farmFile, ...given({ withdraw }) };
    const worked = workOutSealing(now.files, farm, { today: keeping.today, day }, asked);
    if (worked.outcome !== 'sealed') return worked;
    for (const ledger of ledgerChange(now.files, farm, worked)) ledgers.push(ledger);
    sealed.push({ farm: farm.slug, entries: worked.added.length, head: worked.head });
  }
  return { outcome: 'sealed', sealed, ledgers };
}

/** Before something is taken back: the records whose seal is broken already, by their first entry. */
function brokenAlready(keeping: Keeping, slug: string): ReadonlySet<number> {
  const found = findFarm(keeping, slug);
  if (found.outcome !== 'found') return new Set();
  const seals = readFarm(keeping.files, found.farm, keeping.today).seals();
  return new Set(brokenSeals(seals).map(({ sealed }) => sealed.first.number));
}

/** The farms a change writes records of, with the names of the files without `.md`. */
function touched(keeping: Keeping, change: Change): Map<FoundFarm, Set<string>> {
  const found = findFolder(keeping);
  const names = new Map<FoundFarm, Set<string>>();
  for (const farm of found.outcome === 'found' ? found.farms : [])
    for (const { path } of change.files) {
      const name = path.startsWith(`${farm.entry.path}/`) ? path.slice(farm.entry.path.length + 1) : '';
      if (/^[^/]+\.md$/.test(name))
        names.set(farm, (names.get(farm) ?? new Set()).add(name.slice(0, -'.md'.length)));
    }
  return names;
}

/** What came of sealing one farm by hand. */
export interface SealedFarm {
  readonly farm: string;
  readonly added: readonly LedgerEntry[];
  readonly head: Head | undefined;
  /** Files left unsealed because of an error in them. */
  readonly leftOut: readonly string[];
  /** Said to the user, well or not. */
  readonly told: readonly string[];
  /** Why nothing was sealed; undefined where all went well. */
  readonly why?: string;
}

/** What was taken out of the records on purpose, by whom and why. */
export interface TakenOut {
  /** The name of her file or her number; undefined: of `farm.md`. */
  readonly animal: string | undefined;
  readonly by: string;
  readonly why: string;
}

/**
 * Seals all that is unsealed on the farms named, each under its lock.
 *
 * `takenOut` withdraws in the open the seals of what is no longer there; what was changed is never withdrawn so.
 *
 * Error:   a farm that cannot be sealed says why, and the others are sealed
 * Checked: tests/cli/seal.test.ts
 */
export async function sealFarms(
  disk: Disk,
  keeping: Keeping,
  farms: readonly string[],
  options: { readonly dryRun?: boolean; readonly takenOut?: TakenOut } = {},
): Promise<SealedFarm[]> {
  const done: SealedFarm[] = [];
  for (const slug of farms) {
    const told: string[] = [];
    const worked = await sealing(disk, keeping, slug, told, options);
    const none = { farm: slug, added: [], head: undefined, leftOut: [], told };
    const { added, head, leftOut } = worked.outcome === 'sealed' ? worked : none;
    if (worked.outcome === 'sealed') done.push({ farm: slug, added, head, leftOut, told });
    else if (worked.outcome === 'cannot') done.push({ ...none, why: worked.message });
    else done.push({ ...none, why: worked.problems.map(inWords).join('; ') });
  }
  return done;
}

async function sealing(
  disk: Disk,
  keeping: Keeping,
  slug: string,
  told: string[],
  { dryRun = false, takenOut }: { readonly dryRun?: boolean; readonly takenOut?: TakenOut },
): Promise<Sealing> {
  const work = (files: CaseFiles): Sealing & { readonly farm?: FoundFarm } => {
    const found = findFolder({ ...keeping, files });
    const farm = found.outcome === 'found' ? found.farms.find((one) => one.slug === slug) : undefined;
    if (!farm) return cannot('keep.seal.no-farm', { farm: slug });
    const days = { today: keeping.today, day: disk.today() };
    return { ...workOutSealing(files, farm, days, allOrTakenOut(takenOut)), farm };
  };
  if (dryRun) return work(keeping.files);
  const found = findFolder(keeping);
  if (found.outcome !== 'found') return found;
  return await alone(disk, found.folder, [slug], (now): Sealing => {
    for (const line of now.told) told.push(line);
    const worked = work(disk.files);
    const ledger = worked.outcome === 'sealed' ? ledgerChange(disk.files, worked.farm!, worked) : [];
    if (ledger.length === 0) return worked;
    const about = { what: terminal('keep.what.sealing'), undo: false };
    const put = writeWhole(disk, found.folder, slug, about, ledger);
    if (put.outcome === 'cannot') return put;
    for (const line of put.told) told.push(line);
    return worked;
  });
}

function inWords({ file, place, message, mend }: Problem): string {
  return terminal('keep.seal.problem', {
    place: `${file}${place ? `:${place.line}` : ''}`,
    message,
    mend,
  });
}

function allOrTakenOut(takenOut: TakenOut | undefined): SealAsked {
  const all = { animals: undefined, farmFile: true };
  if (!takenOut) return all;
  const { animal, by, why } = takenOut;
  return {
    ...all,
    withdraw: {
      content: { by, why, what: 'taken out' },
      which: ({ sealed, now }: BrokenSeal, seals: FarmSeals) =>
        now === undefined && sealed.first.animal === nameOf(seals, animal),
    },
  };
}

/** The chain's name for an animal by her file, her number or the file she had. */
function nameOf({ animals, missingAnimals }: FarmSeals, animal: string | undefined): string | undefined {
  if (animal === undefined) return undefined;
  const gone = missingAnimals.find(({ files, numbers }) => files.has(animal) || numbers.has(animal));
  // A name nobody has: nothing is withdrawn.
  return gone?.name ?? animals.get(animal)?.name ?? '';
}

/** A sealed record as it is spoken of. */
export function entryInWords({ kind, content, on, animal }: LedgerEntry): string {
  const record = kind === 'withdrawn' ? terminal('keep.seal.withdrawn') : recordInWords(kind, content, on);
  return animal === undefined ? record : terminal('keep.seal.of-animal', { animal, record });
}
