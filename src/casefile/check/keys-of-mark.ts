import type { Animal } from '../../record/animal.js';
import type { Finding } from '../finding.js';
import { refuse, warn } from './finding-at.js';
import { markLooks } from './look.js';

const markKeys = new Set(['distance', 'tool', 'lifted', 'note']);

/** A mark is only measured: coronet to mark. */
export function checkKeysOfMark(animal: Animal): Finding[] {
  const looks = markLooks(animal).filter(({ name }) => !Object.hasOwn(animal.lesions, name));
  return looks.flatMap(({ name, found, declared, visit, path }) => {
    const odd = Object.keys(found)
      .filter((key) => !markKeys.has(key))
      .map((key) =>
        refuse(
          'not-for-mark',
          [...path, key],
          `found.${name}.${key} stands on a mark, expected \`distance\`, \`tool\` and \`note\` only`,
          'write the distance from the coronet to the mark as `distance`; a lesion is declared under `lesions`',
          'key',
        ),
      );
    const groove = declared['groove-from'];
    if (groove !== undefined && visit.date < groove)
      odd.push(
        refuse(
          'groove-after-reading',
          ['marks', name, 'groove-from'],
          `groove-from of ${name} is ${groove}, expected a day before it was first found, ${visit.date}`,
          'write the day of the event that left the groove',
        ),
      );
    const leftDown = found.lifted === false || visit.feet?.[declared.foot]?.lifted === false;
    if (found.distance === undefined && !leftDown)
      odd.push(
        warn(
          'mark-without-distance',
          path,
          `found.${name} has no distance, expected mm from the coronet to the mark`,
          'measure it, or take the entry out',
          'key',
        ),
      );
    return odd;
  });
}
