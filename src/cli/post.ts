import { archiveOn } from '../herd/archive-on.js';
import { type Mailbox, mailboxOf } from '../post/mailbox.js';
import type { Business } from '../record/business.js';
import { type Effects, type MailMachine, progressOn } from '../run/effects.js';
import { exitCode, type ExitCode, farmByFarm, worse, WrongUse } from '../run/exit-code.js';
import { mailSetting } from '../post/sending/mail-setting.js';
import { type FarmPosted, postFarm, orNoLetter } from '../post/sending/post-farm.js';
import {
  type PostOptions,
  type PostRun,
  NoLetter,
  addressOfFarm,
  note,
  postedOnDisk,
} from '../post/sending/post-run.js';
import { exitFor, listProblems, readCases } from '../run/read-cases.js';
import { type Printer, PrintingTrouble } from '../pdf/open-printer.js';
import { noBrowser, printingTroubleInWords } from '../pdf/find-browser.js';
import { goneBefore } from '../post/gone-before.js';
import type { FarmRecord } from '../record/practice.js';
import { toldTo } from '../post/sending/prepare-letter.js';
import { minute } from '../post/sending/send-letter.js';
import { given } from '../record/given.js';

export type { PostOptions } from '../post/sending/post-run.js';

/**
 * Writes a farm's letter as a draft to open in a mail program, or sends it; or those of all farms with news.
 *
 * Error: WrongUse for options that contradict each other, and for a way of sending that is not set or not safe
 */
export async function post(
  slug: string | undefined,
  options: PostOptions,
  effects: Effects,
): Promise<ExitCode> {
  checkOptions(slug, options);
  const reading = readCases({ ...options, ...given({ farm: slug }) }, effects, {
    pictures: 'hashed',
  });
  const { practice, farms, today, problems, farmsRefused } = reading;
  const setting = options.send ? mailSetting(machineOf(effects), options, effects) : undefined;
  for (const told of setting?.told ?? []) effects.warn(`${told}\n`);
  const { printer, close } = printerForMail(effects);
  const run: PostRun = {
    options,
    effects,
    practice,
    today,
    archive: archiveOn(practice, today),
    ...whose(practice.business, setting?.sender, options),
    ...(setting ? { setting } : {}),
    printer,
  };
  const progress = progressOn(effects);
  const done: FarmPosted[] = [];
  let ended: ExitCode;
  try {
    ended = await farmByFarm(farms, effects, async (farm, index) => {
      progress.show(index + 1, farms.length, farm.farm.farm);
      const posted = await (options.came ? noteCame(run, farm) : postFarm(run, farm));
      progress.clear();
      for (const line of posted.warned) effects.warn(`${line}\n`);
      if (!options.json) for (const line of posted.said) effects.print(`${line}\n`);
      done.push(posted);
    });
  } finally {
    progress.clear();
    await close();
  }
  const errors = problems.filter(({ severity }) => severity === 'error');
  listProblems(errors, reading.filesRead, effects);
  for (const refused of farmsRefused)
    effects.warn(`${refused}: no mail, because of the errors above; nothing was sent or written for it\n`);
  if (options.json) effects.print(`${JSON.stringify(asJson(done, farmsRefused, problems), null, 2)}\n`);
  else if (options.allDue) effects.print(`${counted(done, farmsRefused.length)}\n`);
  return worse(ended, exitOf(done, exitFor(errors)));
}

function machineOf({ mail }: Effects): MailMachine {
  if (mail === undefined) throw new RangeError('nothing here can send mail');
  return mail;
}

function checkOptions(slug: string | undefined, { allDue, again, send, came }: PostOptions): void {
  if (came && (allDue || send || again))
    throw new WrongUse(
      '`--came` notes what came at one farm and sends nothing: leave out `--all-due`, `--send` and `--again`',
    );
  if (slug === undefined && !allDue)
    throw new WrongUse(
      'name the farm, as in `growdown post quernholt`, or say `--all-due` for every farm with news',
    );
  if (slug !== undefined && allDue)
    throw new WrongUse(`\`--all-due\` is for every farm: leave out ${slug}, or leave out \`--all-due\``);
  if (again && allDue)
    throw new WrongUse('`--again` sends what a farm has already: say it with one farm, not with `--all-due`');
  if (again && !send)
    throw new WrongUse('`--again` goes with `--send`: a draft can be written as often as you like');
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
        ? `no sender: write \`email: …\` into ${cases}/business.md, or set \`sender\` for sending`
        : `${cases}/business.md: email is \`${address}\`, expected one bare address as in office@farmfeet.example`,
    );
  const answers = replyTo === undefined ? undefined : mailboxOf(replyTo, name);
  if (replyTo !== undefined && answers === undefined)
    throw new WrongUse(
      `${cases}/business.md: reply-to is \`${replyTo}\`, expected one bare address as in office@farmfeet.example`,
    );
  return {
    ...(from ? { from } : {}),
    ...(answers && answers.address !== from?.address ? { replyTo: answers } : {}),
  };
}

function counted(done: readonly FarmPosted[], refused: number): string {
  const of = (...states: FarmPosted['state'][]) => done.filter(({ state }) => states.includes(state)).length;
  const parts = [
    [of('sent', 'sent-in-part'), 'sent'],
    [of('drafted'), 'drafted'],
    [of('shown'), 'shown'],
    [of('no-news'), 'without news'],
    [of('none') + refused, 'without mail for the reasons given'],
  ] as const;
  const all = done.length + refused;
  const said = parts.filter(([count]) => count > 0).map(([count, what]) => `${count} ${what}`);
  return `${all} ${all === 1 ? 'farm' : 'farms'}${said.length > 0 ? `: ${said.join(', ')}` : ''}`;
}

/** A farm's own record at fault is 1; a machine, a server or a size is 2. */
function exitOf(done: readonly FarmPosted[], read: ExitCode): ExitCode {
  const ofRecords = new Set(['no-address', 'bad-address', 'calendar-damaged']);
  const failed = done.filter(({ state }) => state === 'none' || state === 'sent-in-part');
  if (failed.some(({ why }) => why === undefined || !ofRecords.has(why))) return exitCode.wrongUse;
  return failed.length > 0 && read === exitCode.well ? exitCode.problems : read;
}

function asJson(done: readonly FarmPosted[], refused: readonly string[], problems: readonly object[]) {
  return { farms: done.map((one) => ({ ...one, said: undefined })), refused, problems };
}

/** A browser begun when the first farm wants a PDF, and ended with the run. One that is not there is told of to each. */
function printerForMail(effects: Effects): {
  readonly printer: () => Promise<Printer>;
  readonly close: () => Promise<void>;
} {
  let begun: Promise<Printer> | undefined;
  return {
    printer: () => (begun ??= openedOn(effects)),
    close: async () => {
      const printer = await begun?.catch(() => undefined);
      await printer?.close();
    },
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
  const { effects, options } = run;
  const { slug } = farm;
  const memory = postedOnDisk(effects, options.cases, slug);
  return orNoLetter(farm, () =>
    memory.alone(async () => {
      const to = addressOfFarm(farm).map(({ address }) => address);
      const { perhaps } = goneBefore(memory.read(), toldTo(run, farm).content, to);
      if (perhaps === undefined)
        throw new NoLetter(
          'none-in-doubt',
          'of what it tells now, nothing may have gone without being noted; there is nothing to note',
        );
      const { at, day, messageId, content, head } = perhaps;
      if (!options.dryRun)
        note(memory, {
          what: 'sent',
          at,
          day,
          to: perhaps.to,
          messageId,
          content,
          ...given({ head }),
        });
      return {
        farm: slug,
        state: options.dryRun ? 'shown' : 'noted',
        to: perhaps.to,
        messageId,
        content,
        said: [
          `${slug}  ${options.dryRun ? 'would be noted' : 'noted'}: sent to ${perhaps.to.join(', ')} on ${minute(at)}`,
        ],
        warned: [],
      };
    }),
  );
}
