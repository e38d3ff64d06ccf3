import type { Command } from 'commander';
import type { AuditOptions } from '../audit.js';
import type { CostsOptions } from '../costs.js';
import type { HandoverOptions } from '../handover.js';
import type { SheetOptions } from '../sheet.js';
import { readDay, readPeriodGiven, withCommonOptions } from '../../run/common-options.js';
import type { Effects } from '../../run/effects.js';
import type { ExitCode } from '../../run/exit-code.js';

/** The commands that write pages and tables of a farm that are no book. */
export function addPageCommands(program: Command, effects: Effects, ended: (code: ExitCode) => void): void {
  withCommonOptions(program.command('handover'))
    .argument('<animal>', 'FARM/ANIMAL: her number, the name of her file or her official tag')
    .description('write one page about an animal for the veterinary surgeon, with room for the reply')
    .option('--out <folder>', 'where the page goes, in a folder of its farm', './books')
    .option('--ask <question>', 'what you ask the vet, in quotes; it stands on this page alone')
    .option('--mail', "write a draft of a mail to the farm's vet too, with the page in it; nothing is sent")
    .action(async (animal: string, options: HandoverOptions) => {
      const { handover } = await import('../handover.js');
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
      const { costs } = await import('../costs.js');
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
      const { sheet } = await import('../sheet.js');
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
      const { audit } = await import('../audit.js');
      ended(await audit(options, effects));
    });
}
