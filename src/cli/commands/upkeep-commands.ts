import type { Command } from 'commander';
import type { SealOptions } from '../seal.js';
import type { UpgradeOptions } from '../upgrade.js';
import { readSlug } from '../common-options.js';
import type { Effects } from '../effects.js';
import type { ExitCode } from '../exit-code.js';
import { withKeepingOptions } from '../keep/keeping-options.js';

/** The commands that bring files to the newest format and seal what was written by hand. */
export function addUpkeepCommands(program: Command, effects: Effects, ended: (code: ExitCode) => void): void {
  withKeepingOptions(program.command('upgrade'))
    .description('bring case files of an older format to the newest; they are read without it as well')
    .option('--farm <slug>', "only this farm: its folder's name", readSlug)
    .action(async (options: UpgradeOptions) => {
      const { upgrade } = await import('../upgrade.js');
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
      const { seal } = await import('../seal.js');
      ended(await seal(options, effects));
    });
}
