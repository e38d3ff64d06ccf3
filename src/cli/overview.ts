import { join } from 'node:path';
import { composeOverview } from '../overview/compose-overview.js';
import { renderOverview } from '../overview/render-overview.js';
import { workOfFarms } from '../round/round-of.js';
import { type CommonOptions, folderOf, exitCode, type ExitCode } from '../run/exit-code.js';
import type { Effects } from '../run/effects.js';
import { exitFor, listErrors, readCases } from '../run/read-cases.js';
import { writeResult } from '../run/write-result.js';
import { readFileSync } from 'node:fs';

export interface OverviewOptions extends CommonOptions {
  readonly out: string;
}

/** Writes the business on one page, for the trimmer alone. A farm with an error is left out and named on it. */
export function overview(options: OverviewOptions, effects: Effects): ExitCode {
  const reading = readCases(options, effects);
  const { practice, farms, today, problems, farmsRefused } = reading;
  listErrors(reading, effects);
  if (exitFor(problems) === exitCode.wrongUse) return exitCode.wrongUse;
  for (const slug of farmsRefused)
    effects.warn(`${slug}: not in the overview, because of the errors above\n`);
  const work = workOfFarms(practice, farms, today);
  const page = composeOverview(practice, work, today, farmsRefused);
  const html = renderOverview(page);
  const file = join(options.out, 'overview.html');
  writeResult(join(folderOf(effects, options.out), 'overview.html'), html, effects);
  const [open] = page.sections;
  effects.print(
    options.json
      ? `${JSON.stringify({ file, bytes: Buffer.byteLength(html), refused: farmsRefused, problems }, null, 2)}\n`
      : `${file}  ${open?.lead.join(' ') ?? ''}\n`,
  );
  return exitFor(problems);
}

/** Which version of the program this is. */
export function versionOf(): string {
  const pack: unknown = JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8'));
  return String((pack as { version?: unknown }).version);
}
