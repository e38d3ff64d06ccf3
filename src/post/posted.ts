import { z } from 'zod';
import { calendarDay, type CalendarDay } from '../record/calendar-day.js';

const hash = z.string().regex(/^[0-9a-f]{64}$/);
const shared = {
  /** The moment, as ISO 8601 in UTC. */
  at: z.iso.datetime(),
  /** The day it was written as on. */
  day: calendarDay,
  to: z.array(z.string()).min(1),
  messageId: z.string(),
  /** What the summary told: `newsHash`. */
  content: hash,
  /** The head of the farm's ledger, where the mail told one. */
  head: hash.optional(),
};
const oneLine = z.discriminatedUnion('what', [
  /** Written before a server is spoken to: if the program ends before it hears the answer, it is known that it may have gone. */
  z.strictObject({
    what: z.literal('begun'),
    ...shared,
    bytes: z.int().positive(),
    /** SHA-256 of the message's bytes. */
    message: hash,
    attached: z.array(z.strictObject({ name: z.string(), sha256: hash })),
  }),
  /** The server has taken it, for those in `to`. */
  z.strictObject({ what: z.literal('sent'), ...shared, refused: z.array(z.string()).optional() }),
  /** It has not gone to anybody. */
  z.strictObject({ what: z.literal('failed'), ...shared, why: z.string() }),
]);
/** One line of what the program remembers of a farm's mail, `.growdown/posted.jsonl`. */
export type PostedLine = z.infer<typeof oneLine>;

/** What went to a farm, as far as is remembered. */
export interface Posted {
  readonly lines: readonly PostedLine[];
  /** Numbers, from 1, of lines that cannot be read. A line cut short where a program ended counts for nothing sent. */
  readonly unreadable: readonly number[];
}

/** Reads what is remembered; a line that is no such line is reported and passed over, none is ever lost. */
export function readPosted(text: string): Posted {
  const lines: PostedLine[] = [];
  const unreadable: number[] = [];
  for (const [at, written] of text.split('\n').entries()) {
    if (written.trim() === '') continue;
    const read = parsed(written);
    if (read === undefined) unreadable.push(at + 1);
    else lines.push(read);
  }
  return { lines, unreadable };
}

/** A line as it is added to the file. */
export function postedLine(written: PostedLine): string {
  return `${JSON.stringify(oneLine.parse(written))}\n`;
}

function parsed(text: string): PostedLine | undefined {
  try {
    return oneLine.safeParse(JSON.parse(text)).data;
  } catch {
    return undefined;
  }
}

/** Mail that named the head of the farm's ledger, and whose mail box holds it. */
export interface MailedHead {
  readonly day: CalendarDay;
  readonly to: readonly string[];
  /** SHA-256, 64 hexadecimal digits. */
  readonly head: string;
}

/** Every mail a server has taken that named a head, oldest first. A draft sent by hand is not known of here. */
export function mailedHeads({ lines }: Posted): MailedHead[] {
  return lines.flatMap(({ what, day, to, head }) =>
    what === 'sent' && head !== undefined ? [{ day, to, head }] : [],
  );
}

/**
 * To whom the same content went already, so that nobody gets it twice unasked.
 *
 * It counts by address: where a server refused one of two, only that one is still to get it.
 */
export function goneBefore({ lines }: Posted, content: string, to: readonly string[]) {
  const sent = new Map<string, string>();
  let open: PostedLine[] = [];
  for (const line of lines) {
    if (line.content !== content) continue;
    if (line.what === 'begun') {
      if (line.to.some((address) => to.includes(address))) open.push(line);
    } else if (line.what === 'sent') {
      // Whether an earlier one went as well no longer matters to whoever asks if it is still to go.
      open = open.filter(
        (begun) => !begun.to.every((address) => line.to.includes(address) || line.refused?.includes(address)),
      );
      for (const address of line.to) if (to.includes(address)) sent.set(address, line.at);
    } else {
      const ended = open.findLastIndex(({ messageId }) => messageId === line.messageId);
      if (ended >= 0) open.splice(ended, 1);
    }
  }
  return { sent, perhaps: open.at(-1) };
}

/** How often a server has taken a message of this id, or of it sent again. */
export function timesSent({ lines }: Posted, messageId: string): number {
  const [name, domain] = [
    messageId.slice(0, messageId.lastIndexOf('@')),
    messageId.slice(messageId.lastIndexOf('@')),
  ];
  return lines.filter(
    ({ what, messageId: id }) =>
      what === 'sent' && id.endsWith(domain) && (id === messageId || id.startsWith(`${name}.`)),
  ).length;
}
