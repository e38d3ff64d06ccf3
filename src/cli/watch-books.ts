import { findFolder } from '../keep/kept-file.js';
import { books } from './books.js';
import type { BooksOptions } from './make-book.js';
import { folderOf, type ExitCode, exitCode, exitOf, WrongUse } from '../run/exit-code.js';
import type { Effects, WatchMachine } from '../run/effects.js';
import { keepingOf } from '../run/write-change.js';
import { given } from '../record/given.js';
import { terminal } from '../problem/message.js';

/** What a saved file asks to be built anew: one farm's book, all of them, or nothing. */
type Touched = { readonly farm: string } | 'all' | undefined;

/** Records, and the pictures they name. */
const inBooks = /\.(?:md|jpe?g|png|webp)$/i;

/**
 * @example farmOfSave('quernholt/2086.md') // → { farm: 'quernholt' }
 * @example farmOfSave('business.md') // → 'all'
 * @example farmOfSave('quernholt/2086.md~') // → undefined
 */
export function farmOfSave(path: string): Touched {
  const [first = '', ...rest] = path.split('/');
  if (rest.length === 0 && first === 'business.md') return 'all';
  const folderGone = rest.length === 0 && first !== '' && !first.includes('.');
  return folderGone || (rest.length > 0 && inBooks.test(path)) ? { farm: first } : undefined;
}

/** Files saved together, by an editor or by this program, are built once: so long nothing may have been saved. */
const quietMs = 150;

/**
 * Writes the books, then a farm's book again whenever a file of hers is saved, and all when `business.md` is, until it is
 * told to stop. A broken save shows its problems and leaves the last good book.
 *
 * Other farms' books take up what a farm's records teach when they are built next.
 *
 * Checked: tests/cli/watch-books.test.ts
 */
export async function watchBooks(options: BooksOptions, effects: Effects): Promise<ExitCode> {
  const machine = effects.watch;
  if (!machine) throw new WrongUse(terminal('watch.not-here'));
  if (options.json === true) throw new WrongUse(terminal('watch.not-json'));
  const found = findFolder(keepingOf(options, effects));
  if (found.outcome !== 'found') return await books(options, effects);
  const saved = savedFarms(options.farm);
  const end = await machine.watch(folderOf(effects, found.folder), saved.tell);
  try {
    const first = await build(options, machine, effects);
    if (first === exitCode.wrongUse) return first;
    // A run that found every book as it was has loaded nothing that makes one: the first save need not wait for it.
    await import('./make-book.js');
    await (await import('../book/render-book.js')).readyToDraw();
    effects.print(`${terminal('watch.watching')}\n`);
    let running = true;
    const stopped = machine.stopped.then(() => (running = false));
    for (;;) {
      await Promise.race([saved.any(), stopped]);
      if (!running) return exitCode.well;
      do saved.quiet();
      while ((await effects.disk.wait(quietMs), saved.more()));
      for (const farm of saved.take()) await buildFarm(farm, options, machine, effects);
    }
  } finally {
    await end();
  }
}

/** The farms to build since the last time, gathered as files are saved. */
function savedFarms(only: string | undefined) {
  const farms = new Set<string | undefined>();
  let more = false;
  let wake = (): void => {};
  return {
    tell: (path: string): void => {
      const touched = farmOfSave(path);
      if (touched === undefined) return;
      if (touched === 'all') farms.add(only);
      else if (only === undefined || touched.farm === only) farms.add(touched.farm);
      else return;
      more = true;
      wake();
    },
    any: (): Promise<void> =>
      farms.size > 0 ? Promise.resolve() : new Promise((resolve) => (wake = resolve)),
    quiet: (): void => void (more = false),
    more: (): boolean => more,
    /** Undefined is every farm. */
    take: (): readonly (string | undefined)[] => {
      const taken = farms.has(undefined)
        ? [undefined]
        : [...farms].toSorted((a, b) => ((a ?? '') < (b ?? '') ? -1 : 1));
      farms.clear();
      return taken;
    },
  };
}

async function buildFarm(
  farm: string | undefined,
  options: BooksOptions,
  machine: WatchMachine,
  effects: Effects,
): Promise<void> {
  const found = findFolder(keepingOf(options, effects));
  if (farm !== undefined && found.outcome === 'found' && !found.farms.some(({ slug }) => slug === farm)) {
    effects.warn(`${terminal('watch.gone', { farm })}\n`);
    return;
  }
  try {
    await build({ ...options, ...given({ farm }) }, machine, effects);
  } catch (error) {
    // A book that cannot be written now, since it is open elsewhere, may be at the next save.
    if (!(error instanceof WrongUse)) throw error;
    exitOf(error, effects);
  }
}

async function build(options: BooksOptions, machine: WatchMachine, effects: Effects): Promise<ExitCode> {
  const began = machine.milliseconds();
  const code = await books(options, effects);
  const seconds = ((machine.milliseconds() - began) / 1000).toFixed(1);
  const how = code === exitCode.well ? 'done' : 'done-in-part';
  const { farm } = options;
  const said =
    farm === undefined
      ? terminal(`watch.all.${how}`, { seconds })
      : terminal(`watch.farm.${how}`, { farm, seconds });
  effects.print(`  ${said}\n`);
  return code;
}
