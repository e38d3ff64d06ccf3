import { openPrinter, type Printer } from '../../pdf/open-printer.js';
import { PrintingTrouble } from '../../pdf/printing-trouble.js';
import type { Effects } from '../effects.js';

/** A browser that prints, where one is wanted and there is one; where not, that is said, and the archive is made without PDFs. */
export async function printerIfAny(wanted: boolean, effects: Effects): Promise<Printer | undefined> {
  if (!wanted) return undefined;
  const found = effects.browser();
  try {
    if (!('missing' in found)) return await openPrinter({ browser: found.path });
  } catch (error) {
    if (!(error instanceof PrintingTrouble)) throw error;
  }
  effects.warn(
    'no browser that prints was found, so the archives hold no PDF; the books are in them as pages\n',
  );
  return undefined;
}
