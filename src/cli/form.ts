import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { composeFarmData, oneFilePage } from '../form/one-file/one-file-page.js';
import { archiveOn } from '../herd/archive-on.js';
import { workOutFarm } from '../schedule/work-out-case.js';
import { wordsOf } from '../reference/words.js';
import { type CommonOptions, folderOf, type ExitCode, exitCode, WrongUse } from '../run/exit-code.js';
import type { Effects } from '../run/effects.js';
import { farmCounted } from '../run/read-picture.js';
import { exitFor, listProblems, readCases } from '../run/read-cases.js';
import { writeResult } from '../run/write-result.js';

export interface FormOptions extends Omit<CommonOptions, 'farm'> {
  readonly out: string;
}

/** Writes the form of a farm's visits as one file, for use where there is no network. */
export function form(slug: string, options: FormOptions, effects: Effects): ExitCode {
  const { practice, farms, today, problems, filesRead, farmsRefused } = readCases(
    { ...options, farm: slug },
    effects,
  );
  const errors = problems.filter(({ severity }) => severity === 'error');
  const [record] = farms;
  if (!record) {
    listProblems(errors, filesRead, effects);
    if (farmsRefused.includes(slug))
      effects.warn(
        `${slug}: no form, because of the errors above; one that is there already is left as it was\n`,
      );
    return exitFor(errors);
  }
  const { business } = practice;
  const words = wordsOf(record.farm.language ?? business.language ?? 'en-GB');
  const work = workOutFarm(record, { business, today, priors: archiveOn(practice, today).priors });
  const html = oneFilePage(words, composeFarmData({ words, record, business, work, today }), script());
  const file = join(options.out, `${slug}-form.html`);
  writeResult(join(folderOf(effects, options.out), `${slug}-form.html`), html, effects);
  const bytes = Buffer.byteLength(html);
  const written = { farm: slug, file, animals: record.cases.length, bytes };
  effects.print(
    options.json
      ? `${JSON.stringify(written, null, 2)}\n`
      : `${file}  ${farmCounted(record)}; ${Math.ceil(bytes / 1000)} kB\nIt holds the cases as on ${today}: make it anew before each round. \`growdown take\` reads what comes back.\n`,
  );
  return exitCode.well;
}

/** Made from its source when the program is built. */
function script(): string {
  try {
    return readFileSync(new URL('../../dist/form/in-browser.js', import.meta.url), 'utf8');
  } catch {
    throw new WrongUse(
      'the script of the form is not built; run `npm run build` in the folder of this program',
    );
  }
}
