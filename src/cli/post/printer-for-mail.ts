import type { Printer } from '../../pdf/open-printer.js';
import { PrintingTrouble } from '../../pdf/printing-trouble.js';
import type { Effects } from '../effects.js';
import { noBrowser, printingTroubleInWords } from '../printing-in-words.js';
import { NoLetter } from './post-run.js';

/** A browser begun when the first farm wants a PDF, and ended with the run. One that is not there is told of to each. */
export function printerForMail(effects: Effects): {
  readonly printer: () => Promise<Printer>;
  readonly close: () => Promise<void>;
} {
  let begun: Promise<Printer> | undefined;
  return {
    printer: () => (begun ??= openedOn(effects)),
    close: async () => {
      const printer = await begun?.catch(() => undefined);
      await printer?.close();
    },
  };
}

async function openedOn(effects: Effects): Promise<Printer> {
  const found = effects.browser();
  if ('missing' in found) throw new NoLetter('no-browser', noBrowser(found));
  const { openPrinter } = await import('../../pdf/open-printer.js');
  try {
    return await openPrinter({ browser: found.path });
  } catch (error) {
    if (!(error instanceof PrintingTrouble)) throw error;
    throw new NoLetter('no-browser', printingTroubleInWords(error));
  }
}
