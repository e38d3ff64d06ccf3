import { bareMark } from '../../record/bare-mark.js';
import type { animal as animalSchema } from '../../record/animal.js';
import type { KeptFile } from '../kept-file.js';
import type { ListRow } from './read-rows.js';

/** An animal's file of the farm, open. */
export interface KeptAnimal {
  readonly slug: string;
  readonly kept: KeptFile<typeof animalSchema>;
}

/** The file a row is about, `none` where she has none, or why that cannot be told. */
export type RowMatch =
  | { readonly outcome: 'file'; readonly animal: KeptAnimal }
  | { readonly outcome: 'none' }
  | { readonly outcome: 'unsure'; readonly message: string };

/**
 * Whose row it is: by her number, and by her marks where the row or the files leave the number open.
 *
 * A mark that is on file under another number is never taken for the animal of the row's number.
 *
 * Checked: tests/cli/import.test.ts
 */
export function matchRow({ values }: ListRow, animals: readonly KeptAnimal[]): RowMatch {
  const number = values['animal'];
  const marked = animals.filter(({ kept: { record } }) =>
    (['tag', 'electronic'] as const).some(
      (key) =>
        values[key] !== undefined &&
        record[key] !== undefined &&
        bareMark(record[key]) === bareMark(String(values[key])),
    ),
  );
  const numbered = animals.filter(({ kept }) => kept.record.animal === number);
  const both = numbered.filter((one) => marked.includes(one));
  const [only, ...others] = number === undefined ? marked : both.length > 0 ? both : numbered;
  const [elsewhere] = marked.filter((one) => number !== undefined && !numbered.includes(one));
  if (elsewhere)
    return {
      outcome: 'unsure',
      message: `her mark is that of ${elsewhere.kept.file}, whose number is ${elsewhere.kept.record.animal} and not ${String(number)}: \`growdown renumber\` gives a new number, or the list is wrong`,
    };
  if (others.length > 0)
    return {
      outcome: 'unsure',
      message: `${[only!, ...others].map(({ kept }) => kept.file).join(' and ')} both fit: a row with her official tag, and that tag in her file, tells which`,
    };
  return only ? { outcome: 'file', animal: only } : { outcome: 'none' };
}
