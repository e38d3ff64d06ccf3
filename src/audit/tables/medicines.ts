import type { CalendarDay } from '../../record/calendar-day.js';
import type { Withheld } from '../../schedule/withdrawal.js';
import type { Words } from '../../words/words.js';
import { type MedicineUse } from '../facts/medicine-use.js';
import { sealed, type SealedTable } from '../table/column.js';
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
      {
        name: 'milk_withdrawal',
        kind: 'text',
        of: ({ withdrawal }, words) => heldInWords(words, withdrawal.milk),
      },
      {
        name: 'milk_withheld_through',
        kind: 'day',
        beneath: true,
        of: ({ withdrawal }) => days(withdrawal.milk)?.last,
      },
      {
        name: 'milk_clear_from',
        kind: 'day',
        beneath: true,
        of: ({ withdrawal }) => days(withdrawal.milk)?.clear,
      },
      {
        name: 'meat_withdrawal',
        kind: 'text',
        of: ({ withdrawal }, words) => heldInWords(words, withdrawal.meat),
      },
      {
        name: 'meat_withheld_through',
        kind: 'day',
        beneath: true,
        of: ({ withdrawal }) => days(withdrawal.meat)?.last,
      },
      {
        name: 'meat_clear_from',
        kind: 'day',
        beneath: true,
        of: ({ withdrawal }) => days(withdrawal.meat)?.clear,
      },
      {
        name: 'missing',
        kind: 'lines',
        blank: true,
        of: ({ missing }, words) => missing.map((part) => words.say(`audit.part.${part}`)),
      },
    ],
  });
}

function heldInWords(words: Words, held: Withheld): string {
  switch (held.outcome) {
    case 'withheld':
      if (held.hours !== undefined) return words.say('audit.held.hours', { count: held.hours });
      if (held.milkings !== undefined) return words.say('audit.held.milkings', { count: held.milkings });
      return words.say('audit.held.days', { count: held.days });
    case 'milkings-a-day-not-known':
      return words.say('audit.held.uncounted', { count: held.milkings });
    default:
      return words.say(`audit.held.${held.outcome}`);
  }
}

function days(held: Withheld): { last: CalendarDay; clear: CalendarDay } | undefined {
  return held.outcome === 'withheld' ? { last: held.lastWithheld, clear: held.firstClear } : undefined;
}
