import type { Command } from 'commander';
import type { ArchiveOptions } from '../archive/archive-options.js';
import type { VerifyOptions } from '../archive/verify.js';
import { readPeriodGiven, withCommonOptions } from '../common-options.js';
import type { Effects } from '../effects.js';
import type { ExitCode } from '../exit-code.js';

/** The commands that put a farm away for years, and check what was put away. */
export function addArchiveCommands(
  program: Command,
  effects: Effects,
  ended: (code: ExitCode) => void,
): void {
  withCommonOptions(program.command('archive'))
    .description('write an archive a farm, to keep for years: records, pictures, books and how to check them')
    .option(
      '--period <period>',
      'only the cases of this time: 2026, 2026-03 or 2026-01-01..2026-03-31 (default: all)',
      readPeriodGiven,
    )
    .option('--zip', 'write each as one zip file too')
    .option('--keep-location', 'leave in pictures and films where they were taken')
    .option('--clips', 'put films in as they are, though they may tell where they were taken')
    .option('--no-contacts', 'leave out mail addresses, telephone numbers and postal addresses')
    .option('--no-pdf', 'no PDF of the books, though a browser that prints is there')
    .option('--out <folder>', 'where the archives go, each in a folder of its own', './archives')
    .option('--may-go', 'write nothing; list the cases that have been kept long enough')
    .action(async ({ mayGo, ...options }: ArchiveOptions & { mayGo?: true }) => {
      if (mayGo) {
        const { mayGo: listMayGo } = await import('../archive/may-go.js');
        ended(listMayGo(options, effects));
        return;
      }
      const { archive } = await import('../archive/archive.js');
      ended(await archive(options, effects));
    });

  program
    .command('verify')
    .argument('<path>', 'the folder or the zip that growdown archive wrote')
    .description(
      'check an archive: nothing lost, nothing changed, each record as it was sealed; nothing is unpacked or written',
    )
    .option(
      '--head <hash>',
      'the head of the ledger as printed in a book or a mail: its first 16 digits or more',
    )
    .option('--json', 'print the result as JSON')
    .action(async (path: string, options: VerifyOptions) => {
      const { verify } = await import('../archive/verify.js');
      ended(await verify(path, options, effects));
    });
}
