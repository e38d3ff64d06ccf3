import { join } from 'node:path';
import { draftMessage } from '../draft-message.js';
import { goneBefore, timesSent } from '../posted.js';
import type { FarmRecord } from '../../record/practice.js';
import { folderOf, writeResult } from '../../run/exit-code.js';
import {
  addressOfFarm,
  postedOnDisk,
  NoLetter,
  type NoLetterWhy,
  type PostRun,
  sealForMail,
  note,
  type PostedOnDisk,
} from './post-run.js';
import { type LetterReady, prepareLetter, toldTo } from './prepare-letter.js';
import { terminal } from '../../problem/message.js';
import type { Mailbox } from '../mailbox.js';
import { sha256Of } from '../../ledger/canonical.js';
import type { MailSetting } from './mail-setting.js';
import { mailNumbers } from '../../reference/numbers.js';
import type { MailServer, MailTrouble } from '../../run/effects.js';

/** What came of one farm. */
export interface FarmPosted {
  readonly farm: string;
  readonly state: 'drafted' | 'sent' | 'sent-in-part' | 'noted' | 'shown' | 'no-news' | 'none';
  /** Of `none`: what stood in the way. */
  readonly why?: NoLetterWhy;
  readonly to?: readonly string[];
  readonly file?: string;
  readonly bytes?: number;
  readonly content?: string;
  readonly messageId?: string;
  readonly attached?: readonly { readonly name: string; readonly bytes: number }[];
  /** For the terminal: results. */
  readonly said: readonly string[];
  /** For the terminal: what is wrong. */
  readonly warned: readonly string[];
}

/**
 * One farm's letter: written as a draft, or sent; with `--all-due` only where it tells something new.
 *
 * Nothing here throws for what is a farm's own trouble: the next farm still gets its letter.
 */
export function postFarm(run: PostRun, farm: FarmRecord): Promise<FarmPosted> {
  return orNoLetter(farm, () => letterOf(run, farm));
}

/** The work on one farm, or why it got no letter. */
export async function orNoLetter(farm: FarmRecord, work: () => Promise<FarmPosted>): Promise<FarmPosted> {
  try {
    return await work();
  } catch (error) {
    if (!(error instanceof NoLetter)) throw error;
    const { why, message } = error;
    const warned = [terminal('mail.none', { farm: farm.slug, message })];
    return { farm: farm.slug, state: 'none', why, said: [], warned };
  }
}

async function letterOf(run: PostRun, farm: FarmRecord): Promise<FarmPosted> {
  const { options, effects, setting } = run;
  const { slug } = farm;
  const memory = postedOnDisk(effects, options.cases, slug);
  const { summary, content } = toldTo(run, farm);
  const before = memory.read();
  if (options.allDue && summary.quiet && before.lines.length === 0)
    return nothingNew(slug, terminal('mail.nothing-to-say', { farm: slug }));
  const everybody = addressOfFarm(farm);
  const addresses = everybody.map(({ address }) => address);
  const { sent } = goneBefore(before, content, addresses);
  const hasAll = addresses.every((address) => sent.has(address));
  if (options.allDue && hasAll)
    return nothingNew(slug, terminal('mail.no-news', { farm: slug, at: lastOf(sent) }));
  const warned = before.unreadable.map((line) => terminal('mail.unreadable', { path: memory.path, line }));
  const to = setting ? stillToGet(run, memory, content, everybody) : everybody;
  const letter = await prepareLetter(run, await sealForMail(run, slug), to);
  for (const each of letter.warnings.map((warning) => warning.trimEnd())) warned.push(each);
  const facts = { farm: slug, ...factsOf(letter), warned };
  if (options.dryRun)
    return {
      ...facts,
      state: 'shown',
      said: [terminal(`mail.would-be-${setting ? 'sent' : 'drafted'}`, { farm: slug, ...inWords(letter) })],
    };
  if (setting) {
    const done = await memory.alone(async () => {
      // Another run may have sent it while this one made the book.
      if (stillToGet(run, memory, letter.content, to).length < to.length)
        throw new NoLetter('locked', terminal('mail.meanwhile'));
      return sendLetter(run, setting, memory, letter);
    });
    letter.remember();
    const refused = done.refused.map(({ address, said }) =>
      terminal(said === '' ? 'mail.refused' : 'mail.refused-said', { farm: slug, address, said }),
    );
    return {
      ...facts,
      state: refused.length > 0 ? 'sent-in-part' : 'sent',
      to: done.to,
      bytes: done.bytes,
      messageId: done.messageId,
      said: [terminal('mail.sent', { farm: slug, to: done.to.join(', '), size: megabytes(done.bytes) })],
      warned: [...warned, ...refused],
    };
  }
  const name = `${slug}.eml`;
  const { bytes, messageId } = await draftMessage(letter.message);
  writeResult(join(folderOf(effects, options.out), name), bytes, effects);
  letter.remember();
  const file = join(options.out, name);
  const already = [...sent].map(
    ([address, at]) => `  ${terminal('mail.same-went', { address, at: minute(at) })}`,
  );
  return {
    ...facts,
    state: 'drafted',
    file,
    messageId,
    said: [terminal('mail.drafted', { file, ...inWords(letter) }), ...already],
  };
}

function nothingNew(farm: string, said: string): FarmPosted {
  return { farm, state: 'no-news', said: [said], warned: [] };
}

function lastOf(sent: ReadonlyMap<string, string>): string {
  return minute([...sent.values()].toSorted().at(-1) ?? '');
}

function factsOf({ message: { to, attachments }, content, bytes }: LetterReady) {
  const attached = attachments.map(({ name, content: file }) => ({ name, bytes: file.length }));
  return { to: to.map(({ address }) => address), bytes, content, attached };
}

function inWords({ message: { to, attachments }, bytes }: LetterReady) {
  return {
    to: to.map(({ address }) => address).join(', '),
    size: megabytes(bytes),
    attached: attachments.map(({ name }) => name).join(', '),
  };
}

function megabytes(bytes: number): string {
  return bytes < 1e5
    ? terminal('mail.kilobytes', { kb: Math.ceil(bytes / 1000) })
    : terminal('mail.megabytes', { mb: (bytes / 1e6).toFixed(1) });
}

/** A trouble with a mail server: what it is, what was said, and the way out. */
function troubleInWords({ kind, said }: MailTrouble, { host, port }: MailServer): string {
  const seconds = mailNumbers.connectSeconds.value;
  const what = terminal(`mail.server.${kind}.what`, { server: `${host}:${port}`, seconds });
  const fix = terminal(`mail.server.${kind}.fix`);
  return terminal(said === '' ? 'mail.server.trouble' : 'mail.server.trouble-said', { what, said, fix });
}

/** Those of a farm's addresses that are still to get this; all of them where it is to go again. */
function stillToGet(
  { options }: PostRun,
  posted: PostedOnDisk,
  content: string,
  to: readonly Mailbox[],
): readonly [Mailbox, ...Mailbox[]] {
  const { sent, perhaps } = goneBefore(
    posted.read(),
    content,
    to.map(({ address }) => address),
  );
  if (perhaps !== undefined && !options.again)
    throw new NoLetter(
      'perhaps-gone',
      terminal('mail.perhaps-gone', { to: perhaps.to.join(', '), at: minute(perhaps.at) }),
    );
  const [first, ...others] = options.again ? to : to.filter(({ address }) => !sent.has(address));
  if (first !== undefined) return [first, ...others];
  const when = [...sent]
    .map(([address, at]) => terminal('mail.when', { address, at: minute(at) }))
    .join(', ');
  throw new NoLetter('same-again', terminal('mail.same-again', { when }));
}

/**
 * Sends one letter and notes what came of it, so that at no moment it can have gone without a trace.
 *
 * Before the server is spoken to, a line says that it is begun; after its 250, a line says that it was taken. Ends the
 * program between the two, the first line alone is left, and the next run says that it may have gone.
 *
 * Error: NoLetter where it went to nobody, or nobody can know
 */
async function sendLetter(
  { effects: { disk } }: PostRun,
  { server, sender, send }: MailSetting,
  posted: PostedOnDisk,
  { message, content, head }: LetterReady,
) {
  const { messageId: plain } = await draftMessage(message);
  const before = timesSent(posted.read(), plain);
  const sentAt = new Date(Math.floor(disk.now() / 1000) * 1000);
  const { bytes, messageId } = await draftMessage(message, { before, sentAt });
  const to = message.to.map(({ address }) => address);
  const shared = {
    at: sentAt.toISOString(),
    day: message.day,
    to,
    messageId,
    content,
    ...(head ? { head: head.hash } : {}),
  };
  note(posted, {
    what: 'begun',
    ...shared,
    bytes: bytes.length,
    message: sha256Of(bytes),
    attached: message.attachments.map((file) => ({ name: file.name, sha256: sha256Of(file.content) })),
  });
  const from = sender?.address ?? message.from?.address ?? '';
  const delivery = await send(server, { from, to, bytes });
  if (delivery.outcome === 'failed') {
    const noted = tried(() => posted.add({ what: 'failed', ...shared, why: delivery.trouble.kind }));
    const trouble = troubleInWords(delivery.trouble, server);
    const key = noted ? 'mail.failed' : 'mail.failed-unnoted';
    throw new NoLetter('failed', terminal(key, { trouble, path: posted.path }));
  }
  if (delivery.outcome === 'unknown')
    throw new NoLetter('unknown', terminal('mail.unknown', { host: server.host, port: server.port }));
  const refused = delivery.refused.map(({ address }) => address);
  try {
    posted.add({
      what: 'sent',
      ...shared,
      at: new Date(Math.floor(disk.now() / 1000) * 1000).toISOString(),
      to: [...delivery.to],
      ...(refused.length > 0 ? { refused } : {}),
    });
  } catch (error) {
    const { code, message: said } = error as NodeJS.ErrnoException;
    throw new NoLetter(
      'not-noted',
      terminal('mail.not-noted', { to: delivery.to.join(', '), path: posted.path, code: code ?? said }),
    );
  }
  return { to: delivery.to, refused: delivery.refused, messageId, bytes: bytes.length };
}

function tried(work: () => void): boolean {
  try {
    work();
    return true;
  } catch {
    return false;
  }
}

/** A moment as far as somebody asks: to the minute, and in which time. @example minute('2026-06-16T18:02:11.000Z') // → '2026-06-16 18:02 UTC' */
export function minute(at: string): string {
  return `${at.slice(0, 10)} ${at.slice(11, 16)} UTC`;
}
