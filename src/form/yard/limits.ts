/** What is taken in at most. Judged for one visit with four pictures of a phone over a farm's Wi-Fi. */
export const limits = {
  /** Bytes of one sending, and of one picture in it. */
  sending: 25_000_000,
  picture: 12_000_000,
  /** Above this nothing is read on: up to here what was typed still comes back. */
  readOn: 100_000_000,
  /** Letters of one answer, answers, pictures. */
  answer: 20_000,
  answers: 2000,
  pictures: 24,
  /** Milliseconds for the head of a request, for the whole of it, and with nothing coming. */
  head: 15_000,
  whole: 240_000,
  silent: 60_000,
  /** Connections at once. */
  connections: 40,
} as const;

/** The same in million bytes, as a page says it. */
export const megabytes = { most: limits.sending / 1e6, picture: limits.picture / 1e6 };
