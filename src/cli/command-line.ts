import { Command, InvalidArgumentError, Option } from 'commander';
import type { ArchiveOptions } from './archive/archive-options.js';
import type { VerifyOptions } from './archive/verify.js';
import type { AuditOptions } from './audit.js';
import type { BooksOptions } from './books.js';
import {
  type CommonOptions,
  readDay,
  readPeriodGiven,
  readSlug,
  withCommonOptions,
} from './common-options.js';
import type { CostsOptions } from './costs.js';
import type { Effects } from './effects.js';
import type { ExportOptions } from './export.js';
import { addKeepingCommands } from './keep/keeping-commands.js';
import { withKeepingOptions } from './keep/keeping-options.js';
import type { PriorFrom } from './forecast.js';
import type { FormOptions } from './form.js';
import type { HandoverOptions } from './handover.js';
import type { ExitCode } from './exit-code.js';
import { addPostCommand } from './post/post-command.js';
import type { OverviewOptions } from './overview.js';
import type { RoundOptions } from './round.js';
import type { SealOptions } from './seal.js';
import type { SheetOptions } from './sheet.js';
import type { TakeOptions } from './take.js';
import type { UpgradeOptions } from './upgrade.js';
import { versionOf } from './version-of.js';
import type { YardOptions } from './yard.js';

/** Each command's work lies in a file of its own, read only when it is called: `check` need not load the book's engine. */
export function commandLine(effects: Effects, ended: (code: ExitCode) => void): Command {
  const program = new Command('growdown')
    .description('Case books for chronically lame dairy cows.')
    .version(versionOf(), '--version', 'say which version this is')
    .helpOption('--help', 'say how a command is used')
    .helpCommand('help [command]', 'say how a command is used')
    .exitOverride()
    .configureOutput({ writeOut: effects.print, writeErr: effects.warn })
    .showSuggestionAfterError(true)
    .showHelpAfterError('`growdown COMMAND --help` lists what a command takes');

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
        const { watchBooks } = await import('./watch/watch-books.js');
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
    .action(async (animal: string, options: CommonOptions & { out: string; maxMb?: number }) => {
      const { caseAlone } = await import('./case.js');
      ended(await caseAlone(animal, options, effects));
    });

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
      ended(costs(options, effects));
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
      ended(audit(options, effects));
    });

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
        const { mayGo: listMayGo } = await import('./archive/may-go.js');
        ended(listMayGo(options, effects));
        return;
      }
      const { archive } = await import('./archive/archive.js');
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
      const { verify } = await import('./archive/verify.js');
      ended(await verify(path, options, effects));
    });

  withCommonOptions(program.command('round'))
    .description('print who is to be seen where and when over all farms, and write it as one page to print')
    .option('--out <folder>', 'where the page and the calendars go', './books')
    .option(
      '--from <day>',
      'only visits from this day on, and at farms visited on other days only what falls due from it',
      readDay,
    )
    .option(
      '--to <day>',
      "only visits, and what falls due, up to this day (default: each farm's next visit)",
      readDay,
    )
    .option('--ics', "write each farm's calendar too, and one of all farms")
    .action(async (options: RoundOptions) => {
      const { round } = await import('./round.js');
      ended(round(options, effects));
    });

  withCommonOptions(program.command('overview'))
    .description('write the whole business on one page, for your own eyes: it names every farm')
    .option('--out <folder>', 'where the page goes', './books')
    .action(async (options: OverviewOptions) => {
      const { overview } = await import('./overview.js');
      ended(overview(options, effects));
    });

  withCommonOptions(program.command('check'))
    .description('check the case files and list what is wrong and what is missing; nothing is written')
    .option(
      '--head <hash>',
      'look for this head of a ledger, as printed in a book or a mail: its first 16 digits or more',
    )
    .action(async (options: CommonOptions & { head?: string }) => {
      const { check } = await import('./check.js');
      ended(check(options, effects));
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
      ended(forecast(options, effects));
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

  addKeepingCommands(program, effects, ended);

  withKeepingOptions(program.command('upgrade'))
    .description('bring case files of an older format to the newest; they are read without it as well')
    .option('--farm <slug>', "only this farm: its folder's name", readSlug)
    .action(async (options: UpgradeOptions) => {
      const { upgrade } = await import('./upgrade.js');
      ended(await upgrade(options, effects));
    });

  withKeepingOptions(program.command('seal'))
    .description('seal the records that were written by hand, so that a later change of them shows')
    .option('--farm <slug>', "only this farm: its folder's name", readSlug)
    .option(
      '--taken-out <farm/animal>',
      'say in the open that what is missing of her was taken out on purpose; FARM alone is its farm.md',
    )
    .option('--why <reason>', 'why it was taken out')
    .option('--by <name>', 'who took it out (default: the trimmer of business.md)')
    .action(async (options: SealOptions) => {
      const { seal } = await import('./seal.js');
      ended(await seal(options, effects));
    });

  withKeepingOptions(program.command('take [note]'))
    .description(
      'read a note from the yard (a text file; - for standard input) and add the visits it tells of; without one, add what phones have sent',
    )
    .option('--farm <slug>', 'the farm meant where the note names none', readSlug)
    .option('--yes', 'add what is certain without asking')
    .option('--set-aside <id>', 'leave this one visit in the inbox untaken, for good')
    .action(async (note: string | undefined, options: TakeOptions & { setAside?: string }) => {
      if (note === undefined) {
        const { takeInbox } = await import('./take/take-inbox.js');
        ended(await takeInbox(options, effects));
        return;
      }
      const { take } = await import('./take.js');
      ended(await take(note, options, effects));
    });

  program
    .command('form')
    .argument('<farm>', "the farm's folder")
    .description('write the form of visits of one farm as one file that needs no network')
    .option('--cases <folder>', 'the folder that holds a folder for each farm', './cases')
    .option('--today <day>', 'work as on this day, YYYY-MM-DD (default: today)', readDay)
    .option('--json', 'print the result as JSON')
    .option('--out <folder>', 'where the form goes', './books')
    .action(async (farm: string, options: FormOptions) => {
      const { form } = await import('./form.js');
      ended(form(readSlug(farm), options, effects));
    });

  addPostCommand(program, effects, ended);

  program
    .command('yard')
    .description('serve forms of visits to a browser on this computer, or to a phone in the same Wi-Fi')
    .option('--cases <folder>', 'the folder that holds a folder for each farm', './cases')
    .option('--today <day>', 'work as on this day, YYYY-MM-DD (default: today)', readDay)
    .option('--lan', 'let other devices in the same network open it')
    .option('--port <number>', 'the port it listens on; 0: any that is free', readPort, 8260)
    .action(async (options: YardOptions) => {
      const { yard } = await import('./yard.js');
      ended(await yard(options, effects));
    });

  return program;
}

function readScheme(value: string): string {
  if (!/^[\w-]+(?:\.[\w-]+)+$/.test(value))
    throw new InvalidArgumentError('Expected words with points between, as in org.example.tags.');
  return value;
}

function readPort(value: string): number {
  const port = Number(value);
  if (!/^\d{1,5}$/.test(value) || port > 65_535)
    throw new InvalidArgumentError('Expected a whole number from 0 to 65535.');
  return port;
}

function readMb(value: string): number {
  const mb = Number(value);
  if (!/^\d+(?:\.\d+)?$/.test(value) || mb <= 0)
    throw new InvalidArgumentError('Expected a number above 0, as in 6 or 2.5.');
  return mb;
}
