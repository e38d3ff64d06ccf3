import { CommanderError, Command } from 'commander';
import { readAnswer } from '../keep/answer/read-answer.js';
import { terminal } from '../problem/message.js';
import { calendarDay } from '../record/calendar-day.js';
import { hiddenSign, signsShown } from '../record/signs.js';
import type { Effects } from '../run/effects.js';
import { exitCode, type ExitCode, exitOf, WrongUse, versionOf } from '../run/exit-code.js';
import { addCommands, badOption, readDay } from './commands.js';
import { addHelpCommands } from './guide.js';
import { quotesForgotten } from './quotes-forgotten.js';

/** Days given with options that lie ahead. */
const ahead = new Set(['--from', '--to']);

/** Lets every option that takes a day take it as people say it, where one of them is typed. */
async function takeAnyDay(program: Command, words: readonly string[], effects: Effects): Promise<void> {
  const all = program.commands.flatMap(({ options }) =>
    options.filter(({ parseArg }) => parseArg === readDay),
  );
  const names = new Set(all.map(({ long }) => long));
  if (!words.some((word, at) => names.has(word.split('=')[0]) && !calendarDay.safeParse(words[at + 1]).success)) return; // prettier-ignore
  const { speechOn } = await import('../form/asking/as-said.js');
  const { data: today = effects.today() } = calendarDay.safeParse(words[words.indexOf('--today') + 1]);
  for (const option of all)
    option.argParser((typed: string) => {
      const answering = { from: today, speech: speechOn(today) };
      const read = readAnswer(
        { kind: 'day', ...(ahead.has(option.long ?? '') ? { ahead: true } : {}) },
        typed,
        answering,
      );
      if (read.outcome === 'value') return read.value;
      return read.meant ? badOption(read.message) : readDay(typed);
    });
}

/**
 * Runs one command and says how it went.
 *
 * Shape: the words after `growdown` → an exit code (0 well, 1 problems in the records, 2 wrong use, 3 our own fault)
 * Error: never throws; what is wrong is on `effects.warn`
 * Checked: tests/cli
 */
export async function runCommand(words: readonly string[], effects: Effects): Promise<ExitCode> {
  let code: ExitCode = exitCode.well;
  const program = new Command('growdown')
    .description(terminal('help.growdown.about'))
    .version(versionOf(), '--version', terminal('help.growdown.version'))
    .helpOption('-h, --help', terminal('help.any.help'))
    .helpCommand(false)
    .exitOverride()
    .configureOutput({ writeOut: effects.print, writeErr: effects.warn })
    .showSuggestionAfterError(true)
    .showHelpAfterError(terminal('help.growdown.after-error'));
  addCommands(program, effects, (given) => (code = given));
  addHelpCommands(program, effects, (given) => (code = given));
  try {
    if (words.length === 0) {
      program.outputHelp({ error: true });
      return exitCode.wrongUse;
    }
    const unseen = words.find((word) => hiddenSign(word) !== undefined);
    if (unseen !== undefined)
      throw new WrongUse(
        terminal('argument.hidden-sign', { sign: hiddenSign(unseen)!, word: signsShown(unseen) }),
      );
    const command = program.commands.find((one) => one.name() === words[0]);
    const meant = command && quotesForgotten(command, words.slice(1), effects.onWindows === true);
    if (meant !== undefined) throw new WrongUse(terminal('argument.quotes', { command: meant }));
    await takeAnyDay(program, words, effects);
    await program.parseAsync([...words], { from: 'user' });
    return code;
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? exitCode.well : exitCode.wrongUse;
    return exitOf(error, effects);
  }
}
