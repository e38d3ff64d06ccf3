import { Command } from 'commander';
import { addArchiveCommands } from './commands/archive-commands.js';
import { addBookCommands } from './commands/book-commands.js';
import { addBusinessCommands } from './commands/business-commands.js';
import { addPageCommands } from './commands/page-commands.js';
import { addRecordCommands } from './commands/record-commands.js';
import { addUpkeepCommands } from './commands/upkeep-commands.js';
import { addYardCommands } from './commands/yard-commands.js';
import type { Effects } from './effects.js';
import type { ExitCode } from './exit-code.js';
import { addKeepingCommands } from './keep/keeping-commands.js';
import { addPostCommand } from './post/post-command.js';
import { versionOf } from './version-of.js';

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
];

/** Each command's work lies in a file of its own, read only when it is called: `check` need not load the book's engine. */
export function commandLine(effects: Effects, ended: (code: ExitCode) => void): Command {
  const program = new Command('growdown')
    .description('Case books for chronically lame dairy cows.')
    .version(versionOf(), '--version', 'say which version this is')
    .helpOption('--help', 'say how a command is used')
    .helpCommand('help [command]', 'say how a command is used')
    .exitOverride()
    .configureOutput({ writeOut: effects.print, writeErr: effects.warn })
    .showSuggestionAfterError(true)
    .showHelpAfterError('`growdown COMMAND --help` lists what a command takes');

  for (const add of groups) add(program, effects, ended);
  return program;
}
