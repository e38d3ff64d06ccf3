import type { PictureWanted } from '../picture/fit-pictures.js';
import type { BookPage } from './book-page.js';

/** Every picture that has its place in a book, once; what is large in one place is made large. */
export function picturesWanted({ animals, closed }: BookPage): readonly PictureWanted[] {
  const wanted = new Map<string, PictureWanted>();
  for (const { photos } of [...animals, ...closed])
    for (const { large, more } of photos?.strips ?? [])
      for (const { shots } of [...large, ...(more?.days ?? [])])
        for (const { of } of shots)
          wanted.set(of.file, { ...of, large: of.large || wanted.get(of.file)?.large === true });
  return [...wanted.values()];
}
