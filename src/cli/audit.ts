import { join } from 'node:path';
import { type AuditFiles, auditFiles } from '../audit/audit-files.js';
import { archiveOn } from '../herd/archive-on.js';
import { nameOfPeriod, type Period, twelveMonthsTo } from '../record/period.js';
import {
  type CommonOptions,
  folderOf,
  type ExitCode,
  farmByFarm,
  worse,
  WrongUse,
} from '../run/exit-code.js';
import type { Effects } from '../run/effects.js';
import { counted, isPictureThere } from '../run/read-picture.js';
import { exitFor, listErrors, readCases } from '../run/read-cases.js';
import { witnessesOf } from '../post/sending/post-run.js';
import { writeResult } from '../run/write-result.js';

export type AuditOptions = CommonOptions & { out: string; period?: Period };

/** What came of one farm. */
interface Written extends Omit<AuditFiles, 'files'> {
  readonly farm: string;
  readonly folder: string;
  readonly files: readonly string[];
}

/** Writes one audit pack a farm: a page and its tables as CSV, in a folder of the farm and the period. A farm with an error gets none. */
export async function audit(options: AuditOptions, effects: Effects): Promise<ExitCode> {
  const reading = readCases(options, effects);
  const { practice, today } = reading;
  const period = options.period ?? twelveMonthsTo(today);
  if (period.from > today)
    throw new WrongUse(
      `--period begins on ${period.from}, after today (${today}): nothing of it has happened yet`,
    );
  listErrors(reading, effects);
  for (const slug of reading.farmsRefused)
    effects.warn(`${slug}: no audit pack, because of the errors above\n`);
  const priors = archiveOn(practice, today).priors;
  const written: Written[] = [];
  const ended = await farmByFarm(reading.farms, effects, (farm) => {
    const seals = reading.sealsOf(farm.slug);
    const { files, ...held } = auditFiles(farm, period, {
      business: practice.business,
      today,
      priors,
      isPictureThere: isPictureThere(effects, options.cases, farm.slug),
      witnesses: witnessesOf(effects, options.cases, farm.slug),
      ...(seals ? { seals } : {}),
    });
    const folder = `${farm.slug}-${nameOfPeriod(period)}`;
    for (const [name, text] of Object.entries(files))
      writeResult(join(folderOf(effects, options.out), folder, name), text, effects);
    const entry: Written = {
      farm: farm.slug,
      folder: join(options.out, folder),
      files: Object.keys(files),
      ...held,
    };
    written.push(entry);
    if (options.json !== true) effects.print(`${said(entry)}\n`);
  });
  if (options.json === true)
    effects.print(`${JSON.stringify({ period, packs: written, refused: reading.farmsRefused }, null, 2)}\n`);
  return worse(ended, exitFor(reading.problems));
}

function said({ folder, files, runs, visits, gaps }: Written): string {
  const page = join(folder, 'audit.html');
  const held = `${counted(runs, 'run')} of trouble, ${counted(visits, 'visit')}`;
  const missing = `${gaps.serious} serious, ${gaps['worth closing']} worth closing, ${gaps.minor} minor`;
  return `${page} and ${files.length - 1} more files: ${held}; gaps: ${missing}`;
}
