import { join } from 'node:path';
import { farmWork } from '../../money/farm-work.js';
import { isOurs } from '../../money/is-ours.js';
import type { Business } from '../../record/business.js';
import type { CalendarDay } from '../../record/calendar-day.js';
import { isInPeriod, nameOfPeriod, type Period } from '../../record/period.js';
import type { FarmRecord } from '../../record/practice.js';
import { wordsOf } from '../../words/words.js';
import { folderOf } from '../common-options.js';
import type { Effects } from '../effects.js';
import { writeResult } from '../write-result.js';
import { workCsv, type WorkRow } from './work-csv.js';

/** What was written of one farm's work; no file where there was none. */
export interface WorkWritten {
  readonly farm: string;
  readonly file?: string;
  readonly pieces: number;
  /** Pieces done by somebody who is not of the business, and by whom: they are in no file. */
  readonly byOthers: readonly { readonly by: string; readonly pieces: number }[];
}

/** Writes the work done on one farm, by the business's own people, as one CSV file, and says whose was left out. */
export function writeWork(
  business: Business,
  farm: FarmRecord,
  today: CalendarDay,
  options: { readonly out: string; readonly period?: Period; readonly json?: true },
  effects: Effects,
): WorkWritten {
  const { period } = options;
  const all = farmWork(farm, today)
    .flatMap(({ record, pieces }) => pieces.map((piece): WorkRow => ({ animal: record.animal, piece })))
    .filter(({ piece }) => isInPeriod(piece.date, period))
    // A stable sort: of one day, in the order of the files.
    .sort((a, b) => (a.piece.date < b.piece.date ? -1 : a.piece.date > b.piece.date ? 1 : 0));
  const rows = all.filter(({ piece }) => isOurs(business, piece.by));
  const byOthers = countedBy(all.filter((row) => !rows.includes(row)));
  for (const { by, pieces } of byOthers)
    effects.warn(
      `${farm.slug}: ${pieces} ${pieces === 1 ? 'piece' : 'pieces'} of work by ${by} left out: not the trimmer of business.md, nor among its people\n`,
    );
  const written = { farm: farm.slug, pieces: rows.length, byOthers };
  if (rows.length === 0) {
    if (options.json !== true) effects.print(`${farm.slug}: no work in this time, so there is no file\n`);
    return written;
  }
  const name = `${farm.slug}-work${period ? `-${nameOfPeriod(period)}` : ''}.csv`;
  const words = wordsOf(business.language ?? farm.farm.language ?? 'en-GB');
  writeResult(join(folderOf(effects, options.out), name), workCsv(words, business, rows), effects);
  const file = join(options.out, name);
  if (options.json !== true)
    effects.print(`${file}  ${rows.length} ${rows.length === 1 ? 'piece' : 'pieces'} of work\n`);
  return { ...written, file };
}

function countedBy(rows: readonly WorkRow[]): WorkWritten['byOthers'] {
  const counts = new Map<string, number>();
  for (const { piece } of rows) counts.set(piece.by, (counts.get(piece.by) ?? 0) + 1);
  return [...counts].map(([by, pieces]) => ({ by, pieces }));
}
