import { ledgerFile } from '../casefile/read-ledger-file.js';
import { headOf, holdsHead } from '../ledger/read-ledger.js';
import { openSeals, type FarmSeals } from '../ledger/seals-of-farm.js';
import { countLine, formatProblem, sortProblems } from '../problem/format-problem.js';
import { problemIn, terminal } from '../problem/message.js';
import type { Problem, Severity } from '../problem/problem.js';
import type { Animal } from '../record/animal.js';
import type { FarmRecord, RecordSource } from '../record/practice.js';
import { wordsOf } from '../reference/words.js';
import { type CommonOptions, type ExitCode, worse, WrongUse } from '../run/exit-code.js';
import type { Effects } from '../run/effects.js';
import { type FarmRun, farmRun } from '../run/farm-run.js';
import { isPictureThere, exitFor } from '../run/read-cases.js';
import type { MissingEntry, MissingGrade } from '../schedule/missing-on-farm.js';

/**
 * Lists all that is wrong with the case files and all that is missing in them; writes nothing. Pictures are read and
 * checked against their seals, and the ledger against a head printed elsewhere where one is given.
 */
export async function check(
  options: CommonOptions & { readonly head?: string; readonly all?: true },
  effects: Effects,
): Promise<ExitCode> {
  // Whoever holds a head from elsewhere believes the files alone.
  const asked = options.head === undefined ? options : { ...options, cache: false };
  const run = farmRun(asked, effects, { pictures: 'hashed', lists: () => false });
  const folder = options.cases.replaceAll('\\', '/').replace(/^\.\/|\/+$/g, '');
  const shown = (farm: string): string => `${folder}/${farm}/${ledgerFile}`;
  const unsealed = (farm: string): Problem[] => unsealedNote(run.sealsOf(farm), shown(farm), farm);
  const missing = await run.each(
    async (farm) => [
      ...(await missingProblems(run, farm, isPictureThere(effects, options.cases, farm.slug))),
      ...unsealed(farm.slug),
    ],
    { as: 'check', on: [] },
  );
  const heads = run.farmsFound.flatMap((farm) =>
    options.head === undefined ? [] : headProblem(run.sealsOf(farm), options.head, shown(farm), farm),
  );
  const all = sortProblems([
    ...run.problems,
    ...missing.flat(),
    ...run.farmsRefused.flatMap(unsealed),
    ...heads,
  ]);
  if (options.json !== true) list(all, options.all === true, effects);
  run.say(countLine(all, run.filesRead));
  return worse(run.end(all), exitFor(all));
}

/** More than so many are not listed one by one unasked: nobody reads them, and what is wrong would be lost among them. */
const mostListed = 200;

/** All by file and place; of very many the errors, then of each other kind how many there are and the first. */
function list(all: readonly Problem[], each: boolean, effects: Effects): void {
  const whole = each || all.length <= mostListed;
  for (const problem of all)
    if (whole || problem.severity === 'error') effects.warn(`${formatProblem(problem)}\n`);
  if (whole) return;
  const kinds = new Map<string, { count: number; readonly first: Problem }>();
  for (const problem of all.filter(({ severity }) => severity !== 'error')) {
    const kind = `${problem.severity} ${problem.id}`;
    const of = kinds.get(kind) ?? { count: 0, first: problem };
    of.count += 1;
    kinds.set(kind, of);
  }
  // Warnings before notes, of each the most frequent first.
  const most = [...kinds].toSorted(([a, ofA], [b, ofB]) =>
    a[0] === b[0] ? ofB.count - ofA.count || (a < b ? -1 : 1) : a < b ? 1 : -1,
  );
  for (const [kind, { count, first }] of most) {
    const { file, message } = first;
    effects.warn(`${terminal('check.kind', { count, kind, file, message })}\n`);
  }
  effects.warn(`${terminal('check.all')}\n`);
}

/** A missing entry costs no error: the most serious are warnings, the others notes. */
const severityOf: Readonly<Record<MissingGrade, Severity>> = {
  serious: 'warning',
  'worth closing': 'note',
  minor: 'note',
};

/** What a farm's records do not hold and could, each with its place in its file. */
async function missingProblems(
  { known }: FarmRun,
  farm: FarmRecord,
  isThere: (file: string) => boolean,
): Promise<Problem[]> {
  // Not loaded where nothing has changed.
  const { missingOnFarm } = await import('../schedule/missing-on-farm.js');
  const { workOutFarm } = await import('../schedule/work-out-case.js');
  const { missingInWords } = await import('../words/compose-withheld.js');
  const problemOf = (entry: MissingEntry, animal: Animal | undefined, source: RecordSource): Problem => {
    const { message, close } = missingInWords(wordsOf('en-GB'), animal, entry);
    const { id, grade, path } = entry;
    const [{ file }, place] = [source, source.placeOf(path)];
    return { id, severity: severityOf[grade], file, place, path, message, mend: close };
  };
  return [
    ...missingOnFarm(farm, known.today).map((entry) => problemOf(entry, undefined, farm.source)),
    ...workOutFarm(farm, { ...known, isPictureThere: isThere }).flatMap(({ record, missing }) =>
      missing.map((entry) => problemOf(entry, record.animal, record.source)),
    ),
  ];
}

/** Of a farm that is sealed at all: how much is not yet. */
function unsealedNote(seals: FarmSeals | undefined, file: string, farm: string): Problem[] {
  const open = seals?.head ? openSeals(seals).length : 0;
  return open === 0 ? [] : [problemIn(file, 'seal/unsealed', { count: open, farm }, { severity: 'note' })];
}

/**
 * A head printed in a book or a mail, looked for in a farm's ledger: one that is not in it shows that the ledger was cut
 * off before it, or written anew.
 */
function headProblem(seals: FarmSeals | undefined, printed: string, file: string, farm: string): Problem[] {
  let found: unknown;
  try {
    found = seals && holdsHead(seals.ledger, printed);
  } catch {
    throw new WrongUse(terminal('head.not-one', { head: printed }));
  }
  if (found) return [];
  const head = seals && headOf(seals.ledger);
  return [problemIn(file, 'ledger/head-unknown', { farm, head: printed, entries: head?.entries ?? 0 })];
}
