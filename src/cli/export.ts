import { join } from 'node:path';
import { icarEvents, icarFiles, type WithheldAfter } from '../exchange/icar/icar-events.js';
import { jsonSchemas } from '../exchange/json-schemas.js';
import { recordsAsJson, type Written } from '../exchange/records-json.js';
import { type LooksLikeFormula, tablesOf } from '../exchange/tables-csv.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { type Side, withheldOf, writtenPeriod } from '../schedule/withheld.js';
import { terminal } from '../problem/message.js';
import { type CommonOptions, type ExitCode, exitCode, WrongUse } from '../run/exit-code.js';
import type { Effects } from '../run/effects.js';
import { type FarmRun, farmRun } from '../run/farm-run.js';
import { farmCounted } from '../run/read-cases.js';

export interface ExportOptions extends CommonOptions {
  readonly to: 'csv' | 'json' | 'icar';
  readonly out: string;
  readonly guard?: true;
  readonly tagScheme?: string;
}

/** More than this many cells are counted, not listed one by one. */
const mostTold = 10;

/**
 * Writes the records for other systems: all farms, or the one asked for, whole.
 *
 * A farm with an error stops it: what another system takes for all of the records must not lack a farm in silence.
 */
export function exportRecords(options: ExportOptions, effects: Effects): ExitCode {
  if (options.guard && options.to !== 'csv') throw new WrongUse(terminal('export.guard-of-csv'));
  if (options.tagScheme !== undefined && options.to !== 'icar')
    throw new WrongUse(terminal('export.tag-scheme-of-icar'));
  const run = farmRun(options, effects);
  const { practice, farms, today } = run;
  if (farms.length === 0 || run.code() !== exitCode.well) {
    run.tell();
    run.warn(terminal('export.refused'));
    return run.code() || exitCode.problems;
  }
  const { files, formulas } = exported({ ...practice, farms }, options, today);
  const list = [...files].map(([name, text]) => ({
    file: run.write(join(options.to, name), text),
    bytes: Buffer.byteLength(text),
  }));
  tellFormulas(formulas, options, run);
  for (const farm of farms) run.say(terminal('farm.counted', farmCounted(farm)));
  const folder = join(options.out, options.to);
  run.say(terminal(`export.written-${options.to}`, { folder, files: files.size }));
  return run.end({ to: options.to, farms: farms.map(({ slug }) => slug), files: list, formulas });
}

function exported(written: Written, { to, guard, tagScheme }: ExportOptions, today: CalendarDay) {
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

function tellFormulas(formulas: readonly LooksLikeFormula[], { guard }: ExportOptions, run: FarmRun): void {
  if (formulas.length === 0) return;
  run.warn(terminal(guard ? 'export.guarded' : 'export.formulas', { count: formulas.length }));
  for (const { file, row, column } of formulas.slice(0, mostTold))
    run.warn(terminal('export.cell', { file, row, column }));
  if (formulas.length > mostTold) run.warn(terminal('export.more', { count: formulas.length - mostTold }));
}
