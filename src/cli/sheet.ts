import { join } from 'node:path';
import type { ArchivePriors } from '../growth/learning/priors-for.js';
import { archiveOn } from '../herd/archive-on.js';
import { composeBlankSheet, composeSheet } from '../form/sheet/compose-sheet.js';
import { dueOnSheet, sheetDays } from '../form/sheet/due-on-sheet.js';
import { renderSheet } from '../form/sheet/render-sheet.js';
import type { FarmRecord } from '../record/practice.js';
import type { CalendarDay } from '../record/calendar-day.js';
import { workOutFarm } from '../schedule/work-out-case.js';
import { type CommonOptions, folderOf, type ExitCode } from '../run/exit-code.js';
import type { Effects } from '../run/effects.js';
import { exitFor, listErrors, type Reading, readCases } from '../run/read-cases.js';
import { writeResult } from '../run/write-result.js';
import { lastPictures, type LastPicture, type SheetPicture } from '../form/sheet/last-picture.js';
import { sheetLayout } from '../form/sheet/sheet-page.js';
import { preparePicture } from '../picture/prepare-picture.js';
import type { CaseWork } from '../schedule/case-work.js';
import { readPicture } from '../run/read-picture.js';

export type SheetOptions = CommonOptions & {
  out: string;
  from?: CalendarDay;
  to?: CalendarDay;
  all?: true;
  blank?: true;
};

/** Writes one yard sheet a farm: a page to measure by for each animal due, and a page to read and write after measuring. */
export async function sheet(options: SheetOptions, effects: Effects): Promise<ExitCode> {
  const reading = readCases(options, effects);
  listErrors(reading, effects);
  if (options.blank && (options.farm === undefined || reading.farms.length > 0)) {
    writeBlank(reading, options, effects);
    return exitFor(reading.problems);
  }
  for (const slug of reading.farmsRefused) effects.warn(`${slug}: no sheet, because of the errors above\n`);
  const priors = archiveOn(reading.practice, reading.today).priors;
  const written: { farm: string; file: string; animals: readonly string[] }[] = [];
  for (const farm of reading.farms) {
    const one = await sheetOf(farm, priors, reading, options, effects);
    written.push(one);
    if (options.json !== true) effects.print(`${said(one, options)}\n`);
  }
  if (options.json === true) effects.print(`${JSON.stringify({ sheets: written }, null, 2)}\n`);
  return exitFor(reading.problems);
}

async function sheetOf(
  farm: FarmRecord,
  priors: ArchivePriors,
  { practice, today }: Reading,
  options: SheetOptions,
  effects: Effects,
): Promise<{ farm: string; file: string; animals: readonly string[] }> {
  const days = sheetDays(farm.farm, today, options);
  const worked = workOutFarm(farm, { business: practice.business, today, priors });
  const work = dueOnSheet(worked, days, options.all === true);
  if (work.length === 0) return { farm: farm.slug, file: '', animals: [] };
  const page = composeSheet({
    farm,
    language: farm.farm.language ?? practice.business.language ?? 'en-GB',
    work,
    day: days.visit,
    today,
    pictures: await sheetPictures(farm.slug, work, options.cases, effects),
  });
  const name = `${farm.slug}-sheet.html`;
  writeResult(join(folderOf(effects, options.out), name), renderSheet(page), effects);
  return { farm: farm.slug, file: join(options.out, name), animals: work.map(({ record }) => record.slug) };
}

function said(
  { farm, file, animals }: { farm: string; file: string; animals: readonly string[] },
  { all }: SheetOptions,
): string {
  if (animals.length === 0 && all) return `${farm}: no case is open, so there is no sheet`;
  return animals.length === 0
    ? `${farm}: no animal is due in these days, so there is no sheet; --to DAY looks further, --all takes every open case`
    : `${file}  ${animals.length} ${animals.length === 1 ? 'animal' : 'animals'}: ${animals.join(', ')}`;
}

function writeBlank({ practice, farms, today }: Reading, options: SheetOptions, effects: Effects): void {
  const farm = options.farm === undefined ? undefined : farms[0];
  const language = farm?.farm.language ?? practice.business.language ?? 'en-GB';
  const paper =
    farm?.farm.paper ??
    (farms.every((one) => one.farm.paper === 'Letter') && farms.length > 0 ? 'Letter' : 'A4');
  const name = farm ? `${farm.slug}-sheet-blank.html` : 'sheet-blank.html';
  const page = composeBlankSheet(farm, language, paper, today);
  writeResult(join(folderOf(effects, options.out), name), renderSheet(page), effects);
  const file = join(options.out, name);
  effects.print(options.json ? `${JSON.stringify({ sheets: [{ file }] }, null, 2)}\n` : `${file}\n`);
}

/** The last picture of each animal that can be read, made small, by her slug. */
async function sheetPictures(
  farm: string,
  work: readonly CaseWork[],
  cases: string,
  effects: Effects,
): Promise<ReadonlyMap<string, { readonly last: LastPicture; readonly made: SheetPicture }>> {
  const read = readPicture(effects, cases, farm);
  const size = { longestPx: sheetLayout.picturePx, quality: sheetLayout.pictureQuality };
  const pictures = new Map<string, { last: LastPicture; made: SheetPicture }>();
  for (const { record, standing } of work)
    for (const last of lastPictures(record.animal, standing.leading?.lesion)) {
      const bytes = read(last.photo.file);
      const made = bytes && (await preparePicture(bytes, size));
      if (made?.kind !== 'made') continue;
      const { jpeg, widthPx, heightPx } = made;
      pictures.set(record.slug, {
        last,
        made: { base64: Buffer.from(jpeg).toString('base64'), widthPx, heightPx },
      });
      break;
    }
  return pictures;
}
