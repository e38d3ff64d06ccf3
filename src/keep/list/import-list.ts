import { bareMark } from '../../record/same-animal.js';
import { type Animal, animal as animalSchema } from '../../record/animal.js';
import { type CalendarDay, daysBetween } from '../../record/calendar-day.js';
import { type Step, stepsInRecord } from '../../record/record-step.js';
import { listNumbers } from './read-list.js';
import type { ListRow } from './read-rows.js';
import { slugFrom, slugTrouble } from '../../casefile/folder-entries.js';
import type { FoundFarm } from '../../casefile/find-farms.js';
import type { Problem } from '../../problem/problem.js';
import { fileChange, type FileChange, type Keeping, type Not, type Worked } from '../change.js';
import { findFarm, openKept, type KeptFile } from '../kept-file.js';
import { recordText } from '../open-case.js';
import { changeOfFile, workedOut } from '../work-out.js';
import { inRow, terminal } from '../../problem/message.js';

/** What a row would change in a file. */
interface RowChanges {
  readonly fills: readonly { readonly key: string; readonly value: unknown }[];
  /** Days a list on file does not hold yet. */
  readonly adds: readonly { readonly key: string; readonly day: CalendarDay }[];
  readonly differs: readonly {
    readonly key: string;
    readonly has: string | number;
    readonly says: string | number;
    /** Of a list on file, which entry. */
    readonly index?: number;
  }[];
  /** A tag, electronic number or birth that differs: she may be another animal that bore the number. */
  readonly mayBeAnother: boolean;
}

const ownMarks: readonly string[] = ['tag', 'electronic', 'born'];

/**
 * What a row says that her file does not. A day near one on file is held for the same day written otherwise, and so differs.
 *
 * Checked: tests/cli/import.test.ts
 */
function rowChanges({ values }: ListRow, record: Animal): RowChanges {
  const fills: RowChanges['fills'][number][] = [];
  const adds: RowChanges['adds'][number][] = [];
  const differs: RowChanges['differs'][number][] = [];
  for (const [key, says] of Object.entries(values)) {
    if (key === 'animal') continue;
    const has = record[key as keyof Animal] as string | number | CalendarDay[] | undefined;
    if (has === undefined) fills.push({ key, value: says });
    else if (typeof says === 'string' || typeof says === 'number') {
      // Marks are the same with and without spaces.
      const isMark = key === 'tag' || key === 'electronic';
      const isSame = isMark ? bareMark(String(has)) === bareMark(String(says)) : has === says;
      if (!isSame) differs.push({ key, has: String(has), says });
    } else if (Array.isArray(has))
      for (const day of says.filter((one) => !has.includes(one))) {
        const index = has.findIndex(
          (one) => Math.abs(daysBetween(one, day)) <= listNumbers.sameDays.value && !says.includes(one),
        );
        if (index < 0) adds.push({ key, day });
        else differs.push({ key, has: has[index]!, says: day, index });
      }
  }
  return { fills, adds, differs, mayBeAnother: differs.some(({ key }) => ownMarks.includes(key)) };
}

/** The steps in her file: what fills, what is added and, where that is asked for, what differs. */
function stepsOf(
  { fills, adds, differs, mayBeAnother }: RowChanges,
  record: Animal,
  replace: boolean,
): Step[] {
  if (mayBeAnother && !replace) return [];
  const steps: Step[] = [
    ...fills.map(({ key, value }): Step => ({ put: 'key', path: [], key, value })),
    ...(replace ? differs : []).map(({ key, says, index }): Step => ({
      put: 'value',
      path: index === undefined ? [key] : [key, index],
      value: says,
    })),
  ];
  for (const { key, day } of adds) {
    const list = stepsInRecord(record, steps)[key as keyof Animal] as CalendarDay[];
    const later = list.findIndex((one) => one > day);
    steps.push({ put: 'entry', path: [key], index: later < 0 ? list.length : later, value: day });
  }
  return steps;
}

/** What becomes of a list's rows beyond filling the files there are. */
export interface Importing {
  readonly farm: string;
  /** As the user named it. */
  readonly list: string;
  /** Write what differs from a file in its place. */
  readonly replace: boolean;
  /** The numbers of animals whose case is to be opened. */
  readonly start: ReadonlySet<string> | 'all';
}

/** What becomes of one row. */
export type RowOutcome = { readonly row: ListRow } & (
  | {
      readonly became: 'compared';
      readonly file: string;
      readonly changes: RowChanges;
      readonly written: boolean;
    }
  | { readonly became: 'started'; readonly file: string }
  | { readonly became: 'no-case' }
  /** She is not taken, and why. */
  | { readonly became: 'bad'; readonly messages: readonly string[]; readonly problems: readonly Problem[] }
);

interface Imported {
  readonly outcome: 'worked';
  readonly rows: readonly RowOutcome[];
  /** Undefined where there is nothing to write. */
  readonly work: Extract<Worked, { outcome: 'change' }> | undefined;
}

/**
 * What a list of animals changes in a farm's files: the identity of those that have one, and new files for those asked for.
 *
 * Rows that cannot be taken are reported and left out; whether the others are then written is the caller's to say. A row
 * whose values would make her file wrong is one of them.
 *
 * Checked: tests/cli/import.test.ts
 */
export function importList(keeping: Keeping, rows: readonly ListRow[], importing: Importing): Imported | Not {
  const found = findFarm(keeping, importing.farm);
  if (found.outcome !== 'found') return found;
  const { farm } = found;
  const animals: KeptAnimal[] = [];
  const closed = new Map<string, readonly Problem[]>();
  for (const { slug, entry } of farm.animals) {
    const opened = openKept(keeping.files, entry, animalSchema, 'animal');
    if (opened.outcome === 'open') animals.push(opened.kept);
    else if (opened.outcome === 'refused') closed.set(slug, opened.problems);
  }
  const taken = new Set(farm.animals.map(({ slug }) => slug));
  const worked = rows.map((row) => rowWorked(row, { keeping, importing, farm, animals, closed, taken }));
  return heldAgainst(keeping, importing, worked);
}

type KeptAnimal = KeptFile<typeof animalSchema>;

interface Setting {
  readonly keeping: Keeping;
  readonly importing: Importing;
  readonly farm: FoundFarm;
  readonly animals: readonly KeptAnimal[];
  /** Files that do not read, by slug. */
  readonly closed: ReadonlyMap<string, readonly Problem[]>;
  /** Slugs in use, and those given to new files of this list. */
  readonly taken: Set<string>;
}

type RowWorked = RowOutcome & { readonly change?: FileChange };

function bad(row: ListRow, messages: readonly string[], problems: readonly Problem[] = []): RowWorked {
  return { row, became: 'bad', messages, problems };
}

function rowWorked(row: ListRow, setting: Setting): RowWorked {
  const { importing, animals, closed, keeping } = setting;
  if (row.troubles.length > 0) return bad(row, []);
  const number = String(row.values['animal'] ?? '');
  const unread = closed.get(slugFrom(number));
  if (unread) return bad(row, [terminal('keep.list.file-unread')], unread);
  const kept = matchRow(row, animals);
  if (typeof kept === 'string') return bad(row, [kept]);
  if (!kept) return startOrNot(row, number, setting);
  const changes = rowChanges(row, kept.record);
  const steps = stepsOf(changes, kept.record, importing.replace);
  const compared = { row, became: 'compared', file: kept.file, changes, written: steps.length > 0 } as const;
  if (steps.length === 0) return compared;
  const change = changeOfFile({ kept, steps }, keeping);
  if (!('outcome' in change)) return { ...compared, change };
  return change.outcome === 'refused'
    ? bad(row, [terminal('keep.list.file-would-not-read')], change.problems)
    : bad(row, [change.message]);
}

function startOrNot(row: ListRow, number: string, { importing, farm, taken }: Setting): RowWorked {
  if (number === '' || (importing.start !== 'all' && !importing.start.has(number)))
    return { row, became: 'no-case' };
  const slug = freeSlug(slugFrom(number), taken);
  if (slug === undefined) return bad(row, [terminal('keep.list.no-name', { number })]);
  taken.add(slug);
  const own = Object.keys(animalSchema.shape).flatMap((key) =>
    row.values[key] === undefined ? [] : [[key, row.values[key]]],
  );
  const draft = { casefile: 1, ...Object.fromEntries(own), lesions: {}, visits: [] };
  const change = fileChange(farm.entry, `${slug}.md`, undefined, recordText(draft, animalSchema));
  return { row, became: 'started', file: change.file, change };
}

function freeSlug(own: string, taken: ReadonlySet<string>): string | undefined {
  if (slugTrouble(own) || ['farm', 'business', 'readme'].includes(own)) return undefined;
  for (let next = 1; next < 100; next += 1) {
    const slug = next === 1 ? own : `${own}-${next}`;
    if (!taken.has(slug)) return slugTrouble(slug) ? undefined : slug;
  }
  return undefined;
}

/** All changes together against the records as they are; a row whose file would be wrong becomes bad, and the rest is held again. */
function heldAgainst(keeping: Keeping, importing: Importing, worked: readonly RowWorked[]): Imported | Not {
  const files = worked.flatMap(({ change }) => change ?? []);
  if (files.length === 0) return { outcome: 'worked', rows: worked, work: undefined };
  const what = terminal('keep.what.list', { list: importing.list });
  const among = files.some(({ before }) => before === undefined) ? 'all' : 'its farms';
  const work = workedOut({ what, farms: [importing.farm], files }, keeping, { among });
  if (work.outcome === 'change') return { outcome: 'worked', rows: worked, work };
  if (work.outcome !== 'refused') return work;
  const next = worked.map((one): RowWorked => {
    const problems = work.problems.filter(({ file }) => file === one.change?.file);
    const message = terminal(`keep.list.${work.asked ? 'slip' : 'wrong'}`);
    return problems.length === 0 ? one : bad(one.row, [message], problems);
  });
  return next.every((one, at) => one === worked[at]) ? work : heldAgainst(keeping, importing, next);
}

/**
 * Whose row it is: by her number, and by her marks where the row or the files leave the number open. Undefined where she
 * has no file; a text says why it cannot be determined.
 *
 * A mark that is on file under another number is never taken for the animal of the row's number.
 *
 * Checked: tests/cli/import.test.ts
 */
function matchRow({ values }: ListRow, animals: readonly KeptAnimal[]): KeptAnimal | string | undefined {
  const number = values['animal'];
  const marked = animals.filter(({ record }) =>
    (['tag', 'electronic'] as const).some((key) => {
      const [mark, says] = [record[key], values[key]];
      return mark !== undefined && says !== undefined && bareMark(mark) === bareMark(String(says));
    }),
  );
  const numbered = animals.filter(({ record }) => record.animal === number);
  const both = numbered.filter((one) => marked.includes(one));
  const fitting = number === undefined ? marked : both.length > 0 ? both : numbered;
  const elsewhere = marked.find((one) => number !== undefined && !numbered.includes(one));
  if (elsewhere)
    return terminal('keep.list.mark-elsewhere', {
      file: elsewhere.file,
      found: elsewhere.record.animal,
      expected: String(number),
    });
  if (fitting.length < 2) return fitting[0];
  const files = inRow(
    'and',
    fitting.map(({ file }) => file),
  );
  return terminal('keep.list.both-fit', { files });
}
