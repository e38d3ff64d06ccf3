import { findFarm } from '../keep/kept-file.js';
import type { Keeping } from '../keep/change.js';
import { type DayOrder, type ListRow, readRows } from '../keep/list/read-rows.js';
import { type Importing, importList, type RowOutcome } from '../keep/list/import-list.js';
import {
  type ColumnMap,
  type AnimalList,
  readList,
  recalledMap,
  rememberMap,
} from '../keep/list/read-list.js';
import { formatProblem, readableText, countLine } from '../problem/format-problem.js';
import type { Effects } from '../run/effects.js';
import { refusalOf, type ExitCode, exitCode, leftBy, WrongUse } from '../run/exit-code.js';
import { columnsAsked, mapTyped } from '../form/asking/columns-asked.js';
import {
  justWritten,
  type KeepingOptions,
  keepingOf,
  nothingToWrite,
  writeChange,
} from '../run/write-change.js';
import { exitFor, readNamed } from '../run/read-cases.js';
import { given } from '../record/given.js';
import { terminal } from '../problem/message.js';
import { decodedText } from '../casefile/read-text.js';
import { importRecords } from '../exchange/import-records.js';
import { readRecords } from '../exchange/read-records.js';
import type { Records } from '../exchange/records-json.js';
import { asIf } from '../casefile/as-if.js';

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
const mostBytesOfList = 20_000_000;

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
    const { code } = refusalOf(error);
    effects.warn(`${terminal('import.not-remembered', { code })}\n`);
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
    throw new WrongUse(terminal('import.start-unknown', { numbers: unknown.join(', '), file }));
  const worked = importList(keeping, rows, importing);
  if (worked.outcome === 'cannot') throw new WrongUse(worked.message);
  if (worked.outcome === 'refused') return refused(worked.problems, effects);
  const bad = worked.rows.filter(({ became }) => became === 'bad').length;
  for (const line of badRowsInWords(worked.rows, file)) effects.warn(line);
  if (options.json !== true) effects.print(rowsInWords(worked.rows, importing));
  if (bad > 0) {
    const key = options.skipBad ? 'import.left-out' : 'import.bad-rows';
    effects.warn(`${terminal(key, { bad, count: rows.length })}\n`);
    if (!options.skipBad) return exitCode.problems;
  }
  if (!worked.work) return nothingToWrite(options, 'import.nothing', {}, effects);
  return await writeChange(options, effects, [options.farm], (now) => {
    const again = importList(now, rows, importing);
    return again.outcome === 'worked' ? (again.work ?? justWritten()) : again;
  });
}

function refused(problems: Parameters<typeof exitFor>[0], effects: Effects): ExitCode {
  for (const problem of problems) effects.warn(`${formatProblem(problem)}\n`);
  effects.warn(`${leftBy('nothing')}\n`);
  return exitFor(problems);
}

function listIn(file: string, { separator }: ImportOptions, effects: Effects): AnimalList {
  const bytes = readNamed(file, 'list', mostBytesOfList, effects);
  if (bytes[0] === 0x50 && bytes[1] === 0x4b) throw new WrongUse(terminal('import.workbook', { file }));
  const list = readList(bytes, separator === 'tab' ? '\t' : separator);
  if (list.outcome === 'trouble') {
    const { line, column, message } = list.trouble;
    throw new WrongUse(`${file}:${line}:${column}: ${message}`);
  }
  if (list.writing !== 'UTF-8')
    effects.warn(`${terminal('import.read-as', { file, encoding: list.writing })}\n`);
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
      : await dialogue.choose(terminal('import.which-first', { day: first.text }), [
          { label: terminal('import.day-first'), value: 'day-first' },
          { label: terminal('import.month-first'), value: 'month-first' },
        ]);
  if (answer === 'day-first' || answer === 'month-first') return answer;
  const { line, column, text } = first;
  const key = either.length === 1 ? 'import.two-days' : 'import.two-days-and-more';
  throw new WrongUse(terminal(key, { file, line, column, day: text, more: either.length - 1 }));
}

/** Every row that cannot be taken, with its place in the list and what is wrong. */
function badRowsInWords(rows: readonly RowOutcome[], list: string): string[] {
  return rows.flatMap((one) => {
    if (one.became !== 'bad') return [];
    const more = one.messages.map((message) => ({ line: one.row.line, column: 1, message }));
    const lines = [...one.row.troubles, ...more].map(({ line, column, message }) =>
      readableText(terminal('import.bad-row', { list, line, column, message })),
    );
    return [...lines, ...one.problems.map(formatProblem)].map((line) => `${line}\n`);
  });
}

/** What is new, what differs, and who has no case: a line or two an animal. */
function rowsInWords(rows: readonly RowOutcome[], { replace }: { readonly replace: boolean }): string {
  const lines = rows.flatMap((one) => {
    if (one.became !== 'started' && one.became !== 'compared') return [];
    const { file } = one;
    if (one.became === 'started') return [terminal('import.started', { file })];
    const { fills, adds, differs, mayBeAnother } = one.changes;
    const held = mayBeAnother && !replace;
    const differ = replace ? 'import.replaces' : 'import.differs';
    return [
      ...(held
        ? []
        : fills.map(({ key, value }) => terminal('import.fills', { file, key, value: shown(value) }))),
      ...(held ? [] : adds.map(({ key, day }) => terminal('import.adds', { file, key, day }))),
      ...differs.map(({ key, has, says }) => terminal(differ, { file, key, has, says })),
      ...(held ? [terminal('import.another', { file })] : []),
    ];
  });
  const same = rows.filter(({ became, ...one }) => became === 'compared' && isSame(one as RowOutcome)).length;
  const without = rows.filter(({ became }) => became === 'no-case').map(({ row }) => nameOf(row.values));
  return [
    ...lines,
    ...(same > 0 ? [terminal('import.same', { count: same })] : []),
    ...(!replace && rows.some((one) => one.became === 'compared' && one.changes.differs.length > 0)
      ? [terminal('import.left-as-is')]
      : []),
    ...(without.length > 0
      ? [terminal('import.no-case', { animals: without.length, names: without.join(', ') })]
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

/** Ten thousand cows of ten years stay far below. */
const mostBytesOfRecords = 200_000_000;

/** Writes the case files of what `growdown export --to json` wrote, where there are none yet. */
export async function importRecordsFile(
  file: string,
  options: KeepingOptions & { readonly farm?: string },
  effects: Effects,
): Promise<ExitCode> {
  const read = readRecords(textIn(file, effects), file);
  if (read.outcome === 'not-ours') throw new WrongUse(read.message);
  if (read.outcome === 'refused') {
    for (const problem of read.problems) effects.warn(`${formatProblem(problem)}\n`);
    effects.warn(`${countLine(read.problems, 1)}\n${leftBy('nothing')}\n`);
    return exitCode.problems;
  }
  const { records } = read;
  const { cases } = options;
  const isThere = effects.files.look(cases) !== undefined;
  // A folder that is not there yet is looked at as if it were, so that what is refused leaves none behind.
  const files = isThere
    ? effects.files
    : asIf(effects.files, [{ path: `${cases}/.new`, after: new Uint8Array() }]);
  const first = importRecords({ ...keepingOf(options, effects), files }, records, options.farm);
  if (first.outcome === 'nothing')
    return nothingToWrite(options, 'import.records-there', { files: first.files }, effects);
  const farms = records.farms.map(({ slug }) => slug);
  if (first.outcome !== 'change' || options.dryRun)
    return await writeChange(
      { ...options, dryRun: true },
      { ...effects, dialogue: undefined },
      farms,
      () => first,
    );
  if (!isThere) effects.disk.makeFolder(cases);
  const code = await writeChange(options, effects, farms, (keeping) => {
    const worked = importRecords(keeping, records, options.farm);
    return worked.outcome === 'nothing' ? justWritten() : worked;
  });
  if (code === exitCode.well && namesPictures(records, options.farm))
    effects.warn(`${terminal('import.no-pictures')}\n`);
  return code;
}

function namesPictures({ farms }: Records, only: string | undefined): boolean {
  return farms
    .filter(({ slug }) => only === undefined || slug === only)
    .some(({ animals }) =>
      animals.some(({ record }) => record.visits.some(({ photos = [] }) => photos.length > 0)),
    );
}

function textIn(file: string, effects: Effects): string {
  const text = decodedText(readNamed(file, 'records', mostBytesOfRecords, effects));
  if (text.outcome === 'trouble') throw new WrongUse(`${file}: ${text.trouble.message}`);
  return text.source.text;
}
