import { createHash } from 'node:crypto';
import { domainToASCII } from 'node:url';
import type { CalendarDay } from '../record/calendar-day.js';
import { canonicalText, sha256Of } from '../ledger/canonical.js';
import { signsShown } from '../record/signs.js';
import { untold } from '../reference/words.js';
import { type Mailbox, oneLine } from './mailbox.js';

/** What a message says and to whom, before it has bytes. */
export interface MailMessage {
  /** Whose it is; a draft may leave it to the mail program it is opened in. */
  readonly from?: Mailbox;
  /** Empty only in a draft: whoever opens it puts the address in. */
  readonly to: readonly Mailbox[];
  readonly replyTo?: Mailbox;
  readonly subject: string;
  /** Stands alone: all that matters is in it. */
  readonly text: string;
  /** The same for a reader of HTML; asks for nothing from outside. */
  readonly html: string;
  readonly attachments: readonly Attachment[];
  /** The day it is written as on. */
  readonly day: CalendarDay;
}

export interface Attachment {
  /** ASCII, as small letters, digits, hyphens and a dot. */
  readonly name: string;
  readonly type: 'text/html' | 'application/pdf' | 'text/calendar' | 'text/csv';
  readonly content: Uint8Array;
}

/** What makes this copy of a message other than the next. */
export interface Copy {
  /** How often the same message went to them before; 0 unless said. Mail boxes drop a second message of the same id. */
  readonly before?: number;
  /** The moment it is handed over; without it, it is a draft, dated noon of its day, to be opened and sent by hand. */
  readonly sentAt?: Date;
}

/**
 * A message as the bytes of an `.eml` file (RFC 5322, MIME): the same input, the same bytes.
 *
 * A draft carries `X-Unsent: 1`, by which mail programs open it ready to be sent; one that is sent does not, or it would
 * open so at the farm. There is never a Bcc. The id, the date and the boundaries come from what the message says.
 *
 * Checked: tests/post/draft-message.test.ts
 */
export async function draftMessage(message: MailMessage, copy: Copy = {}) {
  const { default: MailComposer } = await import('nodemailer/lib/mail-composer');
  const { from, to, replyTo, html, attachments } = message;
  const text = signsShown(message.text);
  const subject = signsShown(untold(message.subject));
  const { before = 0, sentAt } = copy;
  if (sentAt && to.length === 0) throw new RangeError('a message that is sent goes to somebody');
  const hash = sha256Of(
    canonicalText({
      from,
      to,
      replyTo,
      subject,
      text,
      html,
      day: message.day,
      attachments: hashed(attachments),
    }),
  );
  const messageId = `<${hash.slice(0, 40)}${before === 0 ? '' : `.${before + 1}`}@${domainOf(from)}>`;
  const bytes = await new MailComposer({
    ...(from ? { from: headerOf(from) } : {}),
    ...(to.length > 0 ? { to: to.map(headerOf) } : {}),
    ...(replyTo ? { replyTo: headerOf(replyTo) } : {}),
    subject: oneLine(subject),
    messageId,
    date: sentAt ?? new Date(`${message.day}T12:00:00Z`),
    ...(sentAt ? {} : { headers: { 'X-Unsent': '1' } }),
    text,
    html,
    attachments: attachments.map(({ name, type, content }) => ({
      filename: name,
      contentType:
        type === 'text/html' || type === 'text/calendar' || type === 'text/csv'
          ? `${type}; charset=utf-8`
          : type,
      content: Buffer.from(content),
    })),
    baseBoundary: hash.slice(40),
    newline: '\r\n',
    disableFileAccess: true,
    disableUrlAccess: true,
  })
    .compile()
    .build();
  return { bytes, messageId };
}

function hashed(attachments: readonly Attachment[]) {
  return attachments.map(({ name, content }) => [name, createHash('sha256').update(content).digest('hex')]);
}

/** The id is made by us and names no machine: the sender's own domain, else one that can never be anybody's (RFC 2606). */
function domainOf(from: Mailbox | undefined): string {
  const domain = from && domainToASCII(from.address.slice(from.address.lastIndexOf('@') + 1));
  return domain || 'growdown.invalid';
}

function headerOf({ name, address }: Mailbox) {
  return { name: name === undefined ? '' : oneLine(name), address };
}
