import { type Command, Option } from 'commander';
import { type EpisodeResult, episodeResults } from '../../record/words.js';
import { readDay, readSlug, type ExitCode, WrongUse } from '../../run/exit-code.js';
import type { Effects } from '../../run/effects.js';
import type { ImportOptions } from '../import.js';
import {
  type Typed,
  animalKeys,
  businessKeys,
  declaredKeys,
  farmKeys,
  footbathKeys,
  pictureKeys,
  roundKeys,
  visitKeys,
  withKeyFlags,
} from './key-flags.js';
import { withKeepingOptions } from '../../run/write-change.js';
import { given } from '../../record/given.js';
import { terminal } from '../../problem/message.js';

/** The commands that change case files: begin, visit, end, put right. Each flag that answers has the name of its key in the file. */
export function addKeepingCommands(
  program: Command,
  effects: Effects,
  ended: (code: ExitCode) => void,
): void {
  const command = (form: string): Command =>
    withKeepingOptions(program.command(form).description(terminal(`help.${form.split(' ')[0]}.about`)));

  withKeyFlags(command('business'), businessKeys).action(async (options: Typed) =>
    ended(await (await import('./farm-keeping.js')).setBusiness(options, effects)),
  );
  withKeyFlags(command('farm <slug>'), farmKeys).action(async (slug: string, options: Typed) =>
    ended(await (await import('./farm-keeping.js')).setFarm(slug, options, effects)),
  );
  withKeyFlags(command('start <farm/animal>'), new Map([...animalKeys, ...visitKeys])).action(
    async (named: string, options: Typed) =>
      ended(await (await import('./start.js')).start(named, options, effects)),
  );
  withKeyFlags(command('visit <farm/animal>'), new Map([...visitKeys, ...declaredKeys])).action(
    async (named: string, options: Typed) =>
      ended(await (await import('./visit.js')).recordVisit(named, options, effects)),
  );
  withKeyFlags(command('photo <farm/animal> <picture>'), pictureKeys)
    .option('--date <day>', terminal('help.photo.date'), readDay)
    .action(async (named: string, picture: string, options: Typed) =>
      ended(await (await import('./picture.js')).addPhoto(named, picture, options, effects)),
    );
  withKeyFlags(command('declare <farm/animal>'), declaredKeys).action(async (named: string, options: Typed) =>
    ended(await (await import('./case-life.js')).declare(named, options, effects)),
  );
  command('import <list>')
    .option('--farm <slug>', terminal('help.import.farm'), readSlug)
    .option('--map <column=key>', terminal('help.import.map'), gathered)
    .addOption(
      new Option('--days <order>', terminal('help.import.days')).choices(['day-first', 'month-first']),
    )
    .addOption(new Option('--separator <mark>', terminal('help.import.separator')).choices([',', ';', 'tab']))
    .option(
      '--start <numbers>',
      terminal('help.import.start'),
      (typed: string, before: readonly string[] | undefined) => [
        ...(before ?? []),
        ...typed.split(',').map((one) => one.trim()),
      ],
    )
    .option('--start-all', terminal('help.import.start-all'))
    .option('--replace', terminal('help.import.replace'))
    .option('--skip-bad', terminal('help.import.skip-bad'))
    .action(async (list: string, { farm, ...options }: Omit<ImportOptions, 'farm'> & { farm?: string }) => {
      if (/\.json$/i.test(list)) {
        const ofLists = forLists.filter((key) => key in options);
        if (ofLists.length > 0)
          throw new WrongUse(terminal('import.for-lists', { flag: asFlag(ofLists[0]!), list }));
        const { importRecordsFile } = await import('../import-records.js');
        ended(await importRecordsFile(list, { ...options, ...given({ farm }) }, effects));
        return;
      }
      if (farm === undefined) throw new WrongUse(terminal('import.no-farm'));
      ended(await (await import('../import.js')).importAnimals(list, { ...options, farm }, effects));
    });
  addEndings(command, effects, ended);
  withKeyFlags(command('gait-round <farm>'), roundKeys).action(async (slug: string, options: Typed) =>
    ended(await (await import('./farm-keeping.js')).recordGaitRound(slug, options, effects)),
  );
  withKeyFlags(command('footbath <farm>'), footbathKeys).action(async (slug: string, options: Typed) =>
    ended(await (await import('./farm-keeping.js')).footbath(slug, options, effects)),
  );
}

/** Options of an import that mean nothing where whole records are read. */
const forLists = ['map', 'days', 'separator', 'start', 'startAll', 'replace', 'skipBad'];

/** `startAll` is `--start-all`. */
function asFlag(key: string): string {
  return key.replaceAll(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`);
}

function gathered(typed: string, before: readonly string[] = []): string[] {
  return [...before, typed];
}

function addEndings(
  command: (form: string) => Command,
  effects: Effects,
  ended: (code: ExitCode) => void,
): void {
  command('close <farm/animal>')
    .addOption(new Option('--result <word>', terminal('help.close.result')).choices(episodeResults))
    .option('--ended <day>', terminal('help.close.ended'), readDay)
    .option('--told-in-writing <day>', terminal('help.any.told-in-writing'), readDay)
    .action(async (named: string, { result, ...options }: Typed & { result?: EpisodeResult }) => {
      if (result === undefined)
        throw new WrongUse(
          terminal('close.no-result', { results: episodeResults.map((one) => `"${one}"`).join(', ') }),
        );
      ended(await (await import('./case-life.js')).close(named, { ...options, result }, effects));
    });
  command('reopen <farm/animal>')
    .option('--lame-since <day>', terminal('help.reopen.lame-since'), readDay)
    .option('--told-by <name>', terminal('help.reopen.told-by'))
    .action(async (named: string, options: Typed) =>
      ended(await (await import('./case-life.js')).reopen(named, options, effects)),
    );
  command('renumber <farm/animal> <number>')
    .option('--until <day>', terminal('help.renumber.until'), readDay)
    .action(async (named: string, number: string, options: Typed) =>
      ended(await (await import('./case-life.js')).newNumber(named, number, options, effects)),
    );
  command('move <farm/animal> <farm>')
    .option('--on <day>', terminal('help.move.on'), readDay)
    .option('--told-in-writing <day>', terminal('help.any.told-in-writing'), readDay)
    .action(async (named: string, to: string, options: Typed) =>
      ended(await (await import('./case-life.js')).move(named, to, options, effects)),
    );
  command('move-visit <farm/animal> <visit> <to>')
    .option('--why <reason>', terminal('help.correct.why'))
    .option('--by <name>', terminal('help.correct.by'))
    .action(async (named: string, at: string, to: string, options: Typed) =>
      ended(await (await import('./correct.js')).moveVisit(named, at, to, options, effects)),
    );
  command('correct <farm/animal> [where-and-value...]')
    .option('--take-out <where>', terminal('help.correct.take-out'), gathered)
    .option('--was <value>', terminal('help.correct.was'))
    .option('--why <reason>', terminal('help.correct.why'))
    .option('--by <name>', terminal('help.correct.by'))
    .action(async (named: string, said: string[], options: Typed) =>
      ended(await (await import('./correct.js')).correct(named, said, options, effects)),
    );
  command('undo [farm] [entry]')
    .option('--why <reason>', terminal('help.undo.why'))
    .option('--by <name>', terminal('help.undo.by'))
    .action(async (farm: string | undefined, entry: string | undefined, options: Typed) => {
      if (entry !== undefined && !/^\d{1,9}$/.test(entry))
        throw new WrongUse(terminal('undo.no-number', { entry }));
      const number = entry === undefined ? undefined : Number(entry);
      ended(await (await import('./case-life.js')).undo(farm, number, options, effects));
    });
}
