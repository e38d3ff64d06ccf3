import type { Animal } from '../../record/animal.js';
import { missedElectronicShape, missedTagShape } from '../../reference/tag-shapes.js';
import type { Finding } from '../finding.js';
import { warn } from './finding-at.js';

/** Official marks have a shape. One that misses it is only warned about: what the ear says wins. */
export function checkIdentityShapes({ tag, electronic }: Animal): Finding[] {
  const found: Finding[] = [];
  const tagShape = tag && missedTagShape(tag);
  if (tagShape)
    found.push(
      warn(
        'tag-shape',
        ['tag'],
        `tag is ${tag}, expected ${tagShape.said}, as in ${tagShape.example}`,
        'read it again off the tag; if the tag says so, leave it',
      ),
    );
  const electronicShape = electronic && missedElectronicShape(electronic);
  if (electronicShape)
    found.push(
      warn(
        'electronic-shape',
        ['electronic'],
        `electronic is ${electronic}, expected ${electronicShape.said}, as in ${electronicShape.example}`,
        'read it again; if the reader says so, leave it',
      ),
    );
  return found;
}
