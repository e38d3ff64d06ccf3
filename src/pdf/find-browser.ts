import { posix, win32 } from 'node:path';
import type { PrintingTrouble } from './open-printer.js';
import { terminal } from '../problem/message.js';

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

/** What to install, where no browser was found that can print. */
export function noBrowser(found: Extract<BrowserFound, { missing: string }>): string {
  if (found.missing === 'not-at-named-path') return terminal('browser.not-there', { path: found.named });
  return `${terminal('browser.none')}\n${terminal('browser.without')}`;
}

/** A browser that is there and does not print: what it did, and the ways out. */
export function printingTroubleInWords({ kind, browser, cause }: PrintingTrouble): string {
  const said = firstLineOf(cause);
  return [
    terminal(`browser.trouble.${kind}`, { browser }),
    ...(said === '' ? [] : [terminal('browser.says', { said })]),
    terminal('browser.again'),
    terminal('browser.without'),
  ].join('\n');
}

function firstLineOf(cause: unknown): string {
  if (!(cause instanceof Error)) return '';
  return cause.message.split('\n')[0]!.slice(0, 200);
}
