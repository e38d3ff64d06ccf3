import { isDeepStrictEqual } from 'node:util';
import type { FolderItem, CaseFiles } from '../casefile/source-text.js';
import { openCasesFolder } from '../casefile/find-farms.js';
import { doubtAsFinding } from '../casefile/check/signs-and-answers.js';
import { readPractice } from '../casefile/read-practice.js';
import type { Problem } from '../problem/problem.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { doubtIds, doubtsOf } from '../record/doubts.js';
import type { Practice } from '../record/practice.js';
import { asIf } from '../casefile/as-if.js';
import { type Change, type FileChange, type Keeping, type Worked, cannot } from './change.js';
import { type KeptFile, openKept } from './kept-file.js';
import { type Step, stepsInRecord } from '../record/record-step.js';
import { stepsInText } from './step.js';

/** What is to become of one file that is there. */
export interface FileSteps {
  readonly kept: KeptFile;
  readonly steps: readonly Step[];
}

/**
 * Takes the steps in the text of a file and holds the result against what was there before.
 *
 * Held: the new text reads; its record is the old one with the steps taken and nothing else; the narrative is the
 * same. Every byte outside the splices is the same because the text is made of them alone.
 */
export function changeOfFile({ kept, steps }: FileSteps, keeping: Keeping): FileChange | Worked {
  const written = stepsInText(kept.text, steps, kept.schema);
  if (!written) return cannot('keep.by-hand.form', { file: kept.file });
  const change = {
    file: kept.file,
    path: kept.path,
    before: kept.bytes,
    after: new TextEncoder().encode(kept.mark + written.text),
  };
  const read = openKept(asIf(keeping.files, [change]), { ...kept, shown: kept.file }, kept.schema, kept.kind);
  if (read.outcome !== 'open') return read;
  const expected = plain(stepsInRecord(kept.record, steps));
  const same = isDeepStrictEqual(plain(read.kept.record), expected);
  return same && read.kept.narrative === kept.narrative
    ? change
    : cannot('keep.by-hand.read-back', { file: kept.file });
}

/** Without keys that hold nothing, which no file can tell. */
function plain(record: unknown): unknown {
  return JSON.parse(JSON.stringify(record));
}

/**
 * Holds the practice, read as it would be, against the practice as it is: a change that brings an error is refused
 * with it, one that brings what looks like a slip is asked about, one that brings another warning or a note tells it.
 *
 * Read are the farms the change touches, with `business.md`: no error hangs on another farm. What looks wrong between
 * farms, a warning at most, is looked for where a farm or an animal is new (`among: 'all'`), and by `growdown check`.
 */
export function workedOut(
  change: Omit<Change, 'remarks'>,
  keeping: Keeping,
  { among }: { readonly among: 'its farms' | 'all' } = { among: 'its farms' },
): Worked {
  const { cases, today } = keeping;
  const files = among === 'all' ? keeping.files : onlyFarms(keeping, change.farms);
  const before = readPractice(files, cases, { today });
  const after = readPractice(asIf(files, change.files), cases, { today });
  const isOpen = ({ id }: Problem): boolean => change.withdraws === undefined || !withdrawn(id, change);
  const added = [
    ...problemsAdded(before.problems, after.problems).filter(isOpen),
    ...doubtsOnEntry(before.practice, after.practice, today),
  ];
  const errors = added.filter(({ severity }) => severity === 'error');
  const said = new Set(before.problems.map(({ message }) => message));
  const asked = added.filter(({ id, message }) => isDoubt(id) && !said.has(message));
  if (errors.length > 0) return { outcome: 'refused', problems: [...errors, ...asked] };
  return asked.length > 0 && !keeping.evenSo
    ? { outcome: 'refused', problems: asked, asked: true }
    : { outcome: 'change', change: { ...change, remarks: added } };
}

/** Seals that are broken until the change withdraws them, which it does as it is written. */
function withdrawn(id: string, { undoes }: Pick<Change, 'undoes'>): boolean {
  return id === 'seal/missing' || (undoes !== undefined && id.startsWith('seal/'));
}

function isDoubt(id: string): boolean {
  return (doubtIds as readonly string[]).includes(id);
}

/** What is doubted of visits that are not there yet: of an animal's last one where several come at once, as with a case opened. */
function doubtsOnEntry(before: Practice, after: Practice, today: CalendarDay): Problem[] {
  const casesBefore = before.farms.flatMap(({ cases }) => cases);
  return after.farms.flatMap(({ slug: farm, cases }) =>
    cases.flatMap(({ slug, animal, source }) => {
      const known = before.farms.find((one) => one.slug === farm)?.cases.find((one) => one.slug === slug);
      const days = new Set(known?.animal.visits.map(({ date }) => date));
      const entered = animal.visits.findLastIndex(({ date }) => !days.has(date));
      const isMoved =
        !known && casesBefore.some((one) => isDeepStrictEqual(one.animal.visits, animal.visits));
      if (entered < 0 || isMoved) return [];
      // As many as before: one was put on another day, which is no entry; its year may still be wrong.
      const isSame = known?.animal.visits.length === animal.visits.length;
      const others = cases.flatMap((one) => (one.slug === slug ? [] : one.animal));
      return doubtsOf(animal, { today, entered, others })
        .filter(({ id }) => id === 'entry/other-year' || (!isSame && id.startsWith('entry/')))
        .map((doubt): Problem => {
          const { at: _at, ...problem } = doubtAsFinding(doubt);
          return { ...problem, file: source.file, place: source.placeOf(doubt.path) };
        });
    }),
  );
}

/** The case files without the folders of other farms. */
function onlyFarms({ files, cases }: Keeping, farms: readonly string[]): CaseFiles {
  const opened = openCasesFolder(files, cases);
  if (opened.outcome === 'problem') return files;
  const isOther = ({ name, kind }: FolderItem): boolean =>
    (kind === 'folder' || kind === 'link') && !farms.includes(name);
  return {
    ...files,
    list: (folder) =>
      folder === opened.folder ? files.list(folder).filter((entry) => !isOther(entry)) : files.list(folder),
  };
}

/** The case files with one animal's alone, so that a visit half said is worked out at once among however many. */
export function withHerAlone(keeping: Keeping, farm: string, slug: string): Keeping {
  const files = onlyFarms(keeping, [farm]);
  const isHers = ({ name, kind }: FolderItem): boolean =>
    kind !== 'file' || name === 'farm.md' || name === `${slug}.md`;
  const list: CaseFiles['list'] = (folder) => {
    const items = files.list(folder);
    return items.some(({ name }) => name === 'farm.md') ? items.filter(isHers) : items;
  };
  return { ...keeping, evenSo: true, files: { ...files, list } };
}

/** Lines move with a change, and so may days and counts in a message: problems are told apart by file and id, and counted. */
function problemsAdded(before: readonly Problem[], after: readonly Problem[]): Problem[] {
  const key = ({ file, id }: Problem): string => `${file}\n${id}`;
  const said = new Set(before.map((problem) => `${key(problem)}\n${problem.message}`));
  const left = new Map<string, number>();
  for (const problem of before) left.set(key(problem), (left.get(key(problem)) ?? 0) + 1);
  const fresh = (problem: Problem): boolean => !said.has(`${key(problem)}\n${problem.message}`);
  for (const problem of after) if (!fresh(problem)) left.set(key(problem), (left.get(key(problem)) ?? 0) - 1);
  return after.filter((problem) => {
    if (!fresh(problem)) return false;
    const more = left.get(key(problem)) ?? 0;
    left.set(key(problem), more - 1);
    return more <= 0;
  });
}

/** Steps in one file, worked out whole. */
export function workOutSteps(
  { kept, steps }: FileSteps,
  about: Pick<Change, 'what' | 'farms' | 'withdraws'>,
  keeping: Keeping,
): Worked {
  const change = changeOfFile({ kept, steps }, keeping);
  return 'outcome' in change ? change : workedOut({ ...about, files: [change] }, keeping);
}
