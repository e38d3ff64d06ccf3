import { type Command, Option } from 'commander';
import { type EpisodeResult, episodeResults } from '../../record/words.js';
import { readDay, readSlug, type ExitCode, WrongUse } from '../../run/exit-code.js';
import type { Effects } from '../../run/effects.js';
import type { ImportOptions } from '../import.js';
import {
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
import { type KeepingOptions, withKeepingOptions } from '../../run/write-change.js';
import { given } from '../../record/given.js';

type Given = KeepingOptions & Readonly<Record<string, unknown>>;

/** The commands that change case files: begin, visit, end, put right. Each flag that answers has the name of its key in the file. */
export function addKeepingCommands(
  program: Command,
  effects: Effects,
  ended: (code: ExitCode) => void,
): void {
  const command = (form: string, description: string): Command =>
    withKeepingOptions(program.command(form).description(description));

  withKeyFlags(command('business', 'begin business.md: who you are'), businessKeys).action(
    async (options: Given) => ended(await (await import('./farm-keeping.js')).business(options, effects)),
  );
  withKeyFlags(
    command('farm <slug>', 'begin a farm: a folder of this name with its farm.md'),
    farmKeys,
  ).action(async (slug: string, options: Given) =>
    ended(await (await import('./farm-keeping.js')).farm(slug, options, effects)),
  );
  withKeyFlags(
    command('start <farm/animal>', 'open a case, with its first visit where anything is said of one'),
    new Map([...animalKeys, ...visitKeys]),
  ).action(async (named: string, options: Given) =>
    ended(await (await import('./start.js')).start(named, options, effects)),
  );
  withKeyFlags(
    command('visit <farm/animal>', 'add a visit'),
    new Map([...visitKeys, ...declaredKeys]),
  ).action(async (named: string, options: Given) =>
    ended(await (await import('./visit.js')).visit(named, options, effects)),
  );
  withKeyFlags(
    command('photo <farm/animal> <picture>', 'copy a picture into the farm and put it under a visit'),
    pictureKeys,
  )
    .option('--date <day>', 'the day of the visit (default: the last)', readDay)
    .action(async (named: string, picture: string, options: Given) =>
      ended(await (await import('./picture.js')).photo(named, picture, options, effects)),
    );
  withKeyFlags(
    command('declare <farm/animal>', 'declare a lesion or a mark without a visit'),
    declaredKeys,
  ).action(async (named: string, options: Given) =>
    ended(await (await import('./case-life.js')).declare(named, options, effects)),
  );
  command(
    'import <list>',
    'fill the identity of animals from a list saved as CSV, and open cases for those named; or write case files from records that export wrote as JSON',
  )
    .option('--farm <slug>', 'the farm whose animals it lists; of records, only this farm', readSlug)
    .option(
      '--map <column=key>',
      'what a column holds, such as "Ear No=tag", once for each; "Sire=" leaves it out. Said once: it is remembered',
      gathered,
    )
    .addOption(
      new Option('--days <order>', 'which figure comes first in days such as 3/4/2021').choices([
        'day-first',
        'month-first',
      ]),
    )
    .addOption(
      new Option('--separator <mark>', 'what parts the columns, where it cannot be told').choices([
        ',',
        ';',
        'tab',
      ]),
    )
    .option(
      '--start <numbers>',
      'open a case for these animals of the list, with commas between',
      (typed: string, before: readonly string[] | undefined) => [
        ...(before ?? []),
        ...typed.split(',').map((one) => one.trim()),
      ],
    )
    .option('--start-all', 'open a case for every animal of the list that has none')
    .option('--replace', 'write what the list says where it differs from a file')
    .option('--skip-bad', 'leave out rows that cannot be taken, and write the others')
    .action(async (list: string, { farm, ...options }: Omit<ImportOptions, 'farm'> & { farm?: string }) => {
      if (/\.json$/i.test(list)) {
        const ofLists = forLists.filter((key) => key in options);
        if (ofLists.length > 0)
          throw new WrongUse(`--${asFlag(ofLists[0]!)} is for lists saved as CSV, and ${list} is of records`);
        const { importRecordsFile } = await import('../import-records.js');
        ended(await importRecordsFile(list, { ...options, ...given({ farm }) }, effects));
        return;
      }
      if (farm === undefined)
        throw new WrongUse('the farm whose animals the list holds is not said, expected --farm FARM');
      ended(await (await import('../import.js')).importAnimals(list, { ...options, farm }, effects));
    });
  addEndings(command, effects, ended);
  withKeyFlags(command('gait-round <farm>', 'add a herd round of gait scoring'), roundKeys).action(
    async (slug: string, options: Given) =>
      ended(await (await import('./farm-keeping.js')).gaitRound(slug, options, effects)),
  );
  withKeyFlags(command('footbath <farm>', 'add a footbath period'), footbathKeys).action(
    async (slug: string, options: Given) =>
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

const toldInWriting =
  'the day the new keeper was told in writing what is withheld, and what is still on her feet';

function addEndings(
  command: (form: string, description: string) => Command,
  effects: Effects,
  ended: (code: ExitCode) => void,
): void {
  command('close <farm/animal>', 'end the episode: the day, and what became of her')
    .addOption(new Option('--result <word>', 'what became of her').choices(episodeResults))
    .option('--ended <day>', 'the day it ended (default: today)', readDay)
    .option('--told-in-writing <day>', toldInWriting, readDay)
    .action(async (named: string, { result, ...options }: Given & { result?: EpisodeResult }) => {
      if (result === undefined)
        throw new WrongUse(
          `what became of her is not said, expected --result and one of ${episodeResults.map((one) => `"${one}"`).join(', ')}`,
        );
      ended(await (await import('./case-life.js')).close(named, { ...options, result }, effects));
    });
  command('reopen <farm/animal>', 'begin a new episode after one that has ended')
    .option('--lame-since <day>', 'the day she was first seen lame (default: today)', readDay)
    .option('--told-by <name>', 'who saw it')
    .action(async (named: string, options: Given) =>
      ended(await (await import('./case-life.js')).reopen(named, options, effects)),
    );
  command('renumber <farm/animal> <number>', 'give an animal another number; the old one is kept')
    .option('--until <day>', 'the last day of the old number (default: today)', readDay)
    .action(async (named: string, number: string, options: Given) =>
      ended(await (await import('./case-life.js')).newNumber(named, number, options, effects)),
    );
  command(
    'move <farm/animal> <farm>',
    'send an animal to another of your farms, with her number there as FARM/NUMBER',
  )
    .option('--on <day>', 'the day she left (default: today)', readDay)
    .option('--told-in-writing <day>', toldInWriting, readDay)
    .action(async (named: string, to: string, options: Given) =>
      ended(await (await import('./case-life.js')).move(named, to, options, effects)),
    );
  command(
    'correct <farm/animal> <where> <value>',
    'put one value right, such as `correct quernholt/2086 2026-03-03.found.a.top 21`; FARM alone is its farm.md',
  )
    .option('--was <value>', 'only where this is what stands there now')
    .option('--why <reason>', 'kept beside the record, under `amended`; wanted once it is sealed')
    .option('--by <name>', 'who corrects it')
    .action(async (named: string, at: string, value: string, options: Given) =>
      ended(await (await import('./correct.js')).correct(named, at, value, options, effects)),
    );
  command('undo <farm>', "take this program's last entry on a farm back")
    .option('--why <reason>', 'why; wanted on a later day than the entry was made')
    .option('--by <name>', 'who takes it back (default: the trimmer of business.md)')
    .action(async (farm: string, options: Given) =>
      ended(await (await import('./case-life.js')).undo(farm, options, effects)),
    );
}
