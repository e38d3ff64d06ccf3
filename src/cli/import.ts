import { findFarm } from '../keep/kept-file.js';
import type { Keeping } from '../keep/change.js';
import type { DayOrder } from '../keep/list/day-in-list.js';
import { type Imported, type Importing, importList, type RowOutcome } from '../keep/list/import-list.js';
import {
  type ColumnMap,
  type AnimalList,
  readList,
  recalledMap,
  rememberMap,
} from '../keep/list/read-list.js';
import { type ListRow, readRows } from '../keep/list/read-rows.js';
import { formatProblem, readableText } from '../problem/format-problem.js';
import type { Effects } from '../run/effects.js';
import { type ExitCode, exitCode, WrongUse } from '../run/exit-code.js';
import { columnsAsked, mapTyped } from '../form/asking/columns-asked.js';
import { type KeepingOptions, keepingOf, writeChange } from '../run/write-change.js';
import { exitFor } from '../run/read-cases.js';
import { given } from '../record/given.js';

export interface ImportOptions extends KeepingOptions {
  readonly farm: string;
  readonly map?: readonly string[];
  readonly days?: DayOrder;
  readonly separator?: string;
  readonly start?: readonly string[];
  readonly startAll?: true;
  readonly replace?: true;
  readonly skipBad?: true;
}

/** A list is a herd; a file above this many bytes is something else. */
const mostBytes = 20_000_000;

/** Fills the identity of animals on file from a list, and opens cases for those asked for. */
export async function importAnimals(
  file: string,
  options: ImportOptions,
  effects: Effects,
): Promise<ExitCode> {
  const keeping = keepingOf(options, effects);
  const found = findFarm(keeping, options.farm);
  if (found.outcome === 'cannot') throw new WrongUse(found.message);
  if (found.outcome === 'refused') return refused(found.problems, effects);
  const { folder } = found.folder;
  const list = listIn(file, options, effects);
  const before = recalledMap(effects.files, folder, options.farm);
  const dialogue = options.json ? undefined : effects.dialogue;
  const columns = await columnsAsked(list, mapTyped(options.map ?? []), before.columns, dialogue);
  const days = options.days ?? before.days ?? (await orderAsked(file, list, columns, effects, options));
  const { rows } = readRows(list, columns, days);
  const said = { columns: { ...before.columns, ...columns }, ...given({ days }) };
  if (!options.dryRun) remember(() => rememberMap(effects.disk, folder, options.farm, said), effects);
  return await imported(file, rows, options, keeping, effects);
}

/** What is not remembered is asked again. */
function remember(write: () => void, effects: Effects): void {
  try {
    write();
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === undefined) throw error;
    effects.warn(`what the columns are could not be remembered for the next list (${code})\n`);
  }
}

async function imported(
  file: string,
  rows: readonly ListRow[],
  options: ImportOptions,
  keeping: Keeping,
  effects: Effects,
): Promise<ExitCode> {
  const importing: Importing = {
    farm: options.farm,
    list: file,
    replace: options.replace === true,
    start: options.startAll ? 'all' : new Set(options.start ?? []),
  };
  const known = new Set(rows.map(({ values }) => values['animal']));
  const unknown = (options.start ?? []).filter((number) => !known.has(number));
  if (unknown.length > 0)
    throw new WrongUse(`--start names ${unknown.join(', ')}, expected numbers that stand in ${file}`);
  const worked = importList(keeping, rows, importing);
  if (worked.outcome === 'cannot') throw new WrongUse(worked.message);
  if (worked.outcome === 'refused') return refused(worked.problems, effects);
  const bad = worked.rows.filter(({ became }) => became === 'bad').length;
  for (const line of badRowsInWords(worked.rows, file)) effects.warn(line);
  if (options.json !== true) effects.print(rowsInWords(worked.rows, importing));
  if (bad > 0 && options.skipBad !== true) {
    effects.warn(
      `nothing was written: ${bad} of ${rows.length} ${rows.length === 1 ? 'row' : 'rows'} cannot be taken. Mend the list and import it again, or leave them out with --skip-bad\n`,
    );
    return exitCode.problems;
  }
  if (bad > 0) effects.warn(`${bad} of ${rows.length} rows left out\n`);
  if (!worked.work) {
    effects.print(options.json ? '{ "written": false, "files": [] }\n' : 'nothing to write\n');
    return exitCode.well;
  }
  return await writeChange(options, effects, [options.farm], (now) => {
    const again = importList(now, rows, importing);
    return again.outcome === 'worked' ? workOf(again) : again;
  });
}

/** Under the lock the files are as they were looked at, or somebody has just written the same. */
function workOf({ work }: Imported): NonNullable<Imported['work']> {
  if (!work) throw new WrongUse('the files hold all of it by now: another program has just written it');
  return work;
}

function refused(problems: Parameters<typeof exitFor>[0], effects: Effects): ExitCode {
  for (const problem of problems) effects.warn(`${formatProblem(problem)}\n`);
  effects.warn('nothing was written\n');
  return exitFor(problems);
}

function listIn(file: string, { separator }: ImportOptions, effects: Effects): AnimalList {
  const there = effects.files.look(file);
  if (there?.kind !== 'file')
    throw new WrongUse(`there is no file ${file}, expected a list of animals saved as CSV`);
  if (there.bytes > mostBytes)
    throw new WrongUse(`${file} has ${there.bytes} bytes, expected a list of at most ${mostBytes}`);
  const bytes = effects.files.read(file);
  if (bytes[0] === 0x50 && bytes[1] === 0x4b)
    throw new WrongUse(
      `${file} is a workbook, expected CSV: open it in the spreadsheet program and save it as CSV`,
    );
  const list = readList(bytes, separator === 'tab' ? '\t' : separator);
  if (list.outcome === 'trouble') {
    const { line, column, message } = list.trouble;
    throw new WrongUse(`${file}:${line}:${column}: ${message}`);
  }
  if (list.writing !== 'UTF-8') effects.warn(`${file} is read as ${list.writing}\n`);
  return list;
}

/** Which figure of a day comes first, where a day of the list could be two; undefined where none could. */
async function orderAsked(
  file: string,
  list: AnimalList,
  columns: ColumnMap,
  { dialogue }: Effects,
  { json }: ImportOptions,
): Promise<DayOrder | undefined> {
  const { either } = readRows(list, columns);
  const [first] = either;
  if (!first) return undefined;
  const answer =
    json || !dialogue
      ? undefined
      : await dialogue.choose(
          `\`${first.text}\` may be two days. What comes first in the days of this list?`,
          [
            { label: 'the day', value: 'day-first' },
            { label: 'the month', value: 'month-first' },
          ],
        );
  if (answer === 'day-first' || answer === 'month-first') return answer;
  throw new WrongUse(
    `${file}:${first.line}:${first.column}: \`${first.text}\` may be two days${either.length === 1 ? '' : `, and so may ${either.length - 1} more of the list`}; say which figure comes first with --days day-first or --days month-first`,
  );
}

/** Every row that cannot be taken, with its place in the list and what is wrong. */
function badRowsInWords(rows: readonly RowOutcome[], list: string): string[] {
  return rows.flatMap((one) => {
    if (one.became !== 'bad') return [];
    const own = one.row.troubles.map(
      ({ line, column, message }) => `${list}:${line}:${column}: error: ${message}`,
    );
    const more = one.messages.map((message) => `${list}:${one.row.line}:1: error: ${message}`);
    return [...[...own, ...more].map(readableText), ...one.problems.map(formatProblem)].map(
      (line) => `${line}\n`,
    );
  });
}

/** What is new, what differs, and who has no case: a line or two an animal. */
function rowsInWords(rows: readonly RowOutcome[], { replace }: { readonly replace: boolean }): string {
  const lines = rows.flatMap((one) => {
    if (one.became === 'started') return [`${one.file}: a new case`];
    if (one.became !== 'compared') return [];
    const { fills, adds, differs, mayBeAnother } = one.changes;
    const held = mayBeAnother && !replace;
    const said = [
      ...(held ? [] : fills.map(({ key, value }) => `fills ${key}: ${shown(value)}`)),
      ...(held ? [] : adds.map(({ key, day }) => `adds to ${key}: ${day}`)),
      ...differs.map(({ key, has, says }) =>
        replace ? `${key}: ${has} becomes ${says}` : `differs in ${key}: ${has} on file, ${says} in the list`,
      ),
      ...(held ? ['she may be another animal of that number, so nothing of the row is taken'] : []),
    ];
    return said.map((line) => `${one.file}: ${line}`);
  });
  const same = rows.filter(({ became, ...one }) => became === 'compared' && isSame(one as RowOutcome)).length;
  const without = rows.filter(({ became }) => became === 'no-case').map(({ row }) => nameOf(row.values));
  return [
    ...lines,
    ...(same > 0 ? [`${same} ${same === 1 ? 'animal is' : 'animals are'} on file as in the list`] : []),
    ...(!replace && rows.some((one) => one.became === 'compared' && one.changes.differs.length > 0)
      ? ['what differs is left as it is on file; --replace writes what the list says']
      : []),
    ...(without.length > 0
      ? [`${without.length} without a case here: ${without.join(', ')}. --start NUMBER opens one`]
      : []),
  ]
    .map((line) => `${readableText(line)}\n`)
    .join('');
}

function isSame(one: RowOutcome): boolean {
  if (!('changes' in one)) return false;
  const { fills, adds, differs } = one.changes;
  return fills.length + adds.length + differs.length === 0;
}

function nameOf(values: Readonly<Record<string, unknown>>): string {
  const name = values['animal'] ?? values['tag'] ?? values['electronic'];
  return typeof name === 'string' ? name : '';
}

function shown(value: unknown): string {
  return Array.isArray(value) ? value.join(', ') : String(value);
}
