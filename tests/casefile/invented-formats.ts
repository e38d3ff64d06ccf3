import { z } from 'zod';
import type { UpgradeStep } from '../../src/casefile/upgrade/to-newest.js';
import { animal } from '../../src/record/animal.js';

/** Two invented versions: the second knows where a cow is, the third how many visits she has had. */
export const thirdFormat = animal.extend({
  casefile: z.literal(3),
  bay: z.enum(['front', 'back']),
  lifts: z.int().optional(),
});
export const invented: readonly UpgradeStep[] = [
  { from: 1, says: 'A cow has a bay.', steps: () => [{ put: 'key', path: [], key: 'bay', value: 'front' }] },
  {
    from: 2,
    says: 'Her visits are counted, and one in the front bay moves back.',
    steps: (record) => [
      { put: 'key', path: [], key: 'lifts', value: (record['visits'] as unknown[]).length },
      ...(record['bay'] === 'front' ? [{ put: 'value', path: ['bay'], value: 'back' } as const] : []),
    ],
  },
];
