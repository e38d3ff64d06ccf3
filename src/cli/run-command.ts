import { CommanderError, Command, InvalidArgumentError, Option } from 'commander';
import type { Effects } from '../run/effects.js';
import {
  exitCode,
  type ExitCode,
  exitOf,
  readSlug,
  readDay,
  withCases,
  withCommonOptions,
  readPeriodGiven,
  WrongUse,
} from '../run/exit-code.js';
import { addBookCommands, addPageCommands, addRecordCommands, readMb } from './commands.js';
import { addKeepingCommands } from './keep/keeping-commands.js';
import { versionOf, type OverviewOptions } from './overview.js';
import type { SealOptions } from './seal.js';
import type { UpgradeOptions } from './upgrade.js';
import { withKeepingOptions } from '../run/write-change.js';
import type { RoundOptions } from './round.js';
import { type Paper, papers, sendForms } from '../record/words.js';
import { groupHelp, guide, help } from './guide.js';
import { mailNumbers } from '../reference/numbers.js';
import type { PostOptions } from '../post/sending/post-run.js';
import type { ArchiveOptions } from '../archive/archive-facts.js';
import type { VerifyOptions } from './verify.js';
import type { FormOptions } from './form.js';
import type { TakeOptions } from './take.js';
import type { YardOptions } from './yard.js';
import { terminal } from '../problem/message.js';
import { readAnswer } from '../keep/answer/read-answer.js';
import { calendarDay } from '../record/calendar-day.js';
import { quotesForgotten } from './quotes-forgotten.js';

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
  addHelpCommands,
];

/** Each command's work lies in a file of its own, read only when it is called: `check` need not load the book's engine. */
function commandLine(effects: Effects, ended: (code: ExitCode) => void): Command {
  const program = new Command('growdown')
    .description(terminal('help.growdown.about'))
    .version(versionOf(), '--version', terminal('help.growdown.version'))
    .helpOption('-h, --help', terminal('help.any.help'))
    .helpCommand(false)
    .exitOverride()
    .configureOutput({ writeOut: effects.print, writeErr: effects.warn })
    .showSuggestionAfterError(true)
    .showHelpAfterError(terminal('help.growdown.after-error'));

  for (const add of groups) add(program, effects, ended);
  groupHelp(program);
  return program;
}

/** The commands that bring files to the newest format and seal what was written by hand. */
function addUpkeepCommands(program: Command, effects: Effects, ended: (code: ExitCode) => void): void {
  withKeepingOptions(program.command('upgrade'))
    .description(terminal('help.upgrade.about'))
    .option('--farm <slug>', terminal('help.any.farm'), readSlug)
    .action(async (options: UpgradeOptions) => {
      const { upgrade } = await import('./upgrade.js');
      ended(await upgrade(options, effects));
    });

  withKeepingOptions(program.command('seal'))
    .description(terminal('help.seal.about'))
    .option('--farm <slug>', terminal('help.any.farm'), readSlug)
    .option('--taken-out <farm/animal>', terminal('help.seal.taken-out'))
    .option('--why <reason>', terminal('help.seal.why'))
    .option('--by <name>', terminal('help.seal.by'))
    .action(async (options: SealOptions) => {
      const { seal } = await import('./seal.js');
      ended(await seal(options, effects));
    });
}

/** The commands over all farms, for the trimmer alone. */
function addBusinessCommands(program: Command, effects: Effects, ended: (code: ExitCode) => void): void {
  withCommonOptions(program.command('round'))
    .description(terminal('help.round.about'))
    .option('--out <folder>', terminal('help.round.out'), './books')
    .option('--from <day>', terminal('help.round.from'), readDay)
    .option('--to <day>', terminal('help.round.to'), readDay)
    .option('--ics', terminal('help.round.ics'))
    .action(async (options: RoundOptions) => {
      const { round } = await import('./round.js');
      ended(await round(options, effects));
    });

  withCommonOptions(program.command('overview'))
    .description(terminal('help.overview.about'))
    .option('--out <folder>', terminal('help.overview.out'), './books')
    .action(async (options: OverviewOptions) => {
      const { overview } = await import('./overview.js');
      ended(overview(options, effects));
    });
}

/** `growdown post`: its options; its work is loaded when it is called. */
function addPostCommand(program: Command, effects: Effects, ended: (code: ExitCode) => void): void {
  withCases(program.command('post'))
    .argument('[farm]', terminal('help.any.farm-folder'))
    .description(terminal('help.post.about'))
    .option('--json', terminal('help.any.json'))
    .option('--out <folder>', terminal('help.post.out'), './books')
    .option('--all-due', terminal('help.post.all-due'))
    .option('--send', terminal('help.post.send'))
    .option('--again', terminal('help.post.again'))
    .option('--came', terminal('help.post.came'))
    .option('--dry-run', terminal('help.post.dry-run'))
    .addOption(new Option('--attach <form>', terminal('help.post.attach')).choices(sendForms))
    .option('--open-only', terminal('help.post.open-only'))
    .option('--max-mb <number>', terminal('help.post.max-mb'), readMailMb)
    .action(async (farm: string | undefined, options: PostOptions) => {
      const { post } = await import('./post.js');
      ended(await post(farm === undefined ? undefined : readSlug(farm), options, effects));
    });
}

function readMailMb(value: string): number {
  const mb = readMb(value, 10);
  const most = mailNumbers.mostMb.value;
  if (mb > most) throw new InvalidArgumentError(terminal('argument.mail-mb-most', { most }));
  return mb;
}

/** The commands that put a farm away for years, and check what was put away. */
function addArchiveCommands(program: Command, effects: Effects, ended: (code: ExitCode) => void): void {
  withCommonOptions(program.command('archive'))
    .description(terminal('help.archive.about'))
    .option('--period <period>', terminal('help.archive.period'), readPeriodGiven)
    .option('--zip', terminal('help.archive.zip'))
    .option('--keep-location', terminal('help.archive.keep-location'))
    .option('--clips', terminal('help.archive.clips'))
    .option('--no-contacts', terminal('help.archive.no-contacts'))
    .option('--no-pdf', terminal('help.archive.no-pdf'))
    .option('--out <folder>', terminal('help.archive.out'), './archives')
    .option('--may-go', terminal('help.archive.may-go'))
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
    .argument('<path>', terminal('help.verify.path'))
    .description(terminal('help.verify.about'))
    .option('--head <hash>', terminal('help.verify.head'))
    .option('--json', terminal('help.any.json'))
    .action(async (path: string, options: VerifyOptions) => {
      const { verify } = await import('./verify.js');
      ended(await verify(path, options, effects));
    });
}

/** The commands that carry visits from the yard into the case files. */
function addYardCommands(program: Command, effects: Effects, ended: (code: ExitCode) => void): void {
  withKeepingOptions(program.command('take [note]'))
    .description(terminal('help.take.about'))
    .option('--farm <slug>', terminal('help.take.farm'), readSlug)
    .option('--yes', terminal('help.take.yes'))
    .option('--set-aside <id>', terminal('help.take.set-aside'))
    .action(async (note: string | undefined, options: TakeOptions & { setAside?: string }) => {
      if (note === undefined) {
        const { takeInbox } = await import('./take-inbox.js');
        const { takeWaiting } = await import('./take.js');
        const code = await takeInbox(options, effects);
        const asks = options.json || options.setAside !== undefined;
        ended(asks || code !== 0 ? code : await takeWaiting(options, effects));
        return;
      }
      const { take } = await import('./take.js');
      ended(await take(note, options, effects));
    });

  withCases(program.command('form'))
    .argument('<farm>', terminal('help.any.farm-folder'))
    .description(terminal('help.form.about'))
    .option('--json', terminal('help.any.json'))
    .option('--out <folder>', terminal('help.form.out'), './books')
    .action(async (farm: string, options: FormOptions) => {
      const { form } = await import('./form.js');
      ended(form(readSlug(farm), options, effects));
    });

  withCases(program.command('yard'))
    .description(terminal('help.yard.about'))
    .option('--lan', terminal('help.yard.lan'))
    .option('--port <number>', terminal('help.yard.port'), readPort, 8260)
    .action(async (options: YardOptions) => {
      const { yard } = await import('./yard.js');
      ended(await yard(options, effects));
    });
}

function readPort(value: string): number {
  const port = Number(value);
  if (!/^\d{1,5}$/.test(value) || port > 65_535) throw new InvalidArgumentError(terminal('argument.port'));
  return port;
}

/** The guide, and its topics in the terminal. */
function addHelpCommands(program: Command, effects: Effects, ended: (code: ExitCode) => void): void {
  program
    .command('guide')
    .description(terminal('help.guide.about'))
    .option('--out <folder>', terminal('help.guide.out'), './books')
    .addOption(new Option('--paper <size>', terminal('help.guide.paper')).choices(papers).default('A4'))
    .action(async (options: { out: string; paper: Paper }) => ended(await guide(options, effects)));
  program
    .command('help [topic]')
    .description(terminal('help.help.about'))
    .action(async (asked: string | undefined) => ended(await help(asked, program, effects)));
}

/** Days given with options that lie ahead. */
const ahead = new Set(['--from', '--to']);

/** Lets every option that takes a day take it as people say it, where one of them is typed. */
async function takeAnyDay(program: Command, words: readonly string[], effects: Effects): Promise<void> {
  const all = program.commands.flatMap(({ options }) =>
    options.filter(({ parseArg }) => parseArg === readDay),
  );
  const names = new Set(all.map(({ long }) => long));
  if (!words.some((word, at) => names.has(word.split('=')[0]) && !calendarDay.safeParse(words[at + 1]).success)) return; // prettier-ignore
  const { speechOn } = await import('../form/asking/as-said.js');
  const { data: today = effects.today() } = calendarDay.safeParse(words[words.indexOf('--today') + 1]);
  for (const option of all)
    option.argParser((typed: string) => {
      const answering = { from: today, speech: speechOn(today) };
      const read = readAnswer(
        { kind: 'day', ...(ahead.has(option.long ?? '') ? { ahead: true } : {}) },
        typed,
        answering,
      );
      if (read.outcome === 'value') return read.value;
      return read.meant ? refuse(read.message) : readDay(typed);
    });
}

function refuse(message: string): never {
  throw new InvalidArgumentError(message);
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
    const command = program.commands.find((one) => one.name() === words[0]);
    const meant = command && quotesForgotten(command, words.slice(1), effects.onWindows === true);
    if (meant !== undefined) throw new WrongUse(terminal('argument.quotes', { command: meant }));
    await takeAnyDay(program, words, effects);
    await program.parseAsync([...words], { from: 'user' });
    return code;
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? exitCode.well : exitCode.wrongUse;
    return exitOf(error, effects);
  }
}
