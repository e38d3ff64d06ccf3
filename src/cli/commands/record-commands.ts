import { type Command, InvalidArgumentError, Option } from 'commander';
import type { ExportOptions } from '../export.js';
import type { PriorFrom } from '../forecast.js';
import { type CommonOptions, withCommonOptions } from '../../run/common-options.js';
import type { Effects } from '../../run/effects.js';
import type { ExitCode } from '../../run/exit-code.js';

/** The commands that tell what the records hold, and give them to other programs. */
export function addRecordCommands(program: Command, effects: Effects, ended: (code: ExitCode) => void): void {
  withCommonOptions(program.command('check'))
    .description('check the case files and list what is wrong and what is missing; nothing is written')
    .option(
      '--head <hash>',
      'look for this head of a ledger, as printed in a book or a mail: its first 16 digits or more',
    )
    .action(async (options: CommonOptions & { head?: string }) => {
      const { check } = await import('../check.js');
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
      const { forecast } = await import('../forecast.js');
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
      const { exportRecords } = await import('../export.js');
      ended(exportRecords(options, effects));
    });
}

function readScheme(value: string): string {
  if (!/^[\w-]+(?:\.[\w-]+)+$/.test(value))
    throw new InvalidArgumentError('Expected words with points between, as in org.example.tags.');
  return value;
}
