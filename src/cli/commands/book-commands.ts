import { type Command, InvalidArgumentError } from 'commander';
import type { BooksOptions } from '../books.js';
import { type CommonOptions, withCommonOptions } from '../../run/common-options.js';
import type { Effects } from '../../run/effects.js';
import type { ExitCode } from '../../run/exit-code.js';

/** The commands that write whole books, or one page of one. */
export function addBookCommands(program: Command, effects: Effects, ended: (code: ExitCode) => void): void {
  withCommonOptions(program.command('books'))
    .description('check the case files and write one book a farm')
    .option('--out <folder>', 'where the books go', './books')
    .option('--open-only', 'short books: closed cases are left out, and each book says how many')
    .option(
      '--max-mb <number>',
      'keep each book under this size, million bytes, by making its pictures smaller (default: 6)',
      readMb,
    )
    .option('--watch', "write a farm's book again whenever one of its files is saved, until Ctrl+C")
    .action(async ({ watch, ...options }: BooksOptions & { watch?: true }) => {
      if (watch) {
        const { watchBooks } = await import('../watch-books.js');
        ended(await watchBooks(options, effects));
        return;
      }
      const { books } = await import('../books.js');
      ended(await books(options, effects));
    });

  withCommonOptions(program.command('pdf'))
    .description('print one PDF a farm by an installed browser: Chromium, Google Chrome or Microsoft Edge')
    .option('--out <folder>', 'where the PDFs go', './books')
    .option('--open-only', 'short books: closed cases are left out, and each book says how many')
    .option(
      '--max-mb <number>',
      'keep the book that is printed under this size, million bytes, by making its pictures smaller (default: 6)',
      readMb,
    )
    .action(async (options: BooksOptions) => {
      const { pdf } = await import('../pdf.js');
      ended(await pdf(options, effects));
    });

  withCommonOptions(program.command('case'))
    .argument('<animal>', 'FARM/ANIMAL: her number, the name of her file or her official tag')
    .description("write one animal's page alone")
    .option('--out <folder>', 'where the page goes, in a folder of its farm', './books')
    .option(
      '--max-mb <number>',
      'keep the page under this size, million bytes, by making its pictures smaller (default: 6)',
      readMb,
    )
    .action(async (animal: string, options: CommonOptions & { out: string; maxMb?: number }) => {
      const { caseAlone } = await import('../case.js');
      ended(await caseAlone(animal, options, effects));
    });
}

function readMb(value: string): number {
  const mb = Number(value);
  if (!/^\d+(?:\.\d+)?$/.test(value) || mb <= 0)
    throw new InvalidArgumentError('Expected a number above 0, as in 6 or 2.5.');
  return mb;
}
