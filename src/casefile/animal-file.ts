import type { Animal } from '../record/animal.js';

/** An animal's file as the checks between files see it: read, and of the right shape. */
export interface AnimalFile {
  /** The file's name without `.md`. */
  readonly slug: string;
  /** As the user would type it, with `/`. */
  readonly file: string;
  readonly animal: Animal;
}
