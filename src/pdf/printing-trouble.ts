/** How far a browser came before it failed: it did not start, gave no answer in time, or ended before the sheets were there. */
export type PrintingTroubleKind = 'did-not-start' | 'no-answer' | 'ended';

/** A browser that did not print. It is the machine's trouble, not the book's and not this program's. */
export class PrintingTrouble extends Error {
  constructor(
    readonly kind: PrintingTroubleKind,
    readonly browser: string,
    cause?: unknown,
  ) {
    super(`${browser}: ${kind}`, { cause });
  }
}
