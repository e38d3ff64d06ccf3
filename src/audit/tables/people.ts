import type { Worker } from '../facts/worker.js';
import { sealed, type SealedTable } from '../table/column.js';

/** Who lifted feet or scored the herd, with the training on file, and how often they said that tools were disinfected. */
export function peopleTable(workers: readonly Worker[]): SealedTable {
  return sealed<Worker>({
    name: 'people',
    rows: workers,
    columns: [
      { name: 'name', kind: 'text', of: ({ name }) => name },
      {
        name: 'training_standing',
        kind: 'word',
        words: 'audit.training',
        strongWhen: ['run-out', 'not-on-file'],
        of: ({ training }) => training.standing,
      },
      { name: 'training', kind: 'text', beneath: true, of: ({ training }) => training.training },
      { name: 'training_valid_to', kind: 'day', beneath: true, of: ({ training }) => training.validTo },
      { name: 'lifted_visits', kind: 'number', of: ({ lifted }) => lifted },
      { name: 'animals_lifted', kind: 'number', of: ({ animals }) => animals },
      {
        name: 'tools_disinfected',
        kind: 'share',
        of: ({ disinfected, lifted, animals }) =>
          lifted === 0 ? undefined : { count: disinfected, of: lifted, animals },
      },
      { name: 'gait_rounds', kind: 'number', of: ({ rounds }) => rounds },
      { name: 'last_day', kind: 'day', of: ({ last }) => last },
    ],
  });
}
