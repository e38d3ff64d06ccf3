import { createHash } from 'node:crypto';
import { draftMessage } from '../../post/draft-message.js';
import { goneBefore, timesSent } from '../../post/gone-before.js';
import type { Mailbox } from '../../post/mailbox.js';
import type { MailSetting } from './mail-setting.js';
import { note, type PostedOnDisk } from './posted-on-disk.js';
import { NoLetter, type PostRun } from './post-run.js';
import type { LetterReady } from './prepare-letter.js';
import { troubleInWords } from './trouble-in-words.js';

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
      `the same was begun to be sent to ${perhaps.to.join(', ')} on ${minute(perhaps.at)}, and this program ended before it heard whether the server took it: ask at the farm. If it came, \`--came\` notes that; if not, \`--again\` sends it. A mail box that has it shows it once, unless something in it has changed since`,
    );
  const [first, ...others] = options.again ? to : to.filter(({ address }) => !sent.has(address));
  if (first !== undefined) return [first, ...others];
  const when = [...sent].map(([address, at]) => `${address} on ${minute(at)}`).join(', ');
  throw new NoLetter(
    'same-again',
    `what it tells went to ${when}, and nothing in it is other than then; \`--again\` sends it again`,
  );
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
    message: sha256(bytes),
    attached: message.attachments.map((file) => ({ name: file.name, sha256: sha256(file.content) })),
  });
  const from = sender?.address ?? message.from?.address ?? '';
  const delivery = await send(server, { from, to, bytes });
  if (delivery.outcome === 'failed') {
    const noted = tried(() => posted.add({ what: 'failed', ...shared, why: delivery.trouble.kind }));
    const unnoted = noted
      ? ''
      : `; ${posted.path} cannot be written now, so the next run will say that it may have gone`;
    throw new NoLetter(
      'failed',
      `${troubleInWords(delivery.trouble, server)}. Nothing is marked as sent${unnoted}`,
    );
  }
  if (delivery.outcome === 'unknown')
    throw new NoLetter(
      'unknown',
      `the whole message was handed over, and the connection to ${server.host}:${server.port} ended before the server said whether it took it: it may have gone. Nothing is marked as sent; ask at the farm. If it came, \`--came\` notes that; if not, \`--again\` sends it`,
    );
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
      `the message has gone to ${delivery.to.join(', ')}, but ${posted.path} cannot be written (${code ?? said}), so that is not noted: the next run will say that it may have gone. Do not send it again; once there is room, \`--came\` notes it`,
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

function sha256(bytes: Uint8Array): string {
  return createHash('sha256').update(bytes).digest('hex');
}

/** A moment as far as somebody asks: to the minute, and in which time. @example minute('2026-06-16T18:02:11.000Z') // → '2026-06-16 18:02 UTC' */
export function minute(at: string): string {
  return `${at.slice(0, 10)} ${at.slice(11, 16)} UTC`;
}
