import { join } from 'node:path';
import { archiveOn } from '../herd/archive-on.js';
import { countSheets, datedOn, openPrinter, type Printer, PrintingTrouble } from '../pdf/open-printer.js';
import { pictureNumbers } from '../reference/numbers.js';
import { bookWithin } from '../book/book-within.js';
import type { BooksOptions } from './books.js';
import { folderOf, type ExitCode, farmByFarm, worse, WrongUse } from '../run/exit-code.js';
import { type Effects, progressOn } from '../run/effects.js';
import { farmCounted, isPictureThere, readPicture } from '../run/read-picture.js';
import { picturesCounted, picturesSaid, pictureWarnings } from '../book/pictures-said.js';
import { noBrowser, printingTroubleInWords } from '../pdf/find-browser.js';
import { exitFor, listProblems, readCases } from '../run/read-cases.js';
import { writeResult } from '../run/write-result.js';

/**
 * Prints one PDF a farm: the very book that `books` writes, on the farm's paper. A farm with an error keeps the PDF it
 * has; the others get theirs, each written whole before the next is begun.
 *
 * Error: `WrongUse` where no browser is installed or the one there is does not print
 */
export async function pdf(options: BooksOptions, effects: Effects): Promise<ExitCode> {
  const reading = readCases(options, effects, { pictures: 'hashed' });
  const { practice, farms, today, problems, farmsRefused } = reading;
  const archive = archiveOn(practice, today);
  const progress = progressOn(effects);
  const openOnly = options.openOnly === true;
  const maxMb = options.maxMb ?? pictureNumbers.bookMb.value;
  const written: { entry: Record<string, unknown>; line: string }[] = [];
  const warnings: string[] = [];
  const printer = farms.length > 0 ? await printerOn(effects) : undefined;
  let ended: ExitCode;
  try {
    ended = await farmByFarm(farms, effects, async (farm, index) => {
      progress.show(index + 1, farms.length, farm.farm.farm);
      const there = isPictureThere(effects, options.cases, farm.slug);
      const read = readPicture(effects, options.cases, farm.slug);
      const onMade = (done: number, of: number) => progress.show(done, of, `pictures of ${farm.farm.farm}`);
      const book = await bookWithin(
        practice,
        farm,
        today,
        { archive, openOnly, isPictureThere: there, seals: reading.sealsOf(farm.slug) },
        { maxMb, read, onMade },
      );
      progress.show(index + 1, farms.length, `${farm.farm.farm}, printing`);
      const sheets = datedOn(await printed(printer!, book.html), today);
      const name = `${farm.slug}.pdf`;
      writeResult(join(folderOf(effects, options.out), name), sheets, effects);
      const [file, pages, paper] = [join(options.out, name), countSheets(sheets), farm.farm.paper ?? 'A4'];
      const said = picturesSaid(book);
      written.push({
        entry: {
          farm: farm.slug,
          file,
          animals: farm.cases.length,
          pages,
          paper,
          openOnly,
          bytes: sheets.length,
          pictures: picturesCounted(book),
        },
        line: `${file}  ${farmCounted(farm)}, ${pages} ${pages === 1 ? 'page' : 'pages'} of ${paper}${openOnly ? '; open cases only' : ''}\n${said && `  ${said}\n`}`,
      });
      for (const warning of pictureWarnings(farm.slug, book)) warnings.push(warning);
    });
  } finally {
    progress.clear();
    await printer?.close();
  }

  listProblems(
    problems.filter((p) => p.severity !== 'note'),
    reading.filesRead,
    effects,
  );
  for (const warning of warnings) effects.warn(warning);
  for (const slug of farmsRefused)
    effects.warn(
      `${slug}: no new PDF, because of the errors above; a PDF it has already is left as it was\n`,
    );
  if (options.json === true) {
    const pdfs = written.map(({ entry }) => entry);
    effects.print(`${JSON.stringify({ pdfs, refused: farmsRefused, problems }, null, 2)}\n`);
  } else for (const { line } of written) effects.print(line);
  return worse(ended, exitFor(problems));
}

async function printed(printer: Printer, html: string): Promise<Uint8Array> {
  try {
    return await printer.print(html);
  } catch (error) {
    throw error instanceof PrintingTrouble ? new WrongUse(printingTroubleInWords(error)) : error;
  }
}

async function printerOn(effects: Effects): Promise<Printer> {
  const found = effects.browser();
  if ('missing' in found) throw new WrongUse(noBrowser(found));
  try {
    return await openPrinter({ browser: found.path });
  } catch (error) {
    throw error instanceof PrintingTrouble ? new WrongUse(printingTroubleInWords(error)) : error;
  }
}
