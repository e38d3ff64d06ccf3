import { posix, win32 } from 'node:path';
import type { PrintingTrouble, PrintingTroubleKind } from './open-printer.js';

/** What a search for a browser goes by; a test hands in its own. */
interface BrowserSearch {
  readonly platform: string;
  readonly env: Readonly<Record<string, string | undefined>>;
  /** Places by operating system: a name on the PATH, or a path, which may hold `${NAME}` of the environment. */
  readonly places: { readonly linux: readonly string[]; readonly [platform: string]: unknown };
  readonly isThere: (path: string) => boolean;
}

/** A browser to print with, or why there is none. */
export type BrowserFound =
  | { readonly path: string }
  | { readonly missing: 'none-installed' }
  | { readonly missing: 'not-at-named-path'; readonly named: string };

/**
 * The browser that prints: the one `CHROMIUM_PATH` names, else the first installed in a usual place.
 *
 * A wrong `CHROMIUM_PATH` is said and not passed over: who names a browser wants that one.
 *
 * Checked: tests/pdf/find-browser.test.ts
 */
export function findBrowser({ platform, env, places, isThere }: BrowserSearch): BrowserFound {
  const named = env['CHROMIUM_PATH'];
  if (named !== undefined && named !== '')
    return isThere(named) ? { path: named } : { missing: 'not-at-named-path', named };
  const usual = places[platform];
  for (const place of Array.isArray(usual) ? (usual as string[]) : places.linux)
    for (const path of pathsOf(place, platform, env)) if (isThere(path)) return { path };
  return { missing: 'none-installed' };
}

function pathsOf(place: string, platform: string, env: BrowserSearch['env']): string[] {
  const paths = platform === 'win32' ? win32 : posix;
  let known = true;
  const path = place.replaceAll(/\$\{([^}]+)\}/g, (_, name: string) => {
    const value = env[name];
    if (value === undefined || value === '') known = false;
    return value ?? '';
  });
  if (!known) return [];
  if (paths.isAbsolute(path)) return [path];
  return (env['PATH'] ?? '')
    .split(paths.delimiter)
    .filter((folder) => paths.isAbsolute(folder))
    .map((folder) => paths.join(folder, path));
}

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
