/**
 * What of these is there: the entries without a value left out, for an object whose optional keys are absent, never undefined.
 * Checked: tests/record/given.test.ts
 * @example given({ farm: 'quernholt', from: undefined }) // → { farm: 'quernholt' }
 */
export function given<T extends object>(entries: T): { [K in keyof T]?: Exclude<T[K], undefined> } {
  return Object.fromEntries(Object.entries(entries).filter(([, value]) => value !== undefined)) as {
    [K in keyof T]?: Exclude<T[K], undefined>;
  };
}
