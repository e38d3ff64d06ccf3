import type { RecordPath } from '../../problem/problem.js';
import type { Animal } from '../../record/animal.js';
import type { Finding } from '../finding.js';
import { refuse } from './finding-at.js';

/** Every lesion or mark that is named must be declared, and each name stands for one thing. */
export function checkDeclaredNames(animal: Animal): Finding[] {
  const marks = animal.marks ?? {};
  return [
    ...Object.keys(marks)
      .filter((name) => Object.hasOwn(animal.lesions, name))
      .map((name) =>
        refuse(
          'name-twice',
          ['marks', name],
          `${name} is declared as a lesion and as a mark, expected one of the two`,
          'give the mark a short name of its own, here and in the visits',
          'key',
        ),
      ),
    ...animal.visits.flatMap((visit, i) => [
      ...Object.keys(visit.found ?? {}).flatMap((name) =>
        Object.hasOwn(animal.lesions, name) || Object.hasOwn(marks, name)
          ? []
          : [
              refuse(
                'found-undeclared',
                ['visits', i, 'found', name],
                `found names ${name}, which is not declared; ${declaredIn({ ...animal.lesions, ...marks }, 'lesion or mark')}`,
                `declare ${name} under \`lesions\` or \`marks\` (\`growdown visit\` takes it as \`--lesions "${name}: …"\`), or correct the name`,
                'key',
              ),
            ],
      ),
      ...(visit['cut-back'] ?? []).flatMap((name, at) =>
        lesionNamed(animal, name, 'cut-back', ['visits', i, 'cut-back', at]),
      ),
      ...(visit.products ?? []).flatMap(({ lesion }, at) =>
        lesion === undefined
          ? []
          : lesionNamed(animal, lesion, 'product-lesion', ['visits', i, 'products', at, 'lesion']),
      ),
    ]),
  ];
}

function lesionNamed(
  animal: Animal,
  name: string,
  id: 'cut-back' | 'product-lesion',
  path: RecordPath,
): Finding[] {
  if (Object.hasOwn(animal.lesions, name)) return [];
  const key = id === 'cut-back' ? 'cut-back' : "the product's lesion";
  return [
    refuse(
      `${id}-undeclared`,
      path,
      Object.hasOwn(animal.marks ?? {}, name)
        ? `${key} names ${name}, which is a mark, expected a lesion`
        : `${key} names ${name}, which is not declared; ${declaredIn(animal.lesions, 'lesion')}`,
      `declare ${name} under \`lesions\`, or correct the name`,
    ),
  ];
}

/** What could have been meant. */
export function declaredIn(names: Readonly<Record<string, unknown>>, what: string): string {
  const all = Object.keys(names);
  return all.length > 0 ? `declared are ${all.join(', ')}` : `no ${what} is declared`;
}
