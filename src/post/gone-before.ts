import type { Posted, PostedLine } from './posted.js';

/** What is known of an earlier sending of the same content. */
export interface GoneBefore {
  /** Addresses it went to, each with when it last did. */
  readonly sent: ReadonlyMap<string, string>;
  /** A sending that was begun and whose end nobody knows: it may have gone. */
  readonly perhaps: PostedLine | undefined;
}

/**
 * To whom the same content went already, so that nobody gets it twice unasked.
 *
 * It counts by address: where a server refused one of two, only that one is still to get it.
 */
export function goneBefore({ lines }: Posted, content: string, to: readonly string[]): GoneBefore {
  const sent = new Map<string, string>();
  let perhaps: PostedLine | undefined;
  for (const line of lines) {
    if (line.content !== content) continue;
    if (line.what === 'begun') {
      if (line.to.some((address) => to.includes(address))) perhaps = line;
      continue;
    }
    if (line.messageId === perhaps?.messageId) perhaps = undefined;
    if (line.what === 'sent')
      for (const address of line.to) if (to.includes(address)) sent.set(address, line.at);
  }
  return { sent, perhaps };
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

/** The last time anything went to this farm; undefined where nothing has. */
export function lastSent({ lines }: Posted): PostedLine | undefined {
  return lines.findLast(({ what }) => what === 'sent');
}
