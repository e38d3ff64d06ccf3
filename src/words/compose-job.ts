import type { Animal } from '../record/animal.js';
import { familyOf } from '../reference/lesions.js';
import type { DueItem, DueWhat } from '../schedule/due-item.js';
import { placeInWords } from './lesion-in-words.js';
import type { Words } from './words.js';

/** Jobs on something fitted, or on a foot nobody has looked at: without the foot nobody can do them. */
const needFoot: ReadonlySet<DueWhat> = new Set([
  'block-look',
  'block-off',
  'wrap-off',
  'foul-look',
  'look-other-foot',
]);

/** A due item for a list of jobs: what it is called whichever animal needs it, and what is hers alone. */
export interface JobInShort {
  readonly job: string;
  readonly marks: readonly string[];
}

/**
 * A due item as a job that several animals may share. Its reason stands on the animal's page.
 *
 * Checked: tests/book/first-pages.test.ts, tests/laws/standing-laws.test.ts
 */
export function jobInShort(words: Words, animal: Animal, item: DueItem): JobInShort {
  const { what, foot, claw, nearCalving, beforeNextVisit } = item;
  return {
    job: jobName(words, animal, item),
    marks: [
      ...(foot && needFoot.has(what) ? [placeInWords(words, foot, claw)] : []),
      ...(nearCalving ? [words.say('jobs.mark.near-calving')] : []),
      ...(beforeNextVisit ? [words.say('jobs.mark.before-visit')] : []),
    ],
  };
}

function jobName(words: Words, animal: Animal, { what, task, lesion, why }: DueItem): string {
  const asked = words.say(`vocabulary.task.${task ?? 'ring if worse'}`);
  if (what === 'farm-task' || what === 'vet-work') return asked;
  if (what === 'farm-task-done') return words.say(`jobs.what-in-short.${what}`, { task: asked });
  if (what === 'vet-ask') return words.say(`jobs.what-in-short.vet-ask.${why.values['urgency'] ?? 'notice'}`);
  const declared = lesion === undefined ? undefined : animal.lesions[lesion];
  const isWidth = what === 'measure-again' && declared && familyOf(declared.code) !== 'wall';
  return words.say(`jobs.what-in-short.${isWidth ? 'measure-again-width' : what}`);
}
