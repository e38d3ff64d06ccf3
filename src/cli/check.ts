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
import { type MissingEntry, type MissingGrade, missingOnFarm } from '../schedule/missing-on-farm.js';
import { workOutFarm } from '../schedule/work-out-case.js';
import { missingInWords } from '../words/compose-withheld.js';

/**
 * Lists all that is wrong with the case files and all that is missing in them; writes nothing. Pictures are read and
 * checked against their seals, and the ledger against a head printed elsewhere where one is given.
 */
export async function check(
  options: CommonOptions & { readonly head?: string },
  effects: Effects,
): Promise<ExitCode> {
  const run = farmRun(options, effects, { pictures: 'hashed', lists: () => false });
  const missing = await run.each((farm) =>
    missingProblems(run, farm, isPictureThere(effects, options.cases, farm.slug)),
  );
  const folder = options.cases.replaceAll('\\', '/').replace(/^\.\/|\/+$/g, '');
  const seals = run.farmsFound.flatMap((farm) => {
    const [sealed, shown] = [run.sealsOf(farm), `${folder}/${farm}/${ledgerFile}`];
    const head = options.head === undefined ? [] : headProblem(sealed, options.head, shown, farm);
    return [...unsealedNote(sealed, shown, farm), ...head];
  });
  const all = sortProblems([...run.problems, ...missing.flat(), ...seals]);
  if (options.json !== true) for (const problem of all) effects.warn(`${formatProblem(problem)}\n`);
  run.say(countLine(all, run.filesRead));
  return worse(run.end(all), exitFor(all));
}

/** A missing entry costs no error: the most serious are warnings, the others notes. */
const severityOf: Readonly<Record<MissingGrade, Severity>> = {
  serious: 'warning',
  'worth closing': 'note',
  minor: 'note',
};

/** What a farm's records do not hold and could, each with its place in its file. */
function missingProblems(
  { known }: FarmRun,
  farm: FarmRecord,
  isThere: (file: string) => boolean,
): Problem[] {
  return [
    ...missingOnFarm(farm, known.today).map((entry) => problemOf(entry, undefined, farm.source)),
    ...workOutFarm(farm, { ...known, isPictureThere: isThere }).flatMap(({ record, missing }) =>
      missing.map((entry) => problemOf(entry, record.animal, record.source)),
    ),
  ];
}

function problemOf(entry: MissingEntry, animal: Animal | undefined, source: RecordSource): Problem {
  const { message, close } = missingInWords(wordsOf('en-GB'), animal, entry);
  return {
    id: entry.id,
    severity: severityOf[entry.grade],
    file: source.file,
    place: source.placeOf(entry.path),
    path: entry.path,
    message,
    mend: close,
  };
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
