/**
 * A piece of work, or `late()` thrown when it takes longer than the limit, ms. The work itself is not stopped: who
 * calls ends what is doing it.
 */
export async function withinTime<T>(work: Promise<T>, limitMs: number, late: () => Error): Promise<T> {
  let timer: NodeJS.Timeout | undefined;
  const limit = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(late()), limitMs);
  });
  try {
    return await Promise.race([work, limit]);
  } finally {
    clearTimeout(timer);
  }
}
