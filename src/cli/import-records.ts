import { decodedText } from '../casefile/read-text.js';
import { importRecords } from '../exchange/import-records.js';
import { readRecords } from '../exchange/read-records.js';
import type { Records } from '../exchange/records-json.js';
import { asIf } from '../casefile/as-if.js';
import { countLine, formatProblem } from '../problem/format-problem.js';
import type { Effects } from '../run/effects.js';
import { type ExitCode, exitCode, leftBy, WrongUse } from '../run/exit-code.js';
import { readNamed } from '../run/read-cases.js';
import {
  justWritten,
  type KeepingOptions,
  keepingOf,
  nothingToWrite,
  writeChange,
} from '../run/write-change.js';
import { terminal } from '../problem/message.js';

/** Ten thousand cows of ten years stay far below. */
const mostBytes = 200_000_000;

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
  const text = decodedText(readNamed(file, 'records', mostBytes, effects));
  if (text.outcome === 'trouble') throw new WrongUse(`${file}: ${text.trouble.message}`);
  return text.source.text;
}
