/** What a saved file asks to be built anew: one farm's book, all of them, or nothing. */
export type Touched = { readonly farm: string } | 'all' | undefined;

/** Records, and the pictures they name. */
const inBooks = /\.(?:md|jpe?g|png|webp)$/i;

/**
 * @example farmOfSave('quernholt/2086.md') // → { farm: 'quernholt' }
 * @example farmOfSave('business.md') // → 'all'
 * @example farmOfSave('quernholt/2086.md~') // → undefined
 */
export function farmOfSave(path: string): Touched {
  const [first = '', ...rest] = path.split('/');
  if (rest.length === 0 && first === 'business.md') return 'all';
  const folderGone = rest.length === 0 && first !== '' && !first.includes('.');
  return folderGone || (rest.length > 0 && inBooks.test(path)) ? { farm: first } : undefined;
}
