import { phrase } from '../../book/fact.js';
import type { Side } from '../../schedule/withheld.js';
import { periodInWords } from '../../words/compose-withheld.js';
import { type MedicineUse } from '../facts/medicine-use.js';
import { type Column, sealed, type SealedTable } from '../table/column.js';
import { animalColumns } from './animal-columns.js';
import { lesionWithSite } from './lesion-with-site.js';

/** Every product used in the period, with what a medicine's record must hold and what is missing of it. */
export function medicinesTable(uses: readonly MedicineUse[]): SealedTable {
  return sealed<MedicineUse>({
    name: 'medicines',
    rows: uses,
    columns: [
      ...animalColumns<MedicineUse>(),
      { name: 'first_day', kind: 'day', of: ({ first }) => first },
      { name: 'last_day', kind: 'day', of: ({ last }) => last },
      { name: 'product', kind: 'text', of: ({ use }) => use.product },
      { name: 'active', kind: 'text', beneath: true, of: ({ use }) => use.active },
      {
        name: 'class',
        kind: 'word',
        words: 'vocabulary.product-class',
        beneath: true,
        of: ({ use }) => use.class,
      },
      { name: 'batch', kind: 'text', beneath: true, of: ({ use }) => use.batch },
      {
        name: 'used_for',
        kind: 'text',
        blank: true,
        of: ({ use, record, visit }, words) =>
          use.lesion && lesionWithSite(words, record.animal, use.lesion, visit),
      },
      { name: 'amount', kind: 'text', of: ({ use }) => use.amount },
      { name: 'route', kind: 'text', beneath: true, of: ({ use }) => use.route },
      { name: 'given_by', kind: 'text', whole: true, of: ({ use }) => use['given-by'] },
      { name: 'prescribed_by', kind: 'text', beneath: true, of: ({ use }) => use['prescribed-by'] },
      ...withdrawalColumns('milk'),
      ...withdrawalColumns('meat'),
      {
        name: 'missing',
        kind: 'lines',
        blank: true,
        of: ({ missing }, words) => missing.map((part) => words.say(`audit.part.${part}`)),
      },
    ],
  });
}

/** The period as written of the product; the days of all she was given, or that they are not known. */
function withdrawalColumns(side: Side): Column<MedicineUse>[] {
  const heldOf = ({ periods, withheld }: MedicineUse) => {
    const held = withheld[side];
    return periods[side].outcome === 'days' && held.outcome === 'withheld' ? held : undefined;
  };
  return [
    {
      name: `${side}_withdrawal`,
      kind: 'text',
      of: ({ periods, withheld }, words) =>
        phrase(
          periodInWords(words, periods[side]),
          periods[side].outcome === 'days' &&
            withheld[side].outcome === 'not-known' &&
            words.say('jobs.withheld.not-known'),
        ),
    },
    {
      name: `${side}_withheld_through`,
      kind: 'day',
      beneath: true,
      of: (row) => heldOf(row)?.lastWithheld,
    },
    {
      name: `${side}_clear_from`,
      kind: 'day',
      beneath: true,
      of: (row) => heldOf(row)?.firstClear,
    },
  ];
}
