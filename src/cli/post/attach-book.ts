import type { Attached } from '../../post/compose-message.js';
import { countSheets } from '../../pdf/count-sheets.js';
import { datedOn } from '../../pdf/dated-on.js';
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

export interface BookAttached {
  readonly attached: readonly Attached[];
  readonly warnings: readonly string[];
}

/**
 * The farm's book as it is to travel: as HTML, as PDF printed from that very HTML, or both, small enough for the message.
 * A farm that has both sent gets the HTML alone, with a warning, where no browser prints.
 *
 * Error:   NoLetter where only a PDF is wanted, or one was asked for now, and no browser prints
 * Checked: tests/cli/post/draft.test.ts
 */
export async function attachBook(
  run: PostRun,
  { farm, seals }: FarmToTell,
  maxMb: number,
): Promise<BookAttached> {
  const { practice, today, archive, options, effects } = run;
  const form = formOf(run, farm);
  const share = hundredths((maxMb * mailNumbers.bookShare.value) / (form === 'both' ? 2 : 1));
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
  if (form === 'html') return { attached: [html], warnings };
  const sheets = await printed(run, book.html).catch((error: unknown) => {
    if (!(error instanceof NoLetter)) throw error;
    if (form === 'pdf' || options.attach)
      throw new NoLetter(
        error.why,
        `${error.message}\nOr go on without a PDF: \`--attach html\` sends the book as HTML alone.`,
      );
    warnings.push(`${farm.slug}: the book goes along as HTML alone: ${error.message}\n`);
    return undefined;
  });
  if (!sheets) return { attached: [html], warnings };
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

async function printed({ printer, today }: PostRun, html: string): Promise<Uint8Array> {
  try {
    return datedOn(await (await printer()).print(html), today);
  } catch (error) {
    if (!(error instanceof PrintingTrouble)) throw error;
    throw new NoLetter('no-browser', printingTroubleInWords(error));
  }
}

/** What was asked for now, else what the farm wishes, else HTML, which needs no browser here. */
function formOf({ options }: PostRun, { farm }: FarmRecord): SendForm {
  return options.attach ?? farm.send ?? 'html';
}
