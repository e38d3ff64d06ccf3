import { type Command, InvalidArgumentError, Option } from 'commander';
import type { BooksOptions } from './books.js';
import {
  type CommonOptions,
  withCommonOptions,
  readDay,
  readPeriodGiven,
  type ExitCode,
} from '../run/exit-code.js';
import type { Effects } from '../run/effects.js';
import type { AuditOptions } from './audit.js';
import type { CostsOptions } from './costs.js';
import type { HandoverOptions } from './handover.js';
import type { SheetOptions } from './sheet.js';
import type { ExportOptions } from './export.js';
import type { PriorFrom } from './forecast.js';

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
        const { watchBooks } = await import('./watch-books.js');
        ended(await watchBooks(options, effects));
        return;
      }
      const { books } = await import('./books.js');
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
      const { pdf } = await import('./pdf.js');
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
    .action(async (animal: string, options: BooksOptions) => {
      const { caseAlone } = await import('./case.js');
      ended(await caseAlone(animal, options, effects));
    });
}

function readMb(value: string): number {
  const mb = Number(value);
  if (!/^\d+(?:\.\d+)?$/.test(value) || mb <= 0)
    throw new InvalidArgumentError('Expected a number above 0, as in 6 or 2.5.');
  return mb;
}

/** The commands that write pages and tables of a farm that are no book. */
export function addPageCommands(program: Command, effects: Effects, ended: (code: ExitCode) => void): void {
  withCommonOptions(program.command('handover'))
    .argument('<animal>', 'FARM/ANIMAL: her number, the name of her file or her official tag')
    .description('write one page about an animal for the veterinary surgeon, with room for the reply')
    .option('--out <folder>', 'where the page goes, in a folder of its farm', './books')
    .option('--ask <question>', 'what you ask the vet, in quotes; it stands on this page alone')
    .option('--mail', "write a draft of a mail to the farm's vet too, with the page in it; nothing is sent")
    .action(async (animal: string, options: HandoverOptions) => {
      const { handover } = await import('./handover.js');
      ended(await handover(animal, options, effects));
    });

  withCommonOptions(program.command('costs'))
    .description(
      'print what cases have cost and what completing them would take, where business.md gives prices',
    )
    .option(
      '--period <period>',
      'only work and withheld milk of this time: 2026, 2026-03 or 2026-01-01..2026-03-31',
      readPeriodGiven,
    )
    .option('--csv', 'write the work done as a CSV file a farm instead, for a bill; needs no prices')
    .option('--out <folder>', 'where the CSV files go', './books')
    .action(async (options: CostsOptions) => {
      const { costs } = await import('./costs.js');
      ended(await costs(options, effects));
    });

  withCommonOptions(program.command('sheet'))
    .description(
      'write one yard sheet a farm, to print: a page to measure by and one to read after, for each animal due',
    )
    .option('--out <folder>', 'where the sheets go', './books')
    .option('--from <day>', 'only what falls due from this day on', readDay)
    .option(
      '--to <day>',
      "what falls due up to this day (default: the farm's next visit, else a week ahead)",
      readDay,
    )
    .option('--all', 'every open case, due or not')
    .option('--blank', 'a first-visit sheet of no animal yet')
    .action(async (options: SheetOptions) => {
      const { sheet } = await import('./sheet.js');
      ended(await sheet(options, effects));
    });

  withCommonOptions(program.command('audit'))
    .description('write one audit pack a farm: what an auditor asks of a period, as a page and as CSV tables')
    .option(
      '--period <period>',
      'the time it covers: 2026, 2026-03 or 2026-01-01..2026-03-31 (default: the twelve months up to today)',
      readPeriodGiven,
    )
    .option('--out <folder>', 'where the packs go, each in a folder of its own', './audits')
    .action(async (options: AuditOptions) => {
      const { audit } = await import('./audit.js');
      ended(await audit(options, effects));
    });
}

/** The commands that tell what the records hold, and give them to other programs. */
export function addRecordCommands(program: Command, effects: Effects, ended: (code: ExitCode) => void): void {
  withCommonOptions(program.command('check'))
    .description('check the case files and list what is wrong and what is missing; nothing is written')
    .option(
      '--head <hash>',
      'look for this head of a ledger, as printed in a book or a mail: its first 16 digits or more',
    )
    .action(async (options: CommonOptions & { head?: string }) => {
      const { check } = await import('./check.js');
      ended(await check(options, effects));
    });

  withCommonOptions(program.command('forecast'))
    .description('print when each measured wall gap should have grown out, with its range')
    .addOption(
      new Option(
        '--prior <from>',
        "where a cow's expected growth comes from before she is measured: every other cow on file too, or published rates alone",
      )
        .choices(['archive', 'published'])
        .default('archive'),
    )
    .action(async (options: CommonOptions & { prior: PriorFrom }) => {
      const { forecast } = await import('./forecast.js');
      ended(await forecast(options, effects));
    });

  withCommonOptions(program.command('export'))
    .description('write the records for other programs: tables, whole records, or events of an open standard')
    .addOption(
      new Option(
        '--to <form>',
        'csv: tidy tables with a dictionary; json: whole records with their schema; icar: events of ICAR Animal Data Exchange',
      )
        .choices(['csv', 'json', 'icar'])
        .makeOptionMandatory(),
    )
    .option('--out <folder>', 'where the files go, in a folder named after the form', './export')
    .option(
      '--guard',
      'in tables, put an apostrophe before text a spreadsheet program would take for a formula',
    )
    .option('--tag-scheme <name>', 'in icar events, what the receiver calls official tags', readScheme)
    .action(async (options: ExportOptions) => {
      const { exportRecords } = await import('./export.js');
      ended(exportRecords(options, effects));
    });
}

function readScheme(value: string): string {
  if (!/^[\w-]+(?:\.[\w-]+)+$/.test(value))
    throw new InvalidArgumentError('Expected words with points between, as in org.example.tags.');
  return value;
}
