import type { Animal } from '../../record/animal.js';
import type { AnimalCheckContext } from '../check-context.js';
import type { Finding } from '../finding.js';
import { slugFrom } from '../case-folder-names.js';
import { remark } from './finding-at.js';

/**
 * The file of an animal is named after her number, so that she is found again; a copy begun from another cow's file
 * keeps the other's number. More may follow the number behind a hyphen: `2086-2.md` is the second cow that bore it.
 *
 * A number with letters that no file name may hold cannot be compared and is passed over.
 */
export function checkNumberOfFile({ animal: number }: Animal, { animalSlug }: AnimalCheckContext): Finding[] {
  const slug = slugFrom(number);
  const spelled = /^[\p{ASCII}]*$/u.test(number) && slug !== '';
  if (!spelled || animalSlug === slug || animalSlug.startsWith(`${slug}-`)) return [];
  return [
    remark(
      'number-unlike-file-name',
      ['animal'],
      `number ${number} stands in the file ${animalSlug}.md, expected ${slug}.md: is it a copy?`,
      `if she is ${number}, rename the file to \`${slug}.md\`; if the file was begun as a copy, correct the number and look through the rest`,
    ),
  ];
}
