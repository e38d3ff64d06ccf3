import { CommanderError, Command, InvalidArgumentError, Option } from 'commander';
import type { Effects } from '../run/effects.js';
import {
  exitCode,
  type ExitCode,
  exitOf,
  readSlug,
  readDay,
  withCommonOptions,
  readPeriodGiven,
} from '../run/exit-code.js';
import { addBookCommands, addPageCommands, addRecordCommands } from './commands.js';
import { addKeepingCommands } from './keep/keeping-commands.js';
import { versionOf, type OverviewOptions } from './overview.js';
import type { SealOptions } from './seal.js';
import type { UpgradeOptions } from './upgrade.js';
import { withKeepingOptions } from '../run/write-change.js';
import type { RoundOptions } from './round.js';
import { sendForms } from '../record/words.js';
import { mailNumbers } from '../reference/numbers.js';
import type { PostOptions } from '../post/sending/post-run.js';
import type { ArchiveOptions } from '../archive/archive-facts.js';
import type { VerifyOptions } from './verify.js';
import type { FormOptions } from './form.js';
import type { TakeOptions } from './take.js';
import type { YardOptions } from './yard.js';

/** In the order `--help` lists them. */
const groups = [
  addBookCommands,
  addPageCommands,
  addArchiveCommands,
  addBusinessCommands,
  addRecordCommands,
  addKeepingCommands,
  addUpkeepCommands,
  addYardCommands,
  addPostCommand,
];

/** Each command's work lies in a file of its own, read only when it is called: `check` need not load the book's engine. */
function commandLine(effects: Effects, ended: (code: ExitCode) => void): Command {
  const program = new Command('growdown')
    .description('Case books for chronically lame dairy cows.')
    .version(versionOf(), '--version', 'say which version this is')
    .helpOption('--help', 'say how a command is used')
    .helpCommand('help [command]', 'say how a command is used')
    .exitOverride()
    .configureOutput({ writeOut: effects.print, writeErr: effects.warn })
    .showSuggestionAfterError(true)
    .showHelpAfterError('`growdown COMMAND --help` lists what a command takes');

  for (const add of groups) add(program, effects, ended);
  return program;
}

/** The commands that bring files to the newest format and seal what was written by hand. */
function addUpkeepCommands(program: Command, effects: Effects, ended: (code: ExitCode) => void): void {
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
}

/** The commands over all farms, for the trimmer alone. */
function addBusinessCommands(program: Command, effects: Effects, ended: (code: ExitCode) => void): void {
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
      ended(await round(options, effects));
    });

  withCommonOptions(program.command('overview'))
    .description('write the whole business on one page, for your own eyes: it names every farm')
    .option('--out <folder>', 'where the page goes', './books')
    .action(async (options: OverviewOptions) => {
      const { overview } = await import('./overview.js');
      ended(overview(options, effects));
    });
}

/** `growdown post`: its options; its work is loaded when it is called. */
function addPostCommand(program: Command, effects: Effects, ended: (code: ExitCode) => void): void {
  program
    .command('post')
    .argument('[farm]', "the farm's folder")
    .description("write a farm's letter with its book and calendar as a draft to open and send, or send it")
    .option('--cases <folder>', 'the folder that holds a folder for each farm', './cases')
    .option('--today <day>', 'work as on this day, YYYY-MM-DD (default: today)', readDay)
    .option('--json', 'print the result as JSON')
    .option('--out <folder>', 'where drafts go', './books')
    .option('--all-due', 'every farm with news since its last mail')
    .option('--send', 'send by the mail server that is set, under TLS, and note what went')
    .option('--again', 'send what went already')
    .option('--came', 'note that a letter that may have gone did come; nothing is sent')
    .option('--dry-run', 'say to whom and how large; nothing is written or sent')
    .addOption(
      new Option(
        '--attach <form>',
        "how the book goes along (default: the farm's `send`, else html)",
      ).choices(sendForms),
    )
    .option('--open-only', 'a short book: closed cases are left out')
    .option(
      '--max-mb <number>',
      'how large the message may be, million bytes, at most 20 (default: 10)',
      readMailMb,
    )
    .action(async (farm: string | undefined, options: PostOptions) => {
      const { post } = await import('./post.js');
      ended(await post(farm === undefined ? undefined : readSlug(farm), options, effects));
    });
}

function readMailMb(value: string): number {
  const mb = Number(value);
  if (!/^\d+(?:\.\d+)?$/.test(value) || mb <= 0)
    throw new InvalidArgumentError('Expected a number above 0, as in 10 or 2.5.');
  const most = mailNumbers.mostMb.value;
  if (mb > most)
    throw new InvalidArgumentError(
      `Expected at most ${most}: many mail boxes send a larger message back. Hand the book over another way.`,
    );
  return mb;
}

/** The commands that put a farm away for years, and check what was put away. */
function addArchiveCommands(program: Command, effects: Effects, ended: (code: ExitCode) => void): void {
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
      const { archive } = await import('./archive.js');
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
      const { verify } = await import('./verify.js');
      ended(await verify(path, options, effects));
    });
}

/** The commands that carry visits from the yard into the case files. */
function addYardCommands(program: Command, effects: Effects, ended: (code: ExitCode) => void): void {
  withKeepingOptions(program.command('take [note]'))
    .description(
      'read a note from the yard (a text file; - for standard input) and add the visits it tells of; without one, add what phones have sent',
    )
    .option('--farm <slug>', 'the farm meant where the note names none', readSlug)
    .option('--yes', 'add what is certain without asking')
    .option('--set-aside <id>', 'leave this one visit in the inbox untaken, for good')
    .action(async (note: string | undefined, options: TakeOptions & { setAside?: string }) => {
      if (note === undefined) {
        const { takeInbox } = await import('./take-inbox.js');
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
}

function readPort(value: string): number {
  const port = Number(value);
  if (!/^\d{1,5}$/.test(value) || port > 65_535)
    throw new InvalidArgumentError('Expected a whole number from 0 to 65535.');
  return port;
}

/**
 * Runs one command and says how it went.
 *
 * Shape: the words after `growdown` → an exit code (0 well, 1 problems in the records, 2 wrong use, 3 our own fault)
 * Error: never throws; what is wrong stands on `effects.warn`
 * Checked: tests/cli
 */
export async function runCommand(words: readonly string[], effects: Effects): Promise<ExitCode> {
  let code: ExitCode = exitCode.well;
  const program = commandLine(effects, (given) => (code = given));
  try {
    if (words.length === 0) {
      program.outputHelp({ error: true });
      return exitCode.wrongUse;
    }
    await program.parseAsync([...words], { from: 'user' });
    return code;
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? exitCode.well : exitCode.wrongUse;
    return exitOf(error, effects);
  }
}
