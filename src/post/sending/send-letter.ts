import { draftMessage } from '../draft-message.js';
import { goneBefore, timesSent } from '../posted.js';
import type { Mailbox } from '../mailbox.js';
import { sha256Of } from '../../ledger/canonical.js';
import type { MailSetting } from './mail-setting.js';
import { note, type PostedOnDisk, NoLetter, type PostRun } from './post-run.js';
import type { LetterReady } from './prepare-letter.js';
import { mailNumbers } from '../../reference/numbers.js';
import type { MailServer, MailTrouble } from '../../run/effects.js';
import { terminal } from '../../problem/message.js';

/** A trouble with a mail server: what it is, what was said, and the way out. */
function troubleInWords({ kind, said }: MailTrouble, { host, port }: MailServer): string {
  const seconds = mailNumbers.connectSeconds.value;
  const what = terminal(`mail.server.${kind}.what`, { server: `${host}:${port}`, seconds });
  const fix = terminal(`mail.server.${kind}.fix`);
  return terminal(said === '' ? 'mail.server.trouble' : 'mail.server.trouble-said', { what, said, fix });
}

export interface LetterSent {
  readonly to: readonly string[];
  readonly refused: readonly { readonly address: string; readonly said: string }[];
  readonly messageId: string;
  readonly bytes: number;
}

/** Those of a farm's addresses that are still to get this; all of them where it is to go again. */
export function stillToGet(
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
export async function sendLetter(
  { effects: { disk } }: PostRun,
  { server, sender, send }: MailSetting,
  posted: PostedOnDisk,
  { message, content, head }: LetterReady,
): Promise<LetterSent> {
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
