import { join } from 'node:path';
import type { WithheldAfter } from '../exchange/icar/treatment-events.js';
import { icarEvents, icarFiles } from '../exchange/icar/icar-events.js';
import { jsonSchemas } from '../exchange/json-schemas.js';
import { recordsAsJson, type Written } from '../exchange/records-json.js';
import { type LooksLikeFormula, tablesOf } from '../exchange/tables-csv.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { type Side, withheldOf, writtenPeriod } from '../schedule/withheld.js';
import { type CommonOptions, folderOf, type ExitCode, exitCode, WrongUse } from '../run/exit-code.js';
import type { Effects } from '../run/effects.js';
import { farmCounted } from '../run/read-picture.js';
import { exitFor, listProblems, readCases } from '../run/read-cases.js';
import { writeResult } from '../run/write-result.js';

export interface ExportOptions extends CommonOptions {
  readonly to: 'csv' | 'json' | 'icar';
  readonly out: string;
  readonly guard?: true;
  readonly tagScheme?: string;
}

interface Exported {
  readonly files: ReadonlyMap<string, string>;
  readonly formulas: readonly LooksLikeFormula[];
}

/** More than this many cells are counted, not told one by one. */
const mostTold = 10;

/**
 * Writes the records for other systems: all farms, or the one asked for, whole.
 *
 * A farm with an error stops it: what another system takes for all of the records must not lack a farm in silence.
 */
export function exportRecords(options: ExportOptions, effects: Effects): ExitCode {
  if (options.guard && options.to !== 'csv') throw new WrongUse('--guard is for --to csv alone');
  if (options.tagScheme !== undefined && options.to !== 'icar')
    throw new WrongUse('--tag-scheme is for --to icar alone');
  const { practice, farms, problems, filesRead, today } = readCases(options, effects);
  const errors = problems.filter(({ severity }) => severity === 'error');
  if (errors.length > 0 || farms.length === 0) {
    listProblems(errors, filesRead, effects);
    effects.warn('nothing was written: mend the errors above, or name a farm without one with --farm\n');
    return errors.length > 0 ? exitFor(errors) : exitCode.problems;
  }
  const { files, formulas } = exported({ ...practice, farms }, options, today);
  const shown = join(options.out, options.to);
  for (const [name, text] of files)
    writeResult(join(folderOf(effects, options.out), options.to, name), text, effects);
  tellFormulas(formulas, options, effects);
  if (options.json) {
    const list = [...files].map(([name, text]) => ({
      file: join(shown, name),
      bytes: Buffer.byteLength(text),
    }));
    const told = { to: options.to, farms: farms.map(({ slug }) => slug), files: list, formulas };
    effects.print(`${JSON.stringify(told, null, 2)}\n`);
  } else {
    for (const farm of farms) effects.print(`${farmCounted(farm)}\n`);
    effects.print(`${shown}: ${files.size} files${told[options.to]}\n`);
  }
  return exitCode.well;
}

const told = {
  csv: '; datapackage.json says what every column holds',
  json: '; records.json holds all, the schemas say what may stand in it',
  icar: '; left-out.txt says what has no place in them',
} as const;

function exported(written: Written, { to, guard, tagScheme }: ExportOptions, today: CalendarDay): Exported {
  if (to === 'csv') return tablesOf(written, { guarded: guard === true });
  if (to === 'icar')
    return {
      files: icarFiles(written, icarEvents(written.farms, withheldAfter(today), tagScheme)),
      formulas: [],
    };
  const files = new Map([['records.json', recordsAsJson(written)], ...Object.entries(jsonSchemas())]);
  return { files, formulas: [] };
}

/** The clear day told after each product is hers, of all she was given; what the product's own entry lacks is said of it. */
export function withheldAfter(today: CalendarDay): WithheldAfter {
  return (use, { visit, one, farm: { farm } }) => {
    const all = withheldOf(one.animal, farm, today, use.until ?? use.on ?? visit.date);
    const of = (side: Side) => {
      const period = writtenPeriod(use, side, farm['milkings-a-day']);
      if (period.outcome !== 'days') return period;
      const held = all[side];
      return held.outcome === 'withheld' ? held : ({ outcome: 'not-known' } as const);
    };
    return { milk: of('milk'), meat: of('meat') };
  };
}

function tellFormulas(
  formulas: readonly LooksLikeFormula[],
  { guard }: ExportOptions,
  effects: Effects,
): void {
  if (formulas.length === 0) return;
  const [cells, begin] = formulas.length === 1 ? ['text', 'begins'] : ['texts', 'begin'];
  effects.warn(
    guard
      ? `${formulas.length} ${cells} that a spreadsheet program would take for a formula got an apostrophe before:\n`
      : `${formulas.length} ${cells} ${begin} like a formula; open the tables with all columns as text, or write them with --guard, which puts an apostrophe before:\n`,
  );
  for (const { file, row, column } of formulas.slice(0, mostTold))
    effects.warn(`  ${file}, row ${row}, ${column}\n`);
  if (formulas.length > mostTold) effects.warn(`  and ${formulas.length - mostTold} more\n`);
}
