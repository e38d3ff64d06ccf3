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
