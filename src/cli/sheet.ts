import { composeBlankSheet, composeSheet, dueOnSheet, sheetDays } from '../form/sheet/compose-sheet.js';
import { renderSheet } from '../form/sheet/sheet-page.js';
import { terminal } from '../problem/message.js';
import type { CalendarDay } from '../record/calendar-day.js';
import type { FarmRecord } from '../record/practice.js';
import type { CommonOptions, ExitCode } from '../run/exit-code.js';
import type { Effects } from '../run/effects.js';
import { type FarmRun, farmRun } from '../run/farm-run.js';
import { counted } from '../run/read-cases.js';
import { workOutFarm } from '../schedule/work-out-case.js';

export type SheetOptions = CommonOptions & {
  out: string;
  from?: CalendarDay;
  to?: CalendarDay;
  all?: true;
  blank?: true;
};

/** Writes one yard sheet a farm: a page to measure by for each animal due, and a page to read and write after measuring. */
export async function sheet(options: SheetOptions, effects: Effects): Promise<ExitCode> {
  const blank = options.blank === true;
  const run = farmRun(options, effects, blank ? {} : { refused: 'sheet.refused' });
  if (blank && (options.farm === undefined || run.farms.length > 0)) return writeBlank(run, options);
  const sheets = await run.each(async (farm) => {
    const { file, animals } = sheetOf(farm, run, options);
    const names = animals.join(', ');
    run.say(
      animals.length === 0
        ? terminal(options.all ? 'sheet.none-open' : 'sheet.none-due', { farm: farm.slug })
        : terminal('sheet.written', { file, animals: counted(animals.length, 'animal'), names }),
    );
    return { farm: farm.slug, file, animals };
  });
  return run.end({ sheets });
}

function sheetOf(farm: FarmRecord, run: FarmRun, options: SheetOptions) {
  const { known, today } = run;
  const days = sheetDays(farm.farm, today, options);
  const work = dueOnSheet(workOutFarm(farm, known), days, options.all === true);
  if (work.length === 0) return { file: '', animals: [] };
  const page = composeSheet({
    farm,
    language: farm.farm.language ?? known.business.language ?? 'en-GB',
    work,
    day: days.visit,
    today,
  });
  const file = run.write(`${farm.slug}-sheet.html`, renderSheet(page));
  return { file, animals: work.map(({ record }) => record.slug) };
}

function writeBlank(run: FarmRun, options: SheetOptions): ExitCode {
  const { known, farms, today } = run;
  run.tell();
  const farm = options.farm === undefined ? undefined : farms[0];
  const language = farm?.farm.language ?? known.business.language ?? 'en-GB';
  const paper =
    farm?.farm.paper ??
    (farms.every((one) => one.farm.paper === 'Letter') && farms.length > 0 ? 'Letter' : 'A4');
  const name = farm ? `${farm.slug}-sheet-blank.html` : 'sheet-blank.html';
  const file = run.write(name, renderSheet(composeBlankSheet(farm, language, paper, today)));
  run.say(file);
  return run.end({ sheets: [{ file }] });
}
