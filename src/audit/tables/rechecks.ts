import type { Recheck } from '../facts/recheck.js';
import { sealed, type SealedTable } from '../table/column.js';
import { animalColumns } from './animal-columns.js';

/** Every recheck to be done in the period, and what became of it. */
export function rechecksTable(rechecks: readonly Recheck[]): SealedTable {
  return sealed<Recheck>({
    name: 'rechecks',
    rows: rechecks,
    columns: [
      ...animalColumns<Recheck>(),
      { name: 'due', kind: 'day', of: ({ due }) => due },
      {
        name: 'standing',
        kind: 'word',
        words: 'audit.recheck',
        strongWhen: ['missed'],
        of: ({ standing }) => standing,
      },
      { name: 'moved_to', kind: 'day', beneath: true, of: ({ movedTo }) => movedTo },
      { name: 'run_ended', kind: 'day', beneath: true, of: ({ ended }) => ended?.on },
      {
        name: 'result',
        kind: 'word',
        words: 'vocabulary.result',
        beneath: true,
        of: ({ ended }) => ended?.result,
      },
      { name: 'lifted', kind: 'day', blank: true, of: ({ lifted }) => lifted?.day },
      { name: 'lifted_by', kind: 'text', blank: true, whole: true, of: ({ lifted }) => lifted?.by },
      {
        name: 'days_late',
        kind: 'number',
        blank: true,
        of: ({ lifted }) => (lifted && lifted.days > 0 ? lifted.days : undefined),
      },
      { name: 'set_on', kind: 'day', of: ({ set }) => set },
      { name: 'set_by', kind: 'text', whole: true, of: ({ by }) => by },
      { name: 'why_missed', kind: 'lines', blank: true, of: ({ why }) => why },
    ],
  });
}
