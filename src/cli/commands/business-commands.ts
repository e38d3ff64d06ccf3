import type { Command } from 'commander';
import type { OverviewOptions } from '../overview.js';
import type { RoundOptions } from '../round.js';
import { readDay, withCommonOptions } from '../common-options.js';
import type { Effects } from '../effects.js';
import type { ExitCode } from '../exit-code.js';

/** The commands over all farms, for the trimmer alone. */
export function addBusinessCommands(
  program: Command,
  effects: Effects,
  ended: (code: ExitCode) => void,
): void {
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
      const { round } = await import('../round.js');
      ended(await round(options, effects));
    });

  withCommonOptions(program.command('overview'))
    .description('write the whole business on one page, for your own eyes: it names every farm')
    .option('--out <folder>', 'where the page goes', './books')
    .action(async (options: OverviewOptions) => {
      const { overview } = await import('../overview.js');
      ended(overview(options, effects));
    });
}
