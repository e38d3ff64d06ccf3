import { decodedText } from '../casefile/read-text.js';
import { importRecords, type RecordsWorked } from '../exchange/import-records.js';
import { readRecords } from '../exchange/read-records.js';
import type { Records } from '../exchange/records-json.js';
import { asIf } from '../casefile/as-if.js';
import type { Worked } from '../keep/change.js';
import { countLine, formatProblem } from '../problem/format-problem.js';
import type { Effects } from '../run/effects.js';
import { type ExitCode, exitCode, WrongUse } from '../run/exit-code.js';
import { type KeepingOptions, keepingOf, writeChange } from '../run/write-change.js';

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
    effects.warn(`${countLine(read.problems, 1)}\nnothing was written\n`);
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
  if (first.outcome === 'nothing') {
    effects.print(
      options.json === true
        ? '{ "written": false, "files": [] }\n'
        : `nothing to write: all ${first.files} files are there already and say the same\n`,
    );
    return exitCode.well;
  }
  const farms = records.farms.map(({ slug }) => slug);
  if (first.outcome !== 'change' || options.dryRun)
    return await writeChange(
      { ...options, dryRun: true },
      { ...effects, dialogue: undefined },
      farms,
      () => first,
    );
  if (!isThere) effects.disk.makeFolder(cases);
  const code = await writeChange(options, effects, farms, (keeping) =>
    asWorked(importRecords(keeping, records, options.farm)),
  );
  if (code === exitCode.well && namesPictures(records, options.farm))
    effects.warn(
      "pictures are not in the records: copy each farm's pictures into its folder beside the case files\n",
    );
  return code;
}

/** Under the lock another program may just have written the same. */
function asWorked(worked: RecordsWorked): Worked {
  if (worked.outcome === 'nothing')
    throw new WrongUse('the files hold all of it by now: another program has just written it');
  return worked;
}

function namesPictures({ farms }: Records, only: string | undefined): boolean {
  return farms
    .filter(({ slug }) => only === undefined || slug === only)
    .some(({ animals }) =>
      animals.some(({ record }) => record.visits.some(({ photos = [] }) => photos.length > 0)),
    );
}

function textIn(file: string, effects: Effects): string {
  const there = effects.files.look(file);
  if (there?.kind !== 'file')
    throw new WrongUse(`there is no file ${file}, expected one that \`growdown export --to json\` wrote`);
  if (there.bytes > mostBytes)
    throw new WrongUse(`${file} has ${there.bytes} bytes, expected at most ${mostBytes}`);
  const text = decodedText(effects.files.read(file));
  if (text.outcome === 'trouble') throw new WrongUse(`${file}: ${text.trouble.message}`);
  return text.source.text;
}
