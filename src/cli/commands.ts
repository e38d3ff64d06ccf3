import { type Command, InvalidArgumentError, Option } from 'commander';
import type { BooksOptions } from './books.js';
import {
  type CommonOptions,
  readSlug,
  withCases,
  withCommonOptions,
  readDay,
  readPeriodGiven,
  type ExitCode,
} from '../run/exit-code.js';
import type { Effects } from '../run/effects.js';
import type { AuditOptions } from './audit.js';
import type { CostsOptions } from './costs.js';
import type { HandoverOptions } from './handover.js';
import type { SheetOptions } from './sheet.js';
import type { StaffOptions } from './staff.js';
import type { ExportOptions } from './export.js';
import type { PriorFrom } from './forecast.js';
import { terminal } from '../problem/message.js';

/** The commands that write whole books, or one page of one. */
export function addBookCommands(program: Command, effects: Effects, ended: (code: ExitCode) => void): void {
  withCommonOptions(program.command('books'))
    .description(terminal('help.books.about'))
    .option('--out <folder>', terminal('help.books.out'), './books')
    .option('--open-only', terminal('help.any.open-only'))
    .option('--max-mb <number>', terminal('help.books.max-mb'), bookMb)
    .option('--annex', terminal('help.books.annex'))
    .option('--watch', terminal('help.books.watch'))
    .action(async ({ watch, ...options }: BooksOptions & { watch?: true }) => {
      if (watch) {
        const { watchBooks } = await import('./watch-books.js');
        ended(await watchBooks(options, effects));
        return;
      }
      const { books } = await import('./books.js');
      ended(await books(options, effects));
    });

  withCommonOptions(program.command('pdf'))
    .description(terminal('help.pdf.about'))
    .option('--out <folder>', terminal('help.pdf.out'), './books')
    .option('--open-only', terminal('help.any.open-only'))
    .option('--max-mb <number>', terminal('help.pdf.max-mb'), bookMb)
    .action(async (options: BooksOptions) => {
      const { pdf } = await import('./pdf.js');
      ended(await pdf(options, effects));
    });

  withCommonOptions(program.command('case'))
    .argument('<animal>', terminal('help.any.animal'))
    .description(terminal('help.case.about'))
    .option('--out <folder>', terminal('help.any.out'), './books')
    .option('--max-mb <number>', terminal('help.case.max-mb'), bookMb)
    .action(async (animal: string, options: CommonOptions & { out: string; maxMb?: number }) => {
      const { caseAlone } = await import('./case.js');
      ended(await caseAlone(animal, options, effects));
    });
}

const bookMb = (value: string): number => readMb(value, 6);

/** Million bytes given with an option; `usual` stands in what is said of one that is none. */
export function readMb(value: string, usual: number): number {
  const mb = Number(value);
  if (!/^\d+(?:\.\d+)?$/.test(value) || mb <= 0)
    throw new InvalidArgumentError(terminal('argument.mb', { usual }));
  return mb;
}

/** The commands that write pages and tables of a farm that are no book. */
export function addPageCommands(program: Command, effects: Effects, ended: (code: ExitCode) => void): void {
  withCommonOptions(program.command('handover'))
    .argument('<animal>', terminal('help.any.animal'))
    .description(terminal('help.handover.about'))
    .option('--out <folder>', terminal('help.any.out'), './books')
    .option('--ask <question>', terminal('help.handover.ask'))
    .option('--mail', terminal('help.handover.mail'))
    .action(async (animal: string, options: HandoverOptions) => {
      const { handover } = await import('./handover.js');
      ended(await handover(animal, options, effects));
    });

  withCommonOptions(program.command('costs'))
    .description(terminal('help.costs.about'))
    .option('--period <period>', terminal('help.costs.period'), readPeriodGiven)
    .option('--csv', terminal('help.costs.csv'))
    .option('--out <folder>', terminal('help.costs.out'), './books')
    .action(async (options: CostsOptions) => {
      const { costs } = await import('./costs.js');
      ended(await costs(options, effects));
    });

  withCommonOptions(program.command('sheet'))
    .description(terminal('help.sheet.about'))
    .option('--out <folder>', terminal('help.sheet.out'), './books')
    .option('--from <day>', terminal('help.sheet.from'), readDay)
    .option('--to <day>', terminal('help.sheet.to'), readDay)
    .option('--all', terminal('help.sheet.all'))
    .option('--blank', terminal('help.sheet.blank'))
    .action(async (options: SheetOptions) => {
      const { sheet } = await import('./sheet.js');
      ended(await sheet(options, effects));
    });

  withCases(program.command('staff'))
    .argument('[farm]', terminal('help.any.farm-folder'))
    .description(terminal('help.staff.about'))
    .option('--json', terminal('help.any.json'))
    .option('--out <folder>', terminal('help.staff.out'), './books')
    .action(async (farm: string | undefined, options: StaffOptions) => {
      const { staff } = await import('./staff.js');
      ended(await staff(farm === undefined ? undefined : readSlug(farm), options, effects));
    });

  withCommonOptions(program.command('audit'))
    .description(terminal('help.audit.about'))
    .option('--period <period>', terminal('help.audit.period'), readPeriodGiven)
    .option('--out <folder>', terminal('help.audit.out'), './audits')
    .action(async (options: AuditOptions) => {
      const { audit } = await import('./audit.js');
      ended(await audit(options, effects));
    });
}

/** The commands that tell what the records hold, and give them to other programs. */
export function addRecordCommands(program: Command, effects: Effects, ended: (code: ExitCode) => void): void {
  withCommonOptions(program.command('check'))
    .description(terminal('help.check.about'))
    .option('--head <hash>', terminal('help.check.head'))
    .action(async (options: CommonOptions & { head?: string }) => {
      const { check } = await import('./check.js');
      ended(await check(options, effects));
    });

  withCommonOptions(program.command('forecast'))
    .description(terminal('help.forecast.about'))
    .addOption(
      new Option('--prior <from>', terminal('help.forecast.prior'))
        .choices(['archive', 'published'])
        .default('archive'),
    )
    .action(async (options: CommonOptions & { prior: PriorFrom }) => {
      const { forecast } = await import('./forecast.js');
      ended(await forecast(options, effects));
    });

  withCommonOptions(program.command('export'))
    .description(terminal('help.export.about'))
    .addOption(
      new Option('--to <form>', terminal('help.export.to'))
        .choices(['csv', 'json', 'icar'])
        .makeOptionMandatory(),
    )
    .option('--out <folder>', terminal('help.export.out'), './export')
    .option('--guard', terminal('help.export.guard'))
    .option('--tag-scheme <name>', terminal('help.export.tag-scheme'), readScheme)
    .action(async (options: ExportOptions) => {
      const { exportRecords } = await import('./export.js');
      ended(exportRecords(options, effects));
    });
}

function readScheme(value: string): string {
  if (!/^[\w-]+(?:\.[\w-]+)+$/.test(value)) throw new InvalidArgumentError(terminal('argument.scheme'));
  return value;
}
