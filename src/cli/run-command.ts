import { CommanderError } from 'commander';
import { commandLine } from './command-line.js';
import type { Effects } from './effects.js';
import { exitCode, type ExitCode, exitOf } from './exit-code.js';

/**
 * Runs one command and says how it went.
 *
 * Shape: the words after `growdown` → an exit code (0 well, 1 problems in the records, 2 wrong use, 3 our own fault)
 * Error: never throws; what is wrong stands on `effects.warn`
 * Checked: tests/cli
 */
export async function runCommand(words: readonly string[], effects: Effects): Promise<ExitCode> {
  let code: ExitCode = exitCode.well;
  const program = commandLine(effects, (given) => (code = given));
  try {
    if (words.length === 0) {
      program.outputHelp({ error: true });
      return exitCode.wrongUse;
    }
    await program.parseAsync([...words], { from: 'user' });
    return code;
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? exitCode.well : exitCode.wrongUse;
    return exitOf(error, effects);
  }
}
