import type { BrowserFound } from './find-browser.js';
import type { PrintingTrouble, PrintingTroubleKind } from './printing-trouble.js';

const withoutOne =
  '`growdown books` needs none: its books open in any browser, and print from there with its own Print command.';

/** What to install, where no browser was found that can print. */
export function noBrowser(found: Extract<BrowserFound, { missing: string }>): string {
  if (found.missing === 'not-at-named-path')
    return `CHROMIUM_PATH names ${found.named}, and no program is there, so nothing was printed: put it right, or clear it so that an installed browser is looked for`;
  return `no browser that can print was found, so no PDF was written. Install one of these, then run this again:
  Windows   Microsoft Edge (most have it), or Google Chrome from https://www.google.com/chrome/
  macOS     Google Chrome from https://www.google.com/chrome/, or Chromium, or Microsoft Edge
  Linux     Chromium: apt install chromium, dnf install chromium, or your system's own way
One that stands elsewhere is named by CHROMIUM_PATH, the path of its program.
${withoutOne}`;
}

const troubles: Readonly<Record<PrintingTroubleKind, string>> = {
  'did-not-start': 'does not start',
  'no-answer': 'gave no answer in time and was ended',
  ended: 'ended before the book was printed; the machine may be short of memory',
};

/** A browser that is there and does not print: what it did, and the ways out. */
export function printingTroubleInWords({ kind, browser, cause }: PrintingTrouble): string {
  const line = firstLineOf(cause);
  return `the browser ${browser} ${troubles[kind]}. No PDF was written of this book, and one that is there was left as it was.
${line && `It says: ${line}\n`}Try again; if it comes back, update that browser, or name another with CHROMIUM_PATH.
${withoutOne}`;
}

function firstLineOf(cause: unknown): string {
  if (!(cause instanceof Error)) return '';
  return cause.message.split('\n')[0]!.slice(0, 200);
}
