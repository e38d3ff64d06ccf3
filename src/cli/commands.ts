import { type Command, InvalidArgumentError, Option } from 'commander';
import { terminal } from '../problem/message.js';
import { calendarDay, type CalendarDay } from '../record/calendar-day.js';
import { given } from '../record/given.js';
import { type Period, readPeriod } from '../record/period.js';
import { episodeResults, sendForms } from '../record/words.js';
import { mailNumbers } from '../reference/numbers.js';
import { messageWords } from '../reference/words.js';
import type { ArchiveOptions } from '../archive/archive-facts.js';
import type { Effects } from '../run/effects.js';
import { type ExitCode, exitCode, readSlug, WrongUse } from '../run/exit-code.js';
import type { BooksOptions } from './make-book.js';
import type { ImportOptions } from './import.js';
import * as keys from './keep/key-flags.js';
import type { TakeOptions } from './take.js';

/**
 * A command: its name and arguments, its options, and its work in a file of its own, read only when it is called.
 *
 * Options stand as help shows them, with what one is where it is not given behind it. What is said of an option is under
 * `help.COMMAND` or, where several have it, under `help.any`; how it is read goes by its name or the kind of its value.
 * `KEYS` stands for the flags of `keysOf`.
 */
type CommandTold = readonly [form: string, options: string, work: () => Promise<Work>];
type Work = (...typed: never[]) => ExitCode | Promise<ExitCode>;

const onDay = '--cases <folder> ./cases --today <day>';
const common = '--cases <folder> ./cases --farm <slug> --today <day> --no-cache --json';
const inBooks = `${common} --out <folder> ./books`;
const changing = `${onDay} --dry-run --even-so --json`;
const withKeys = `${changing} KEYS`;
const inTheOpen = `${changing} --why <reason> --by <name>`;
const ofLists =
  '--map <column=key> --days <order> --separator <mark> --start <numbers> --start-all --replace --skip-bad';

/** In the order `--help` lists them. */
const commands: readonly CommandTold[] = [
  // Whole books, or one page of one.
  ['books', `${inBooks} --open-only --max-mb <number> --annex --watch`, async () => booksOnceOrWatched],
  ['pdf', `${inBooks} --open-only --max-mb <number>`, async () => (await import('./pdf.js')).pdf],
  ['case <animal>', `${inBooks} --max-mb <number>`, async () => (await import('./make-book.js')).caseAlone],
  // Pages and tables of a farm that are no book.
  [
    'handover <animal>',
    `${inBooks} --ask <question> --mail`,
    async () => (await import('./handover.js')).handover,
  ],
  [
    'costs',
    `${common} --period <period> --csv --out <folder> ./books`,
    async () => (await import('./costs.js')).costs,
  ],
  [
    'sheet',
    `${inBooks} --from <day> --to <day> --all --blank`,
    async () => (await import('./sheet.js')).sheet,
  ],
  ['staff [farm]', `${onDay} --json --out <folder> ./books`, async () => (await import('./staff.js')).staff],
  [
    'audit',
    `${common} --period <period> --out <folder> ./audits`,
    async () => (await import('./audit.js')).audit,
  ],
  // What puts a farm away for years, and checks what was put away.
  [
    'archive',
    `${common} --period <period> --zip --keep-location --clips --no-contacts --no-pdf --out <folder> ./archives --may-go`,
    async () => archiveOrMayGo,
  ],
  ['verify <path>', '--head <hash> --json', async () => (await import('./verify.js')).verify],
  // Over all farms, for the trimmer alone.
  ['round', `${inBooks} --from <day> --to <day> --ics`, async () => (await import('./round.js')).round],
  ['overview', inBooks, async () => (await import('./overview.js')).overview],
  // What the records hold, told and given to other programs.
  ['check', `${common} --head <hash> --all`, async () => (await import('./check.js')).check],
  ['forecast', `${common} --prior <from> archive`, async () => (await import('./forecast.js')).forecast],
  [
    'export',
    `${common} --to <form> --out <folder> ./export --guard --tag-scheme <name>`,
    async () => (await import('./export.js')).exportRecords,
  ],
  // What changes case files: begin, visit, end, put right.
  ['business', withKeys, async () => (await import('./keep/farm-keeping.js')).setBusiness],
  ['farm <slug>', withKeys, async () => (await import('./keep/farm-keeping.js')).setFarm],
  ['start <farm/animal>', withKeys, async () => (await import('./keep/visit.js')).start],
  ['visit <farm/animal>', withKeys, async () => (await import('./keep/visit.js')).recordVisit],
  [
    'photo <farm/animal> <picture>',
    `${withKeys} --date <day>`,
    async () => (await import('./keep/case-life.js')).addPhoto,
  ],
  ['declare <farm/animal>', withKeys, async () => (await import('./keep/case-life.js')).declare],
  ['import <list>', `${changing} --farm <slug> ${ofLists}`, async () => importListOrRecords],
  [
    'close <farm/animal>',
    `${changing} --result <word> --ended <day> --told-in-writing <day>`,
    async () => (await import('./keep/case-life.js')).close,
  ],
  [
    'reopen <farm/animal>',
    `${changing} --lame-since <day> --told-by <name>`,
    async () => (await import('./keep/case-life.js')).reopen,
  ],
  [
    'renumber <farm/animal> <number>',
    `${changing} --until <day>`,
    async () => (await import('./keep/case-life.js')).newNumber,
  ],
  [
    'move <farm/animal> <farm>',
    `${changing} --on <day> --told-in-writing <day>`,
    async () => (await import('./keep/case-life.js')).move,
  ],
  [
    'move-visit <farm/animal> <visit> <to>',
    inTheOpen,
    async () => (await import('./keep/correct.js')).moveVisit,
  ],
  [
    'correct <farm/animal> [where-and-value...]',
    `${changing} --take-out <where> --was <value> --why <reason> --by <name>`,
    async () => (await import('./keep/correct.js')).correct,
  ],
  ['undo [farm] [entry]', inTheOpen, async () => (await import('./keep/case-life.js')).undo],
  ['gait-round <farm>', withKeys, async () => (await import('./keep/farm-keeping.js')).recordGaitRound],
  ['footbath <farm>', withKeys, async () => (await import('./keep/farm-keeping.js')).footbath],
  // What brings files to the newest format and seals what was written by hand.
  ['upgrade', `${changing} --farm <slug>`, async () => (await import('./upgrade.js')).upgrade],
  [
    'seal',
    `${changing} --farm <slug> --taken-out <farm/animal> --why <reason> --by <name>`,
    async () => (await import('./seal.js')).seal,
  ],
  // What carries visits from the yard into the case files.
  ['take [note]', `${changing} --farm <slug> --yes --set-aside <id>`, async () => takeNoteOrInbox],
  ['form <farm>', `${onDay} --json --out <folder> ./books`, async () => (await import('./form.js')).form],
  ['yard', `${onDay} --lan --port <number> 8260`, async () => (await import('./yard.js')).yard],
  [
    'post [farm]',
    `${onDay} --json --out <folder> ./books --all-due --send --again --came --dry-run --attach <form> --open-only --max-mb <number>`,
    async () => (await import('./post.js')).post,
  ],
];

/** What is said of an argument, where anything is. */
const argumentsSaid: Readonly<Record<string, string>> = {
  case: 'any.animal',
  handover: 'any.animal',
  verify: 'verify.path',
  form: 'any.farm-folder',
  post: 'any.farm-folder',
  staff: 'any.farm-folder',
};

/** Flags that answer, each under the name of its key in the file. */
const keysOf: Readonly<Record<string, keys.Keys>> = {
  business: keys.businessKeys,
  farm: keys.farmKeys,
  start: new Map([...keys.animalKeys, ...keys.visitKeys]),
  visit: new Map([...keys.visitKeys, ...keys.declaredKeys]),
  photo: keys.pictureKeys,
  declare: keys.declaredKeys,
  'gait-round': keys.roundKeys,
  footbath: keys.footbathKeys,
};

/** Options that take one of a few words, by the command where the name alone does not tell. */
const choices: Readonly<Record<string, readonly string[]>> = {
  'export --to': ['csv', 'json', 'icar'],
  '--prior': ['archive', 'published'],
  '--days': ['day-first', 'month-first'],
  '--separator': [',', ';', 'tab'],
  '--result': episodeResults,
  '--attach': sendForms,
};

/** How an option is read, by its command and name, its name alone, or the kind of what it takes; any other as it was typed. */
const readers: Readonly<Record<string, (typed: string, before?: unknown) => unknown>> = {
  'post --max-mb': readMailMb,
  '--max-mb': (typed) => readMb(typed, 6),
  '--port': readPort,
  '--tag-scheme': readScheme,
  '--map': gathered,
  '--take-out': gathered,
  '--start': (typed, before) => typed.split(',').reduce((all, one) => gathered(one.trim(), all), before),
  '<day>': readDay,
  '<period>': readPeriodGiven,
  '<slug>': readSlug,
};

/** Adds every command. What one ends with is handed on. */
export function addCommands(program: Command, effects: Effects, ended: (code: ExitCode) => void): void {
  for (const [form, options, work] of commands) {
    const [name = ''] = form.split(' ');
    const command = program.command(form).description(terminal(`help.${name}.about`));
    const said = argumentsSaid[name];
    if (said !== undefined) command.registeredArguments[0]!.description = terminal(`help.${said}`);
    for (const told of options.split(/ (?=--|KEYS)/))
      if (told === 'KEYS') keys.withKeyFlags(command, keysOf[name]!);
      else command.addOption(optionOf(name, told));
    command.action(async (...typed: unknown[]) => {
      const run = await work();
      // The last is the command itself.
      ended(await run(...([...typed.slice(0, -1), effects] as never[])));
    });
  }
}

function optionOf(command: string, told: string): Option {
  const [flag = '', kind = '', usual] = told.split(' ');
  const name = flag.slice('--'.length);
  // Who moves a visit corrects it.
  const area = [command, 'any', 'correct'].find((one) => messageWords().has(`terminal.help.${one}.${name}`));
  const option = new Option(`${flag} ${kind}`.trim(), terminal(`help.${area}.${name}`));
  const read = readers[`${command} ${flag}`] ?? readers[flag] ?? readers[kind];
  const among = choices[`${command} ${flag}`] ?? choices[flag];
  if (read) option.argParser(read);
  else if (among) option.choices(among);
  if (usual !== undefined) option.default(read ? read(usual) : usual);
  return option.makeOptionMandatory(command === 'export' && flag === '--to');
}

/** A day given with an option. */
export function readDay(value: string): CalendarDay {
  return calendarDay.safeParse(value).success ? value : badOption(terminal('argument.day'));
}

function readPeriodGiven(value: string): Period {
  const read = readPeriod(value);
  return 'wrong' in read ? badOption(read.wrong) : read.period;
}

/** Million bytes; `usual` is in what is said of what is no number of them. */
function readMb(value: string, usual: number): number {
  const mb = Number(value);
  return /^\d+(?:\.\d+)?$/.test(value) && mb > 0 ? mb : badOption(terminal('argument.mb', { usual }));
}

function readMailMb(value: string): number {
  const mb = readMb(value, 10);
  const most = mailNumbers.mostMb.value;
  return mb > most ? badOption(terminal('argument.mail-mb-most', { most })) : mb;
}

function readPort(value: string): number {
  const port = Number(value);
  return /^\d{1,5}$/.test(value) && port <= 65_535 ? port : badOption(terminal('argument.port'));
}

function readScheme(value: string): string {
  return /^[\w-]+(?:\.[\w-]+)+$/.test(value) ? value : badOption(terminal('argument.scheme'));
}

function gathered(typed: string, before: unknown = []): unknown {
  return [...(before as readonly string[]), typed];
}

/** What is wrong with an option. */
export function badOption(message: string): never {
  throw new InvalidArgumentError(message);
}

async function booksOnceOrWatched(
  { watch, ...options }: BooksOptions & { watch?: true },
  effects: Effects,
): Promise<ExitCode> {
  if (watch) return await (await import('./watch-books.js')).watchBooks(options, effects);
  return await (await import('./books.js')).books(options, effects);
}

async function archiveOrMayGo(
  { mayGo, ...options }: ArchiveOptions & { mayGo?: true },
  effects: Effects,
): Promise<ExitCode> {
  if (mayGo) return (await import('../archive/may-go.js')).mayGo(options, effects);
  return await (await import('./archive.js')).archive(options, effects);
}

/** Options of an import that mean nothing where whole records are read. */
const forLists = ['map', 'days', 'separator', 'start', 'startAll', 'replace', 'skipBad'];

async function importListOrRecords(
  list: string,
  { farm, ...options }: Omit<ImportOptions, 'farm'> & { farm?: string },
  effects: Effects,
): Promise<ExitCode> {
  if (/\.json$/i.test(list)) {
    const flag = forLists.find((key) => key in options)?.replaceAll(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`); // prettier-ignore
    if (flag !== undefined) throw new WrongUse(terminal('import.for-lists', { flag, list }));
    const { importRecordsFile } = await import('./import.js');
    return await importRecordsFile(list, { ...options, ...given({ farm }) }, effects);
  }
  if (farm === undefined) throw new WrongUse(terminal('import.no-farm'));
  return await (await import('./import.js')).importAnimals(list, { ...options, farm }, effects);
}

/** A note; without one what was sent from the yard, then the notes that wait for answers. */
async function takeNoteOrInbox(
  note: string | undefined,
  options: TakeOptions & { setAside?: string },
  effects: Effects,
): Promise<ExitCode> {
  const { take, takeWaiting } = await import('./take.js');
  if (note !== undefined) return await take(note, options, effects);
  const code = await (await import('./take-inbox.js')).takeInbox(options, effects);
  const ends = options.json || options.setAside !== undefined || code !== exitCode.well;
  return ends ? code : await takeWaiting(options, effects);
}
