import type { Finding } from './finding.js';

/** A finding of a check that saw several files, with the slug of the animal's file it belongs to. */
export interface BetweenFilesFinding extends Finding {
  readonly animalSlug: string;
}
