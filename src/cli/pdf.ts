import { picturesCounted } from '../book/pictures-said.js';
import { noBrowser, printingTroubleInWords } from '../pdf/find-browser.js';
import { countSheets, datedOn, openPrinter, PrintingTrouble } from '../pdf/open-printer.js';
import { terminal } from '../problem/message.js';
import type { Effects } from '../run/effects.js';
import { type ExitCode, WrongUse } from '../run/exit-code.js';
import { counted, farmCounted } from '../run/read-cases.js';
import { booksRun } from './books.js';
import { bookOf, type BooksOptions, sayPictures } from './make-book.js';

/**
 * Prints one PDF a farm: the very book that `books` writes, on the farm's paper. A farm with an error keeps the PDF it
 * has; the others get theirs, each written whole before the next is begun.
 *
 * Error: `WrongUse` where no browser is installed or the one there is does not print
 */
export async function pdf(options: BooksOptions, effects: Effects): Promise<ExitCode> {
  const run = booksRun('pdf.refused', options, effects);
  const openOnly = options.openOnly === true;
  const printer = run.farms.length > 0 ? await printerOn(effects) : undefined;
  try {
    const written = await run.each(async (farm, show) => {
      const { slug, farm: of, cases } = farm;
      const book = await bookOf(run, farm, options, effects, { show });
      show(terminal('progress.printing', { farm: of.farm }));
      const sheets = datedOn(await printing(() => printer!.print(book.html)), run.today);
      const file = run.write(`${slug}.pdf`, sheets);
      const [pages, paper] = [countSheets(sheets), of.paper ?? 'A4'];
      run.say(
        terminal(openOnly ? 'pdf.written-open-only' : 'pdf.written', {
          file,
          ...farmCounted(farm),
          pages: counted(pages, 'page'),
          paper,
        }),
      );
      sayPictures(run, slug, book);
      return {
        farm: slug,
        file,
        animals: cases.length,
        pages,
        paper,
        openOnly,
        bytes: sheets.length,
        pictures: picturesCounted(book),
      };
    });
    return run.end({ pdfs: written, refused: run.farmsRefused, problems: run.problems });
  } finally {
    await printer?.close();
  }
}

async function printerOn(effects: Effects) {
  const found = effects.browser();
  if ('missing' in found) throw new WrongUse(noBrowser(found));
  return await printing(() => openPrinter({ browser: found.path }));
}

async function printing<T>(work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    throw error instanceof PrintingTrouble ? new WrongUse(printingTroubleInWords(error)) : error;
  }
}
