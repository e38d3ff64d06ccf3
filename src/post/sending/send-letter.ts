import { createHash } from 'node:crypto';
import { draftMessage } from '../draft-message.js';
import { goneBefore, timesSent } from '../gone-before.js';
import type { Mailbox } from '../mailbox.js';
import type { MailSetting } from './mail-setting.js';
import { note, type PostedOnDisk, NoLetter, type PostRun } from './post-run.js';
import type { LetterReady } from './prepare-letter.js';
import { mailNumbers } from '../../reference/numbers.js';
import type { MailServer, MailTrouble, MailTroubleKind } from '../../run/effects.js';

const seconds = mailNumbers.connectSeconds.value;

const told: Readonly<Record<MailTroubleKind, (at: string) => readonly [what: string, mend: string]>> = {
  'unknown-host': (at) => [
    `no mail server of the name in ${at} is found`,
    'see that this computer is on the network, and that the name is spelled as your provider gives it',
  ],
  'nothing-listens': (at) => [
    `no mail server takes calls at ${at}`,
    'see the name and the port: most servers take mail at 587 (starttls) or 465 (implicit)',
  ],
  'no-answer': (at) => [
    `${at} gave no answer within ${seconds} seconds`,
    'see that this computer is on the network, and the port: 465 wants `tls: implicit`, 587 wants `tls: starttls`; some networks let no mail out',
  ],
  'no-tls': (at) => [
    `${at} does not begin TLS, and without it anybody on the way could read the password and the message`,
    'take the port with TLS your provider names, mostly 587 (starttls) or 465 (implicit); no setting sends without it',
  ],
  certificate: (at) => [
    `the certificate of ${at} is not trusted: it may be another server that answers`,
    'see that the name is the one your provider gives; for a server of your own, name its certificate with `trust`',
  ],
  login: (at) => [
    `${at} refuses the user name or the password`,
    'see both; many providers want a password made for one program, not the one for their web pages',
  ],
  'login-wanted': (at) => [`${at} takes mail only after a login`, 'give `user` and `password`'],
  'too-large': (at) => [
    `${at} takes no message as large as this`,
    'make it smaller with `--max-mb`, with `--attach html` or with `--open-only`, or hand the book over another way',
  ],
  'sender-refused': (at) => [
    `${at} does not let this login send as the sender given`,
    "set `sender` to the address of the login; answers still go to the business's `reply-to`",
  ],
  'address-refused': (at) => [
    `${at} refuses the farm's address`,
    'see `contact: { email }` in its farm.md with the farm',
  ],
  'message-refused': (at) => [
    `${at} refuses the message itself`,
    'what it says tells why; with `--attach pdf` no HTML file goes along, which some servers refuse',
  ],
  later: (at) => [`${at} cannot take it now and asks to try later`, 'do it again in an hour'],
  'cut-off': (at) => [
    `the connection to ${at} ended before the server had taken the message`,
    'do it again; if it comes back, ask your provider',
  ],
};

/** A trouble with a mail server: what it is, what was said, and the way out. */
function troubleInWords({ kind, said }: MailTrouble, { host, port }: MailServer): string {
  const [what, mend] = told[kind](`${host}:${port}`);
  return `${what}${said === '' ? '' : ` (it says: ${said})`}; ${mend}`;
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
