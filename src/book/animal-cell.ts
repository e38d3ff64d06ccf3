import type { Words } from '../words/words.js';
import type { Cell } from './page-parts.js';
import type { PlacedCase } from './placed-case.js';

/** An animal's number, linked, with her case's number beside it: paper has no links. */
export function animalCell(words: Words, one: PlacedCase): Cell {
  return {
    text: one.record.animal.animal,
    href: `#${one.id}`,
    after: words.say('jobs.case', { place: one.place }),
  };
}
