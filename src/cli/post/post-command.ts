import { type Command, InvalidArgumentError, Option } from 'commander';
import { sendForms } from '../../record/words.js';
import { mailNumbers } from '../../reference/mail-numbers.js';
import { readDay, readSlug } from '../common-options.js';
import type { Effects } from '../effects.js';
import type { ExitCode } from '../exit-code.js';
import type { PostOptions } from './post-run.js';

/** `growdown post`: its options; its work is loaded when it is called. */
export function addPostCommand(program: Command, effects: Effects, ended: (code: ExitCode) => void): void {
  program
    .command('post')
    .argument('[farm]', "the farm's folder")
    .description("write a farm's letter with its book and calendar as a draft to open and send, or send it")
    .option('--cases <folder>', 'the folder that holds a folder for each farm', './cases')
    .option('--today <day>', 'work as on this day, YYYY-MM-DD (default: today)', readDay)
    .option('--json', 'print the result as JSON')
    .option('--out <folder>', 'where drafts go', './books')
    .option('--all-due', 'every farm with news since its last mail')
    .option('--send', 'send by the mail server that is set, under TLS, and note what went')
    .option('--again', 'send what went already')
    .option('--came', 'note that a letter that may have gone did come; nothing is sent')
    .option('--dry-run', 'say to whom and how large; nothing is written or sent')
    .addOption(
      new Option(
        '--attach <form>',
        "how the book goes along (default: the farm's `send`, else html)",
      ).choices(sendForms),
    )
    .option('--open-only', 'a short book: closed cases are left out')
    .option(
      '--max-mb <number>',
      'how large the message may be, million bytes, at most 20 (default: 10)',
      readMailMb,
    )
    .action(async (farm: string | undefined, options: PostOptions) => {
      const { post } = await import('../post.js');
      ended(await post(farm === undefined ? undefined : readSlug(farm), options, effects));
    });
}

function readMailMb(value: string): number {
  const mb = Number(value);
  if (!/^\d+(?:\.\d+)?$/.test(value) || mb <= 0)
    throw new InvalidArgumentError('Expected a number above 0, as in 10 or 2.5.');
  const most = mailNumbers.mostMb.value;
  if (mb > most)
    throw new InvalidArgumentError(
      `Expected at most ${most}: many mail boxes send a larger message back. Hand the book over another way.`,
    );
  return mb;
}
