import type { CaseRecord } from '../../record/practice.js';
import type { Column } from '../table/column.js';

/** Whose row it is: her number on the farm, and her official tag where it is written. */
export function animalColumns<Row extends { readonly record: CaseRecord }>(): readonly Column<Row>[] {
  return [
    { name: 'animal', kind: 'text', of: ({ record }) => record.animal.animal },
    {
      name: 'tag',
      kind: 'text',
      beneath: true,
      unlabelled: true,
      whole: true,
      of: ({ record }) => record.animal.tag,
    },
  ];
}
