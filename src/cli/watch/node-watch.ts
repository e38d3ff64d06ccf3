import { relative } from 'node:path';
import type { WatchMachine } from './watch-machine.js';

/** Of this computer. The library is loaded when something is watched. */
export function nodeWatch(): WatchMachine {
  return {
    watch: async (folder, onSaved) => {
      const { watch } = await import('chokidar');
      const from = (path: string): string => relative(folder, path).replaceAll('\\', '/');
      const watcher = watch(folder, {
        ignoreInitial: true,
        // Dot-folders and dot-files are nobody's records: our own memory, and what editors and saving leave beside a file.
        ignored: (path: string) =>
          from(path)
            .split('/')
            .some((part) => part.startsWith('.') && part !== '..'),
        // A save by rename is one save, not a file that is gone and one that is new.
        atomic: true,
      });
      const told = (path: string): void => onSaved(from(path));
      for (const event of ['add', 'change', 'unlink', 'unlinkDir'] as const) watcher.on(event, told);
      // A folder that is taken away while it is looked at is no fault: what it held is told as gone.
      watcher.on('error', () => {});
      await new Promise<void>((resolve) => void watcher.once('ready', () => resolve()));
      return () => watcher.close();
    },
    stopped: new Promise((resolve) => {
      process.once('SIGINT', () => resolve());
      process.once('SIGTERM', () => resolve());
    }),
    milliseconds: () => performance.now(),
  };
}
