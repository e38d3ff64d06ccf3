import { type Mailbox, mailboxOf } from '../post/mailbox.js';
import type { Business } from '../record/business.js';
import { inRow, terminal } from '../problem/message.js';
import type { Values } from '../reference/words.js';
import { farmRun } from '../run/farm-run.js';
import type { Effects, MailMachine } from '../run/effects.js';
import { exitCode, type ExitCode, readSlug, worse, WrongUse } from '../run/exit-code.js';
import { mailSetting } from '../post/sending/mail-setting.js';
import { type FarmPosted, postFarm, orNoLetter, minute } from '../post/sending/post-farm.js';
import {
  type PostOptions,
  type PostRun,
  NoLetter,
  addressOfFarm,
  note,
  postedOnDisk,
} from '../post/sending/post-run.js';
import { type Printer, PrintingTrouble } from '../pdf/open-printer.js';
import { noBrowser, printingTroubleInWords } from '../pdf/find-browser.js';
import { goneBefore } from '../post/posted.js';
import type { FarmRecord } from '../record/practice.js';
import { toldTo } from '../post/sending/prepare-letter.js';
import { given } from '../record/given.js';

export type { PostOptions } from '../post/sending/post-run.js';

/**
 * Writes a farm's letter as a draft to open in a mail program, or sends it; or those of all farms with news.
 *
 * Error: WrongUse for options that contradict each other, and for a way of sending that is not set or not safe
 */
export async function post(
  named: string | undefined,
  options: PostOptions,
  effects: Effects,
): Promise<ExitCode> {
  const slug = named === undefined ? undefined : readSlug(named);
  checkOptions(slug, options);
  const farms = farmRun({ ...options, ...given({ farm: slug }) }, effects, {
    refused: 'post.refused',
    pictures: 'hashed',
  });
  const { practice, problems, farmsRefused: refused } = farms;
  const setting = options.send ? mailSetting(machineOf(effects), options, effects) : undefined;
  for (const told of setting?.told ?? []) farms.warn(told);
  const { printer, close } = printerForMail(effects);
  const run: PostRun = {
    options,
    effects,
    practice,
    today: farms.today,
    pooled: farms.pooled,
    ...whose(practice.business, setting?.sender, options),
    ...given({ setting }),
    printer,
  };
  try {
    const done = await farms.each(async (farm) => {
      const posted = await (options.came ? noteCame(run, farm) : postFarm(run, farm));
      for (const line of posted.warned) farms.warn(line);
      for (const line of posted.said) farms.say(line);
      return posted;
    });
    if (options.allDue) farms.say(counted(done, refused.length));
    const code = farms.end({ farms: done.map((one) => ({ ...one, said: undefined })), refused, problems });
    return worse(code, codeOf(done));
  } finally {
    await close();
  }
}

function machineOf({ mail }: Effects): MailMachine {
  if (mail === undefined) throw new RangeError('nothing here can send mail');
  return mail;
}

function checkOptions(slug: string | undefined, { allDue, again, send, came }: PostOptions): void {
  const refuse = (why: string) => {
    throw new WrongUse(terminal(`post.${why}`, given({ farm: slug }) as Values));
  };
  if (came && (allDue || send || again)) refuse('came-alone');
  if (slug === undefined && !allDue) refuse('which-farm');
  if (slug !== undefined && allDue) refuse('one-or-all');
  if (again && allDue) refuse('again-of-all');
  if (again && !send) refuse('again-of-draft');
}

/** Whose letters they are, and where answers go. */
function whose(
  { business, trimmer, email, 'reply-to': replyTo }: Business,
  sender: Mailbox | undefined,
  { send, cases }: PostOptions,
): Pick<PostRun, 'from' | 'replyTo'> {
  const name = business ?? trimmer;
  const address = sender?.address ?? email;
  const from = address === undefined ? undefined : mailboxOf(address, name);
  if (from === undefined && (address !== undefined || send))
    throw new WrongUse(
      address === undefined
        ? terminal('post.no-sender', { cases })
        : terminal('post.bad-address', { cases, key: 'email', found: address }),
    );
  const answers = replyTo === undefined ? undefined : mailboxOf(replyTo, name);
  if (replyTo !== undefined && answers === undefined)
    throw new WrongUse(terminal('post.bad-address', { cases, key: 'reply-to', found: replyTo }));
  return given({ from, replyTo: answers?.address === from?.address ? undefined : answers });
}

function counted(done: readonly FarmPosted[], refused: number): string {
  const of = (...states: FarmPosted['state'][]) => done.filter(({ state }) => states.includes(state)).length;
  const parts = [
    ['sent', of('sent', 'sent-in-part')],
    ['drafted', of('drafted')],
    ['shown', of('shown')],
    ['no-news', of('no-news')],
    ['none', of('none') + refused],
  ] as const;
  const said = parts.filter(([, count]) => count > 0);
  const count = done.length + refused;
  if (said.length === 0) return terminal('post.farms', { count });
  const all = said.map(([what, number]) => terminal(`post.part.${what}`, { count: number }));
  return terminal('post.farms-by-outcome', { count, parts: inRow('comma', all) });
}

/** A farm's own record at fault is 1; a machine, a server or a size is 2. */
function codeOf(done: readonly FarmPosted[]): ExitCode {
  const ofRecords = new Set(['no-address', 'bad-address', 'calendar-damaged']);
  const failed = done.filter(({ state }) => state === 'none' || state === 'sent-in-part');
  if (failed.some(({ why }) => why === undefined || !ofRecords.has(why))) return exitCode.wrongUse;
  return failed.length > 0 ? exitCode.problems : exitCode.well;
}

/** A browser begun when the first farm wants a PDF, and ended with the run. One that is not there is reported to each. */
function printerForMail(effects: Effects) {
  let begun: Promise<Printer> | undefined;
  return {
    printer: () => (begun ??= openedOn(effects)),
    close: async () => (await begun?.catch(() => undefined))?.close(),
  };
}

async function openedOn(effects: Effects): Promise<Printer> {
  const found = effects.browser();
  if ('missing' in found) throw new NoLetter('no-browser', noBrowser(found));
  const { openPrinter } = await import('../pdf/open-printer.js');
  try {
    return await openPrinter({ browser: found.path });
  } catch (error) {
    if (!(error instanceof PrintingTrouble)) throw error;
    throw new NoLetter('no-browser', printingTroubleInWords(error));
  }
}

/** Notes a letter as sent that may have gone and, as somebody has learned, did come. */
function noteCame(run: PostRun, farm: FarmRecord): Promise<FarmPosted> {
  const { cases, dryRun } = run.options;
  const memory = postedOnDisk(run.effects, cases, farm.slug);
  return orNoLetter(farm, () =>
    memory.alone(async () => {
      const addresses = addressOfFarm(farm).map(({ address }) => address);
      const { perhaps } = goneBefore(memory.read(), toldTo(run, farm).content, addresses);
      if (perhaps === undefined) throw new NoLetter('none-in-doubt', terminal('post.none-in-doubt'));
      const { at, day, to, messageId, content, head } = perhaps;
      if (!dryRun) note(memory, { what: 'sent', at, day, to, messageId, content, ...given({ head }) });
      const said = { farm: farm.slug, to: to.join(', '), moment: minute(at) };
      return {
        farm: farm.slug,
        state: dryRun ? 'shown' : 'noted',
        to,
        messageId,
        content,
        said: [terminal(dryRun ? 'post.would-be-noted' : 'post.noted', said)],
        warned: [],
      };
    }),
  );
}
