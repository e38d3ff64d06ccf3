import { type Command, InvalidArgumentError } from 'commander';
import type { FormOptions } from '../form.js';
import type { TakeOptions } from '../take.js';
import type { YardOptions } from '../yard.js';
import { readDay, readSlug } from '../common-options.js';
import type { Effects } from '../effects.js';
import type { ExitCode } from '../exit-code.js';
import { withKeepingOptions } from '../keep/keeping-options.js';

/** The commands that carry visits from the yard into the case files. */
export function addYardCommands(program: Command, effects: Effects, ended: (code: ExitCode) => void): void {
  withKeepingOptions(program.command('take [note]'))
    .description(
      'read a note from the yard (a text file; - for standard input) and add the visits it tells of; without one, add what phones have sent',
    )
    .option('--farm <slug>', 'the farm meant where the note names none', readSlug)
    .option('--yes', 'add what is certain without asking')
    .option('--set-aside <id>', 'leave this one visit in the inbox untaken, for good')
    .action(async (note: string | undefined, options: TakeOptions & { setAside?: string }) => {
      if (note === undefined) {
        const { takeInbox } = await import('../take/take-inbox.js');
        ended(await takeInbox(options, effects));
        return;
      }
      const { take } = await import('../take.js');
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
      const { form } = await import('../form.js');
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
      const { yard } = await import('../yard.js');
      ended(await yard(options, effects));
    });
}

function readPort(value: string): number {
  const port = Number(value);
  if (!/^\d{1,5}$/.test(value) || port > 65_535)
    throw new InvalidArgumentError('Expected a whole number from 0 to 65535.');
  return port;
}
