import { isDeepStrictEqual } from 'node:util';
import type { z } from 'zod';
import type { FolderItem, CaseFiles } from '../casefile/source-text.js';
import { openCasesFolder } from '../casefile/find-farms.js';
import { neverWritten } from '../casefile/check/check-text.js';
import { doubtAsFinding } from '../casefile/check/signs-and-answers.js';
import { readPractice } from '../casefile/read-practice.js';
import type { Problem } from '../problem/problem.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { doubtIds, doubtsOf } from '../record/doubts.js';
import type { Practice } from '../record/practice.js';
import { asIf } from '../casefile/as-if.js';
import {
  type Cannot,
  type Change,
  type FileChange,
  type Keeping,
  type Not,
  type Worked,
  cannot,
} from './change.js';
import { type KeptFile, type Opened, openKept } from './kept-file.js';
import { type Step, stepsInRecord } from '../record/record-step.js';
import { stepsInText } from './step.js';

/**
 * Takes the steps in the text of a file and holds the result against what was there before.
 *
 * Held: the new text reads; its record is the old one with the steps taken and nothing else; the narrative is the
 * same. Every byte outside the splices is the same because the text is made of them alone.
 */
export function changeOfFile(
  { kept, steps }: { readonly kept: KeptFile; readonly steps: readonly Step[] },
  keeping: Keeping,
): FileChange | Not {
  const { file, path, bytes: before, record, schema, kind, narrative } = kept;
  const text = stepsInText(kept.text, steps, schema);
  if (text === undefined) return cannot('keep.by-hand.form', { file });
  const change = { file, path, before, after: new TextEncoder().encode(kept.mark + text) };
  const read = openKept(asIf(keeping.files, [change]), { path, shown: file }, schema, kind);
  if (read.outcome !== 'open') return read;
  const same = isDeepStrictEqual(plain(read.kept.record), plain(stepsInRecord(record, steps)));
  return same && read.kept.narrative === narrative ? change : cannot('keep.by-hand.read-back', { file });
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
  const added = [
    ...problemsAdded(before.problems, after.problems).filter(({ id }) => !withdrawn(id, change)),
    ...doubtsOnEntry(before.practice, after.practice, today),
  ];
  const errors = added.flatMap((one): Problem[] =>
    one.severity === 'error' || neverWritten.includes(one.id) ? [{ ...one, severity: 'error' }] : [],
  );
  const said = new Set(before.problems.map(({ message }) => message));
  const doubts: readonly string[] = doubtIds;
  const asked = added.filter(({ id, message }) => doubts.includes(id) && !said.has(message));
  if (errors.length > 0) return { outcome: 'refused', problems: [...errors, ...asked] };
  return asked.length > 0 && !keeping.evenSo
    ? { outcome: 'refused', problems: asked, asked: true }
    : { outcome: 'change', change: { ...change, remarks: added } };
}

/** Seals that are broken until the change withdraws them, which it does as it is written. */
function withdrawn(id: string, { withdraws, undoes }: Omit<Change, 'remarks'>): boolean {
  return (
    withdraws !== undefined && (id === 'seal/missing' || (undoes !== undefined && id.startsWith('seal/')))
  );
}

/** What is doubted of visits that are not there yet: of an animal's last one where several come at once, as with a case opened. */
function doubtsOnEntry(before: Practice, after: Practice, today: CalendarDay): Problem[] {
  const casesBefore = before.farms.flatMap(({ slug: farm, cases }) => cases.map((one) => ({ ...one, farm })));
  return after.farms.flatMap(({ slug: farm, cases }) =>
    cases.flatMap(({ slug, animal, source }) => {
      const known = casesBefore.find((one) => one.farm === farm && one.slug === slug)?.animal;
      const days = new Set(known?.visits.map(({ date }) => date));
      const entered = animal.visits.findLastIndex(({ date }) => !days.has(date));
      const isMoved =
        !known && casesBefore.some((one) => isDeepStrictEqual(one.animal.visits, animal.visits));
      if (entered < 0 || isMoved) return [];
      // As many as before: one was put on another day, which is no entry; its year may still be wrong.
      const isSame = known?.visits.length === animal.visits.length;
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

/** Lines move with a change, and so may days and counts in a message: problems are distinguished by file and id, and counted. */
function problemsAdded(before: readonly Problem[], after: readonly Problem[]): Problem[] {
  const key = ({ file, id }: Problem): string => `${file}\n${id}`;
  const whole = (problem: Problem): string => `${key(problem)}\n${problem.message}`;
  const said = new Set(before.map(whole));
  const left = new Map<string, number>();
  const count = (problem: Problem, by: number): number => {
    const now = (left.get(key(problem)) ?? 0) + by;
    left.set(key(problem), now);
    return now;
  };
  const fresh = after.filter((problem) => !said.has(whole(problem)));
  for (const problem of before) count(problem, 1);
  for (const problem of after) if (said.has(whole(problem))) count(problem, -1);
  return fresh.filter((problem) => count(problem, -1) < 0);
}

/** What is to change in a file that was opened, or why nothing can. */
type Asked = Cannot | (Pick<Change, 'what' | 'withdraws'> & { readonly steps: readonly Step[] });

/** A change of one file, worked out whole: its steps are asked for once it is open. */
export function changeIn<S extends z.ZodType>(
  opened: Opened<S>,
  farms: string | readonly string[],
  keeping: Keeping,
  ask: (kept: KeptFile<S>) => Asked,
): Worked {
  if (opened.outcome !== 'open') return opened;
  const asked = ask(opened.kept);
  if ('outcome' in asked) return asked;
  const { steps, ...about } = asked;
  const change = changeOfFile({ kept: opened.kept, steps }, keeping);
  return 'outcome' in change
    ? change
    : workedOut({ ...about, farms: [farms].flat(), files: [change] }, keeping);
}
