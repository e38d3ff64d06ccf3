import type { Attached } from '../../post/compose-message.js';
import { countSheets } from '../../pdf/count-sheets.js';
import { datedOn } from '../../pdf/dated-on.js';
import type { Printer } from '../../pdf/open-printer.js';
import { PrintingTrouble } from '../../pdf/printing-trouble.js';
import type { FarmRecord } from '../../record/practice.js';
import type { SendForm } from '../../record/words.js';
import { mailNumbers } from '../../reference/mail-numbers.js';
import { bookWithin } from '../book-within.js';
import { isPictureThere } from '../is-picture-there.js';
import { pictureWarnings } from '../pictures-said.js';
import { printingTroubleInWords } from '../printing-in-words.js';
import { readPicture } from '../read-picture.js';
import { NoLetter, type PostRun } from './post-run.js';
import type { FarmToTell } from './seal-for-mail.js';
import { goOnWithout } from './printer-for-mail.js';

export interface BookAttached {
  readonly attached: readonly Attached[];
  readonly warnings: readonly string[];
}

/**
 * The farm's book as it is to travel: as HTML, as PDF printed from that very HTML, or both, small enough for the message.
 *
 * Error: NoLetter where it is to be printed and no browser is there
 */
export async function attachBook(
  run: PostRun,
  { farm, seals }: FarmToTell,
  maxMb: number,
): Promise<BookAttached> {
  const { practice, today, archive, options, effects } = run;
  const form = formOf(run, farm);
  const share = hundredths((maxMb * mailNumbers.bookShare.value) / (form === 'both' ? 2 : 1));
  const printer = form === 'html' ? undefined : await run.printer();
  const book = await bookWithin(
    practice,
    farm,
    today,
    {
      archive,
      openOnly: options.openOnly === true,
      seals,
      isPictureThere: isPictureThere(effects, options.cases, farm.slug),
    },
    { maxMb: share, read: readPicture(effects, options.cases, farm.slug) },
  );
  const name = `${farm.slug}-${today}`;
  const html: Attached = {
    kind: 'html',
    file: { name: `${name}.html`, type: 'text/html', content: Buffer.from(book.html) },
  };
  // How large the book is alone does not matter here: the message is measured whole.
  const warnings = pictureWarnings(farm.slug, { ...book, bytes: 0 });
  if (!printer) return { attached: [html], warnings };
  const sheets = datedOn(await printed(printer, book.html), today);
  const pdf: Attached = {
    kind: 'pdf',
    pages: countSheets(sheets),
    file: { name: `${name}.pdf`, type: 'application/pdf', content: sheets },
  };
  return { attached: form === 'both' ? [html, pdf] : [pdf], warnings };
}

/** A book says its limit where a picture had to be left out. */
function hundredths(mb: number): number {
  return Math.round(mb * 100) / 100;
}

async function printed(printer: Printer, html: string): Promise<Uint8Array> {
  try {
    return await printer.print(html);
  } catch (error) {
    throw error instanceof PrintingTrouble
      ? new NoLetter('no-browser', `${printingTroubleInWords(error)}\n${goOnWithout}`)
      : error;
  }
}

/** What was asked for now, else what the farm wishes, else HTML, which needs no browser here. */
function formOf({ options }: PostRun, { farm }: FarmRecord): SendForm {
  return options.attach ?? farm.send ?? 'html';
}
